"""For whom an act applies: machines as sets with unsure ends, and conditions, each by its definition."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.answers.condition import (
    ALWAYS,
    Applies,
    Asked,
    Condition,
    Machines,
    covered_by,
    may_concern,
)
from spanbook.answers.readings import Reading, read_serial
from spanbook.ground.intervals import Covers, Reach, SpanSet
from spanbook.reading.records import SeriesSpan, Supersession
from tests.support.acts import act
from tests.support.registers import record, register

NUMBERS = range(1, 5)
Set = frozenset[int]
# Whoever is surely meant is possibly meant.
sets = st.frozensets(st.sampled_from(NUMBERS))
worlds = st.dictionaries(
    st.sampled_from(["xa", "xb"]), st.tuples(sets, sets).map(lambda s: (s[0] & s[1], s[1]))
)


def machines(world: dict[str, tuple[Set, Set]]) -> Machines:
    def spans(numbers: Set) -> SpanSet:
        found = SpanSet()
        for number in numbers:
            found |= SpanSet.run(number, number)
        return found

    return Machines.of(
        (id_, Reach(spans(surely), spans(possibly))) for id_, (surely, possibly) in world.items()
    )


def covers(found: Machines, id_: str, number: int) -> Covers:
    return found.in_series(id_).covers(number)


def meant(world: dict[str, tuple[Set, Set]], id_: str, number: int) -> Covers:
    surely, possibly = world.get(id_, (frozenset(), frozenset()))
    return Covers.YES if number in surely else Covers.MAYBE if number in possibly else Covers.NO


RANK = {Covers.NO: 0, Covers.MAYBE: 1, Covers.YES: 2}


@given(worlds, worlds)
def test_machines_are_sets_of_three_values(
    one: dict[str, tuple[Set, Set]], other: dict[str, tuple[Set, Set]]
) -> None:
    a, b = machines(one), machines(other)
    below = True
    for id_ in ("xa", "xb"):
        for number in NUMBERS:
            mine, theirs = RANK[meant(one, id_, number)], RANK[meant(other, id_, number)]
            below = below and mine <= theirs
            assert RANK[covers(a & b, id_, number)] == min(mine, theirs)
            assert RANK[covers(a | b, id_, number)] == max(mine, theirs)
            assert RANK[covers(a.without(b), id_, number)] == min(mine, 2 - theirs)
    assert (a <= b) is below


def test_series_of_which_nobody_is_meant_are_not_kept() -> None:
    first, last = machines({"xa": (frozenset({1}),) * 2}), machines({"xa": (frozenset({4}),) * 2})
    assert first & last == first.without(first) == Machines()
    surely, perhaps = machines({"xa": (frozenset({1}),) * 2}), machines({"xa": (frozenset(), frozenset({1}))})
    assert surely & perhaps == perhaps & surely == perhaps
    assert surely | perhaps == surely


@pytest.mark.parametrize(
    ("condition", "applies", "plain"),
    [
        (ALWAYS, Applies.YES, True),
        (Condition(Applies.YES, after=("kit",)), Applies.YES, False),
        (Condition(Applies.YES, made=("a",)), Applies.MAYBE, False),
        (Condition(Applies.YES, unmade=("a",)), Applies.MAYBE, False),
        (Condition(Applies.MAYBE), Applies.MAYBE, False),
        (Condition(Applies.SOME), Applies.SOME, False),
    ],
)
def test_a_condition_is_plain_where_nothing_has_to_be_said(
    condition: Condition, applies: Applies, plain: bool
) -> None:
    assert (condition.applies, condition.plain) == (applies, plain)
    assert condition.sort == (condition.after, condition.made, condition.unmade)


LIMITED = record(
    act(
        "on",
        "p",
        "q",
        "serials:\n- {series: xa, first: 3, last: [5, 7]}\n- {series: gone, first: 1, last: 20}\n",
    ),
    "supersession",
    "on",
)
MADE = register(LIMITED)


def spans() -> tuple[SeriesSpan, ...]:
    assert isinstance(LIMITED, Supersession)
    return LIMITED.serials


def reading(number: int, series: str = "xa") -> Reading:
    return next(one for one in read_serial(MADE, f"XA {number}") if one.series.id == series)


@pytest.mark.parametrize(
    ("number", "series", "covered"),
    [
        (2, "xa", Covers.NO),
        (3, "xa", Covers.YES),
        (5, "xa", Covers.YES),
        (6, "xa", Covers.MAYBE),
        (10, "xa", Covers.NO),
        (16, "xb", Covers.NO),
    ],
)
def test_spans_cover_a_machine_of_their_series(number: int, series: str, covered: Covers) -> None:
    one = reading(number, series)
    assert covered_by(spans(), one) is covered
    assert may_concern(spans(), one) is (covered is not Covers.NO)
    applies = {Covers.YES: Applies.YES, Covers.MAYBE: Applies.MAYBE, Covers.NO: Applies.NO}[covered]
    asked = Asked(MADE, one)
    assert asked.meant(()) == asked.everyone
    assert asked.applies(asked.meant(spans())) is applies


def test_without_a_machine_or_a_limit_anything_may_concern() -> None:
    assert may_concern(spans(), None)
    assert may_concern((), reading(16, "xb"))
    assert may_concern((), None)


def test_of_every_machine_some_are_meant_and_a_series_that_no_record_has_is_nobody() -> None:
    asked = Asked(MADE)
    found = asked.meant(spans())
    assert [id_ for id_, _ in found.runs] == ["xa"]
    assert (asked.applies(found), asked.applies(asked.everyone), asked.applies(Machines())) == (
        Applies.SOME,
        Applies.YES,
        Applies.NO,
    )
