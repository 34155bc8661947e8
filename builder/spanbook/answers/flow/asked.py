"""What is asked of a machine's circuits: one of them or all, in which state, and with what fault."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from spanbook.answers.flow.faults import Fault, Wrong, faults_of
from spanbook.answers.flow.on_machine import MachineCircuit
from spanbook.answers.flow.pieces import Arranged
from spanbook.reading.records import Circuit, CircuitState

_STILL = CircuitState("still", "As it is", None, None)


@dataclass(frozen=True, slots=True, eq=False)
class FlowAsked:
    """The circuits that are asked of; `fault` is the id of a way and what is wrong with it."""

    circuits: tuple[MachineCircuit, ...]
    state: str | None
    fault: tuple[str, Wrong] | None

    @classmethod
    def of(
        cls,
        found: Sequence[MachineCircuit],
        circuit: str | None,
        state: str | None,
        faults: Sequence[tuple[str, Wrong]] = (),
    ) -> FlowAsked:
        """Raises LookupError, saying what there is, for what no circuit of the machine has."""
        if not found:
            raise LookupError("no record has a circuit of that machine")
        if len(faults) > 1:
            raise LookupError("one thing wrong at a time: give one of --without, --plugged and --stuck")
        here = tuple(one for one in found if circuit in (None, one.circuit.id))
        if not here:
            raise LookupError(f"no circuit {circuit}; there is {_listed(one.circuit.id for one in found)}")
        states = [one.id for each in here for one in each.circuit.states]
        if state is not None and state not in states:
            raise LookupError(f"no state {state}; there is {_listed(states)}")
        asked = cls(here, state, faults[0] if faults else None)
        if asked.fault and not any(
            asked.fault_in(one.arranged) for each in here for one in each.arrangements
        ):
            raise LookupError(asked._no_such_way())
        return asked

    def states_of(self, circuit: Circuit) -> tuple[CircuitState, ...]:
        """The state that is asked for, else all that the circuit has; without any, that it runs somehow."""
        return tuple(one for one in circuit.states if self.state in (None, one.id)) or (_STILL,)

    def fault_in(self, arranged: Arranged) -> Fault | None:
        """The fault that is asked for, where an arrangement has that way and it can go wrong so."""
        if self.fault is None:
            return None
        piece = arranged.piece(self.fault[0])
        return next((one for one in faults_of(piece) if one.wrong is self.fault[1]), None) if piece else None

    def _no_such_way(self) -> str:
        assert self.fault is not None, "a way was named"
        way, how = self.fault
        possible = [
            piece.id
            for each in self.circuits
            for one in each.arrangements
            for piece in one.arranged.pieces
            if any(fault.wrong is how for fault in faults_of(piece))
        ]
        return (
            f"no way {way} that can be {how.replace('-', ' ')}; there is {_listed(dict.fromkeys(possible))}"
        )


def _listed(ids: Iterable[str]) -> str:
    return ", ".join(ids) or "none"
