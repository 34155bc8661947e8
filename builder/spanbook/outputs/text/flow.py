"""Which way it goes through a machine, as a person reads it in a terminal."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.answers import Answers
from spanbook.answers.flow.asked import FlowAsked
from spanbook.answers.flow.faults import Fault
from spanbook.answers.flow.figures import Worked
from spanbook.answers.flow.on_machine import Likely
from spanbook.answers.flow.routes import appear, routes, served
from spanbook.ground.language import gettext as _
from spanbook.ground.punctuation import headed, labelled
from spanbook.wording.flow import (
    CARE,
    FAULTS,
    MEASURE_NEXT,
    MOST_MEASURED,
    OPENS,
    RESTS_ON,
    ROUTES,
    WORKED_OUT,
    figure_lines,
    input_words,
    likely_words,
    measure_words,
    none_words,
    rest_words,
    rests_words,
    state_words,
)
from spanbook.wording.flow_faults import change_words, fault_words
from spanbook.wording.flow_here import after_line
from spanbook.wording.flow_ways import lacking_words, route_words, served_words
from spanbook.wording.pieces import plain

INDENT = "   "


def as_text(answers: Answers, serial: str, asked: FlowAsked) -> str:
    """Every circuit with each arrangement: its ways, then figures for each state, faults and what they rest
    on.
    """
    return "\n".join(_lines(answers, serial, asked))


def _lines(answers: Answers, serial: str, asked: FlowAsked) -> Iterator[str]:
    for one in asked.circuits:
        yield f"{serial}, {one.circuit.title}"
        for likely in one.arrangements:
            yield likely_words(likely)
            yield from (INDENT + line for line in _arrangement(answers, likely, asked))
        if told := rest_words(one):
            yield told
        yield from (plain(after_line(taken, after)) for taken, after in one.after)
    yield _(WORKED_OUT)
    yield from dict.fromkeys(_(CARE[one.circuit.medium]) for one in asked.circuits)


def _arrangement(answers: Answers, likely: Likely, asked: FlowAsked) -> Iterator[str]:
    arranged = likely.arranged
    fault = asked.fault_in(arranged)
    yield from lacking_words(answers.register, arranged)
    if not arranged.whole:
        return
    if fault:
        yield f"{fault_words(fault, arranged.circuit)}."
    yield from filter(None, (served_words(one, arranged) for one in served(arranged, fault)))
    yield headed(_(ROUTES))
    yield from (INDENT + route_words(route, arranged) for route in routes(arranged, fault))
    if fault and (opened := appear(arranged, fault)):
        yield headed(_(OPENS))
        yield from (INDENT + route_words(route, arranged) for route in opened)
    for state in asked.states_of(arranged.circuit):
        yield headed(state_words(state))
        yield from (INDENT + line for line in _figures(answers.worked(arranged, state, fault), fault))


def _figures(worked: Worked, fault: Fault | None) -> Iterator[str]:
    figures = worked.figures
    if figures is None:
        yield none_words(worked)
        return
    yield from figure_lines(worked, figures)
    if fault is None and worked.changes:
        yield headed(_(FAULTS))
        yield from (INDENT + change_words(change, worked.arranged) for change in worked.changes)
    if widest := worked.widest[:MOST_MEASURED]:
        yield headed(_(MEASURE_NEXT))
        yield from (INDENT + measure_words(one) for one in widest)
    yield labelled(_(RESTS_ON), rests_words(figures.inputs))
    yield from (INDENT + input_words(one) for one in figures.inputs)
