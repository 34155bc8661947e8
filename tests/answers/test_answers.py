"""One place for what a register answers: the same whoever asks, and in any order."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from spanbook.answers.answers import Answers
from spanbook.answers.applicability import Fits
from spanbook.answers.assumed import Assumed
from spanbook.answers.breaks import all_breaks
from spanbook.answers.changepoint import GUESSED, Rates
from spanbook.answers.counted import counted
from spanbook.answers.line_breaks import LineBreak, line_breaks
from spanbook.answers.lines_asked import lines_asked
from spanbook.answers.orders import orders
from spanbook.answers.questions import About, questions
from spanbook.answers.standing import Judgement, standings
from spanbook.reading.records import Assembly, Series
from spanbook.register.statements import Statement
from tests.support.demo import demo
from tests.support.tries import tries

REGISTER = demo()
RATES = Rates(converted=Fraction(1, 5))
ANSWERS = Answers(REGISTER, lambda: Assumed(RATES))


@cache
def all_standings() -> Mapping[Statement, Judgement]:
    return standings(Fits(REGISTER))


def test_it_gives_what_the_computations_give() -> None:
    breaks = tuple(all_breaks(Fits(REGISTER), RATES))
    assert ANSWERS.standings == all_standings()
    assert ANSWERS.breaks == breaks
    assert ANSWERS.breaks != tuple(all_breaks(Fits(REGISTER), Rates()))
    short, seen = ANSWERS.shortfalls.every, ANSWERS.beyond
    fits = Fits(REGISTER)
    found = questions(fits, all_standings(), breaks, shortfalls=short, beyond=seen)
    of_lines = lines_asked(fits, all_standings(), _line_breaks(fits))
    # Those of circuits and of signs are held in test_measures_asked and test_signs.
    asked = [q for q in ANSWERS.questions if q.about not in (About.MEASURE, About.ALIKE)]
    assert tuple(asked) == counted(fits, (*found, *of_lines))


def _line_breaks(fits: Fits) -> Iterator[LineBreak]:
    for assembly in REGISTER.assemblies.values():
        yield from line_breaks(fits, assembly, RATES, GUESSED)


def test_what_is_asked_again_is_the_same_thing() -> None:
    assert ANSWERS.fits is ANSWERS.fits
    assert ANSWERS.breaks is ANSWERS.breaks
    assert ANSWERS.questions is ANSWERS.questions
    (fitting, *_) = REGISTER.fittings["hk", "lubrication/oil-filter"]
    assert ANSWERS.standing(fitting) is ANSWERS.standing(fitting)
    assert ANSWERS.standings[REGISTER.said[fitting]] is ANSWERS.standing(fitting)
    series = REGISTER.series["hk"]
    assert ANSWERS.fits.segments(series, "lubrication/oil-filter") is ANSWERS.fits.segments(
        series, "lubrication/oil-filter"
    )
    for teardown in REGISTER.teardowns.values():
        assert ANSWERS.fits.possible(teardown) is ANSWERS.fits.possible(teardown)


def test_orders_are_followed_once() -> None:
    assert ANSWERS.ordering is ANSWERS.ordering
    for key in REGISTER.parts:
        assert ANSWERS.ordering.of(key) == orders(REGISTER, key)


def test_breaks_and_questions_are_found_by_what_they_are_about() -> None:
    for series in REGISTER.series.values():
        assert list(ANSWERS.breaks_of(series)) == [b for b in ANSWERS.breaks if b.series is series]
        assert list(ANSWERS.questions_of(series)) == [q for q in ANSWERS.questions if q.series is series]
    for assembly in REGISTER.assemblies.values():
        mine = [b for b in ANSWERS.breaks if assembly in (b.earlier, b.later)]
        assert list(ANSWERS.breaks_of(assembly)) == mine
    assert any(ANSWERS.breaks_of(assembly) for assembly in REGISTER.assemblies.values())
    for record in REGISTER.records:
        assert list(ANSWERS.beyond_of(record)) == [one for one in ANSWERS.beyond if one.of is record]
    assert any(isinstance(one.of, Assembly) for one in ANSWERS.beyond)


def test_the_breaks_of_one_are_weighed_without_the_others(monkeypatch: pytest.MonkeyPatch) -> None:
    weighed: list[tuple[str, Series]] = []

    def noted(fits: Fits, position: str, series: Series, *rest: object) -> tuple[()]:
        weighed.append((position, series))
        return ()

    monkeypatch.setattr("spanbook.answers.answers.breaks_at", noted)
    asked = Answers(REGISTER)
    assembly = next(one for one in REGISTER.assemblies.values() if one.serials)
    asked.breaks_of(assembly)
    assert weighed
    assert {position for position, _ in weighed} == {assembly.position}
    weighed.clear()
    series = next(iter(REGISTER.series.values()))
    Answers(REGISTER).breaks_of(series)
    assert {one.id for _, one in weighed} == {series.id}


@settings(max_examples=tries(20))
@given(st.lists(st.sampled_from(REGISTER.statements), max_size=30))
def test_the_order_of_asking_never_matters(asked: list[Statement]) -> None:
    answers = Answers(REGISTER)
    for statement in asked:
        assert answers.standing(statement.subject) == all_standings()[statement]
