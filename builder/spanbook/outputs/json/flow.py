"""Which way it goes through a machine, as a JSON object (`schema/answer-flow.json`)."""

from __future__ import annotations

from typing import Any

from spanbook.answers.answers import Answers
from spanbook.answers.flow.asked import FlowAsked
from spanbook.answers.flow.faults import Fault
from spanbook.answers.flow.figures import Change, Figures, Worked
from spanbook.answers.flow.inputs import Input
from spanbook.answers.flow.on_machine import Likely, MachineCircuit
from spanbook.answers.flow.pieces import Arranged
from spanbook.answers.flow.routes import Route, routes, served
from spanbook.ground.flow.bounds import Between
from spanbook.reading.records import Conversion

Object = dict[str, Any]


def as_object(answers: Answers, serial: str, asked: FlowAsked) -> Object:
    """Flows in m³/s (amperes of current), pressures in Pa (volts), shares from 0 to 1; each between two
    ends.
    """
    return {
        "query": serial,
        "kind": "flow",
        "circuits": [_circuit(answers, one, asked) for one in asked.circuits],
    }


def _circuit(answers: Answers, one: MachineCircuit, asked: FlowAsked) -> Object:
    return {
        "circuit": one.circuit.id,
        "medium": one.circuit.medium,
        "arrangements": [_arrangement(answers, likely, asked) for likely in one.arrangements],
        "rest": float(one.rest),
        "after": [_after(taken, after) for taken, after in one.after],
    }


def _after(taken: tuple[Conversion, ...], after: Arranged) -> Object:
    return {
        "conversions": [conversion.id for conversion in taken],
        "fitted": {position: assembly.id for position, assembly in after.fitted.items()},
        "served": [{"way": one.piece.id, "cleaned": one.cleaned.value} for one in served(after)]
        if after.whole
        else [],
    }


def _arrangement(answers: Answers, likely: Likely, asked: FlowAsked) -> Object:
    arranged = likely.arranged
    fault = asked.fault_in(arranged)
    return {
        "share": float(likely.share),
        "fitted": {position: assembly.id for position, assembly in arranged.fitted.items()},
        "unrecorded": [assembly.id for assembly in arranged.without],
        "unknown": list(arranged.empty),
        "fault": _fault(fault) if fault else None,
        "served": [{"way": one.piece.id, "cleaned": one.cleaned.value} for one in served(arranged, fault)],
        "routes": [_route(route) for route in routes(arranged, fault)],
        "states": [
            _state(answers.worked(arranged, state, fault), fault)
            for state in asked.states_of(arranged.circuit)
        ],
    }


def _route(route: Route) -> Object:
    return {
        "ways": [piece.id for piece in route.pieces],
        "end": route.end,
        "cleaned-by": [piece.id for piece in route.cleaned_by],
        "opening": [piece.id for piece in route.valves],
    }


def _state(worked: Worked, fault: Fault | None) -> Object:
    figures = worked.figures
    return {
        "state": worked.state.id,
        "missing": [{"way": one.piece.id if one.piece else None, "what": one.what} for one in worked.missing],
        "figures": _figures(figures) if figures else None,
        "faults": [_change(one) for one in worked.changes] if fault is None else [],
        "measure-next": [{"way": one.piece.id, "what": one.what} for one in worked.widest if one.piece],
    }


def _figures(figures: Figures) -> Object:
    return {
        "flows": {id_: _ends(one) for id_, one in figures.flows.items()},
        "pressures": {place: _ends(one) for place, one in figures.pressures.items()},
        "cleaned": _ends(figures.cleaned) if figures.cleaned else None,
        "served": _ends(figures.served) if figures.served else None,
        "inputs": [_input(one) for one in figures.inputs],
    }


def _input(one: Input) -> Object:
    return {
        "way": one.piece.id if one.piece else None,
        "what": one.what,
        "low": one.low,
        "high": one.high,
        "rests-on": one.weight.name.lower(),
    }


def _change(one: Change) -> Object:
    return {
        **_fault(one.fault),
        "moved": {name: _ends(by) for name, by in one.moved.items()},
        "then": {name: _ends(by) for name, by in one.then.items()},
    }


def _fault(one: Fault) -> Object:
    return {"way": one.piece.id, "wrong": one.wrong.value}


def _ends(one: Between) -> list[float]:
    return [one.low, one.high]
