"""What is asked of a machine's circuits, read from what somebody typed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from spanbook.answers.flow.asked import FlowAsked
from spanbook.answers.flow.faults import Wrong, faults_of
from spanbook.answers.flow.on_machine import MachineCircuit
from spanbook.ground.language import gettext as _
from spanbook.ground.language import pgettext


def flow_asked(
    found: Sequence[MachineCircuit],
    circuit: str | None = None,
    state: str | None = None,
    faults: Sequence[tuple[str, Wrong]] = (),
) -> FlowAsked:
    """One circuit (its id) or all, in one state (its id) or each, with one way (its id) at fault or none.

    Raises LookupError, saying what there is, for what no circuit of the machine has.
    """
    if not found:
        raise LookupError(_("no record has a circuit of that machine"))
    if len(faults) > 1:
        raise LookupError(_("one thing wrong at a time: give one of --without, --plugged and --stuck"))
    here = tuple(one for one in found if circuit in (None, one.circuit.id))
    if not here:
        raise LookupError(
            _("no circuit {circuit}; there is {known}").format(
                circuit=circuit, known=_listed(one.circuit.id for one in found)
            )
        )
    states = [one.id for each in here for one in each.circuit.states]
    if state is not None and state not in states:
        raise LookupError(
            _("no state {state}; there is {states}").format(state=state, states=_listed(states))
        )
    asked = FlowAsked(here, state, faults[0] if faults else None)
    everywhere = [one.arranged for each in here for one in each.arrangements]
    if asked.fault and not any(map(asked.fault_in, everywhere)):
        way, wrong = asked.fault
        pieces = (piece for arranged in everywhere for piece in arranged.pieces)
        can = [piece.id for piece in pieces if any(one.wrong is wrong for one in faults_of(piece))]
        raise LookupError(
            _("no way {way} that can be {wrong}; there is {known}").format(
                way=way, wrong=wrong.replace("-", " "), known=_listed(can)
            )
        )
    return asked


def _listed(ids: Iterable[str]) -> str:
    return ", ".join(dict.fromkeys(ids)) or pgettext("to choose from", "none")
