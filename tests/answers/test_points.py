"""What a person decides on, from comparisons with nothing else in them: each change once, the worst first."""

from __future__ import annotations

from dataclasses import replace

import pytest

from spanbook.answers.applicability import State
from spanbook.answers.diff.model import (
    Answer,
    AnswerChange,
    BreakChange,
    Comparison,
    OrderChange,
    StandingChange,
    YearChange,
)
from spanbook.answers.diff.points import Sort, points
from spanbook.answers.reasons import Weight
from spanbook.answers.standing import Standing
from spanbook.ground.intervals import Run
from spanbook.ground.part_numbers import PartKey
from spanbook.ground.piecewise import Change
from spanbook.reading.records import GonePage
from tests.answers.test_diff_grounds import BOOK, EARLY, LATE, world
from tests.support.comparisons import compared, seen
from tests.support.registers import lid

# A find that contradicts; and a span that is another on the word of the same page.
DOUBTED = compared(world(EARLY, LATE), world(EARLY, LATE, seen(18, "early")))
TYPED = compared(world(EARLY), world(lid("early", "first: 1, last: [10, 12]", BOOK)))
NOTHING = compared(world(EARLY), world(EARLY))

CONFLICT, SETTLED = Answer(str(State.CONFLICT), ()), Answer(str(State.SETTLED), ())
FALLS = StandingChange("assembly", "early", "span-xa", Standing.CONFIRMED, Standing.PRINTED)


def sorts(found: Comparison) -> list[Sort]:
    return [point.sort for point in points(found)]


def answer(before: Answer | None, after: Answer | None) -> AnswerChange:
    return AnswerChange("xa", "cover", Change(1, 5, before, after))


def test_nothing_changed_and_nothing_is_to_be_decided() -> None:
    assert points(NOTHING) == ()


def test_the_worst_stands_first_and_each_is_there() -> None:
    series = NOTHING.new.series["xa"]
    moved = BreakChange(series, "cover", "early", "late", Run(1, 9), Run(3, 9), ())
    found = replace(
        NOTHING,
        answers=(answer(SETTLED, None), answer(None, CONFLICT)),
        years=(YearChange("xa", Change(1, 5, None, None)),),
        orders=(OrderChange(PartKey("m", "p1"), None, None),),
        standings=(FALLS,),
        gone=(GonePage("/was/", "It was told twice"),),
        breaks=(moved,),
    )
    assert sorts(found) == [
        Sort.CONFLICT,
        Sort.GONE,
        Sort.FALLEN,
        Sort.ORDER,
        Sort.ANSWER,
        Sort.BREAK,
        Sort.YEAR,
    ]
    told = {point.sort: point.change for point in points(found)}
    assert (told[Sort.GONE], told[Sort.ORDER], told[Sort.BREAK]) == (found.gone[0], found.orders[0], moved)


@pytest.mark.parametrize(
    ("before", "after", "sort"),
    [
        (None, CONFLICT, Sort.CONFLICT),
        (SETTLED, CONFLICT, Sort.CONFLICT),
        (CONFLICT, CONFLICT, Sort.ANSWER),
        (CONFLICT, SETTLED, Sort.ANSWER),
        (CONFLICT, None, Sort.ANSWER),
        (SETTLED, None, Sort.ANSWER),
    ],
)
def test_a_conflict_is_one_where_there_was_none(
    before: Answer | None, after: Answer | None, sort: Sort
) -> None:
    assert sorts(replace(NOTHING, answers=(answer(before, after),))) == [sort]


def test_a_statement_typed_anew_may_fall_besides_but_is_not_gone() -> None:
    (change,) = TYPED.unbacked
    key = change.after.record.kind, change.after.record.id, change.before.anchor
    alone = replace(NOTHING, statements=(change,))
    falls = replace(FALLS, kind=key[0], record=key[1], anchor=key[2])
    assert sorts(replace(alone, standings=(falls,))) == [Sort.UNBACKED, Sort.FALLEN]
    assert sorts(replace(alone, standings=(replace(falls, after=None),))) == [Sort.UNBACKED]
    elsewhere = replace(falls, after=None, anchor="another")
    assert sorts(replace(alone, standings=(elsewhere,))) == [Sort.UNBACKED, Sort.GONE]


def test_a_standing_is_told_already_only_by_the_same_find_against_it() -> None:
    reason = DOUBTED.against[0].reason
    falls = replace(FALLS, after=Standing.DISPUTED, gained=(reason,))
    known = replace(NOTHING, against=DOUBTED.against, standings=(falls,))
    assert sorts(known) == [Sort.AGAINST]
    assert sorts(replace(known, against=())) == [Sort.FALLEN]
    aside = replace(falls, gained=(replace(reason, weight=Weight.SET_ASIDE),))
    assert sorts(replace(known, standings=(aside,))) == [Sort.AGAINST, Sort.FALLEN]


def test_a_standing_that_rises_is_told_last_and_one_that_is_new_in_the_answers() -> None:
    rises = replace(FALLS, before=Standing.PRINTED, after=Standing.CONFIRMED)
    assert sorts(replace(NOTHING, standings=(rises, FALLS))) == [Sort.FALLEN, Sort.RISEN]
    assert sorts(replace(NOTHING, standings=(replace(FALLS, before=None),))) == []
