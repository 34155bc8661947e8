"""CPU seconds for the figures of every circuit: states, faults, and each fault that harms. By hand.

`.venv/bin/python -m tests.bench.circuits` in a community's folder.
"""

from __future__ import annotations

import time
from pathlib import Path

from spanbook import open_register
from spanbook.reading.records import Circuit


def main() -> None:
    register = open_register(Path())
    for circuit in register.of(Circuit).values():
        began = time.process_time()
        whole = [one.arranged for one in register.answers.arrangements(circuit) if one.arranged.whole]
        worked = [[register.answers.worked(one, state) for state in circuit.states] for one in whole]
        figures = sum(state.figures is not None for states in worked for state in states)
        changes = [change for states in worked for change in (states[0].changes if states else ())]
        harmful = sum(change.worked.figures is not None for change in changes if change.harms)
        spent = time.process_time() - began
        counts = f"{figures} states, {len(changes)} faults, {harmful} of which harm"
        print(f"{circuit.id}: {len(whole)} arrangements, {counts}: {spent:.2f} s")


if __name__ == "__main__":
    main()
