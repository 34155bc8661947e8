"""What is asked of a machine's circuits: one of them or all, in which state, and with what fault."""

from __future__ import annotations

from dataclasses import dataclass

from spanbook.answers.flow.faults import Fault, Wrong, faults_of
from spanbook.answers.flow.on_machine import MachineCircuit
from spanbook.answers.flow.pieces import Arranged
from spanbook.reading.records import Circuit, CircuitState

_STILL = CircuitState("still", "", None, None)


@dataclass(frozen=True, slots=True, eq=False)
class FlowAsked:
    """The circuits that are asked of; `fault` is the id of a way and what is wrong with it."""

    circuits: tuple[MachineCircuit, ...]
    state: str | None
    fault: tuple[str, Wrong] | None

    def states_of(self, circuit: Circuit) -> tuple[CircuitState, ...]:
        """The state that is asked for, else all that the circuit has; without any, that it runs somehow."""
        return tuple(one for one in circuit.states if self.state in (None, one.id)) or (_STILL,)

    def fault_in(self, arranged: Arranged) -> Fault | None:
        """The fault that is asked for, where an arrangement has that way and it can go wrong so."""
        if self.fault is None:
            return None
        piece = arranged.piece(self.fault[0])
        return next((one for one in faults_of(piece) if one.wrong is self.fault[1]), None) if piece else None
