"""Which sizes owners are asked to measure: the one that lacks, or what narrows the figures most."""

from __future__ import annotations

import pytest

from spanbook.answers.flow.pieces import Arranged, arranged
from spanbook.answers.flow.to_measure import MOST, Measure, to_measure
from spanbook.answers.measures_asked import UNSURE, measures_asked
from spanbook.answers.question_anchor import anchor
from spanbook.answers.questions import About, Question, machines_in
from spanbook.ground.intervals import Span, SpanSet
from spanbook.outputs.json import questions as questions_json
from spanbook.reading.records import Circuit
from tests.support.demo import demo

REGISTER = demo()
OIL = REGISTER.of(Circuit)["oil-type-h"]
BEARINGS = ("bearings", ("passes",))


def of(*assemblies: str) -> Arranged:
    held = [REGISTER.assemblies[id_] for id_ in assemblies]
    return arranged(OIL, {one.position: one for one in held})


def wanted(*assemblies: str) -> list[tuple[str, tuple[str, ...], bool]]:
    found = to_measure(REGISTER.answers.worked(of(*assemblies), OIL.states[0]))
    return [(one.way.id, one.what, one.lacking) for one, _ in found]


def asked(series: str) -> list[Question]:
    found = REGISTER.answers.questions_of(REGISTER.series[series])
    return [question for question in found if question.about is About.MEASURE]


def test_the_one_thing_that_lacks_is_asked_for_whole() -> None:
    lacking = ("pack", ("gap", "width", "depth", "count"), True)
    assert wanted("gauze-sump-strainer", "gear-pump-narrow", "edge-strainer") == [lacking]


def test_where_several_lack_no_one_answer_would_do() -> None:
    assert wanted("gauze-sump-strainer", "plunger-oil-pump", "edge-strainer") == []


def test_what_narrows_most_is_asked_first_and_with_what_goes_with_it() -> None:
    """How warm it was is read with what passes, and nobody measures a coefficient."""
    found = to_measure(
        REGISTER.answers.worked(
            of("gauze-sump-strainer", "gear-pump-narrow", "waste-packed-filter"), OIL.states[0]
        )
    )
    told = [(one.way.id, one.what, share) for one, share in found]
    assert told[0][:2] == BEARINGS
    assert [share for *_, share in told] == sorted((share for *_, share in told), reverse=True)
    assert len(told) == MOST
    assert {what for _, whats, _ in told for what in whats} == {"passes", "gives"}
    moved = REGISTER.answers.worked(
        of("gauze-sump-strainer", "gear-pump-narrow", "waste-packed-filter"), OIL.states[0]
    ).moved
    whole = sum(moved[f"bearings:{what}"] for what in ("passes", "at-drop", "at-warmth"))
    assert told[0][2] == pytest.approx(min(1, whole))


def test_all_machines_that_surely_have_it_are_asked_once() -> None:
    (bearings,) = (
        one for one in asked("hk") if one.measure and (one.measure.way.id, one.measure.what) == BEARINGS
    )
    assert list(bearings.runs) == [Span(613, 1021), Span(1041, 1180), Span(1205, 2140)]
    assert bearings.position is None
    assert bearings.assemblies == ()
    assert 0 < bearings.unsure <= UNSURE
    assert bearings.tells == "lubrication/oil-filter" or bearings.tells in {
        port.position for port in OIL.ports
    }


def test_the_mean_is_over_the_machines() -> None:
    """Numbers that were never issued are no machines."""
    series = REGISTER.series["hk"]
    surely = [
        (
            over,
            SpanSet.of(
                span for run in over.runs if run.sure and run.series is series for span in run.numbers
            ),
        )
        for over in REGISTER.answers.arrangements(OIL)
    ]
    (one, first), (other, second), *_ = [(over, runs) for over, runs in surely if runs]
    measure = Measure(OIL, OIL, OIL.ways[0], ("passes",), lacking=False)
    (found,) = measures_asked(series, [(one, [(measure, 0.5)]), (other, [(measure, 0.1)])])
    counts = [machines_in(runs & series.issued) for runs in (first, second)]
    assert found.machines == sum(counts)
    assert found.unsure == pytest.approx(UNSURE * (0.5 * counts[0] + 0.1 * counts[1]) / sum(counts))


def test_what_is_fitted_is_asked_at_its_position_and_what_is_not_of_the_circuit() -> None:
    found = [one for series in REGISTER.series for one in asked(series)]
    at = {one.position for one in found}
    assert None in at
    assert "lubrication/oil-filter" in at
    assert all([held.position for held in one.assemblies] == [one.position] for one in found if one.position)
    assert len({(one.series.id, anchor(one)) for one in found}) == len(found)
    told = questions_json.as_object(REGISTER, found)["questions"]
    assert all(one["measure"]["circuit"] in REGISTER.of(Circuit) for one in told)
    assert [one["position"] for one in told if one["measure"]["way"] == "bearings"] == [None] * 2


def test_an_owner_whose_machine_was_looked_at_is_still_asked_for_sizes() -> None:
    """What a teardown found at the filter says nothing of what passes the bearings."""
    (reading,) = REGISTER.read_serial("HK 701")
    assert REGISTER.answers.machines.looks.of(reading)
    open_ = [one for one in REGISTER.answers.machines.open_to(reading) if one.about is About.MEASURE]
    last = (About.MEASURE, About.ALIKE)
    sorts = [one.about in last for one in REGISTER.answers.machines.open_to(reading)]
    assert sorts == sorted(sorts), "what is to be seen is asked before what is to be measured"
    assert BEARINGS in [(one.measure.way.id, one.measure.what) for one in open_ if one.measure]
