"""How long a person waits for help: the whole command, with what it loads, in a process of its own.

python -m tests.bench.help [COMMAND]
"""

from __future__ import annotations

import os
import subprocess
import sys
import time

TIMES = 7


def once(*arguments: str) -> tuple[float, float]:
    """Seconds on the clock, and of the processor."""
    before, began = os.times(), time.perf_counter()
    subprocess.run([sys.executable, "-m", "spanbook", *arguments, "--help"], check=True, capture_output=True)
    after = os.times()
    worked = after.children_user + after.children_system - before.children_user - before.children_system
    return time.perf_counter() - began, worked


def main() -> None:
    waited, worked = (min(one) for one in zip(*(once(*sys.argv[1:]) for _ in range(TIMES)), strict=True))
    print(f"the quickest of {TIMES}: {waited:.2f} s, of which {worked:.2f} s of the processor")


if __name__ == "__main__":
    main()
