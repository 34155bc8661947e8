"""The algebra of spans, against Python's own sets and against every possible case."""

from __future__ import annotations

from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.ground.intervals import Bound, Covers, Run, Span, SpanSet, joined, reach

UNIVERSE = range(-3, 25)
numbers = st.integers(0, 20)
sets = st.lists(st.builds(Span, numbers, st.none() | numbers), max_size=5).map(SpanSet.of)
runs = st.tuples(numbers, numbers).map(lambda pair: Run(min(pair), max(pair)))


def members(spans: SpanSet) -> set[int]:
    return {n for n in UNIVERSE if n in spans}


@given(sets, sets)
def test_operations_are_those_of_sets(a: SpanSet, b: SpanSet) -> None:
    assert members(a | b) == members(a) | members(b)
    assert members(a & b) == members(a) & members(b)
    assert members(a - b) == members(a) - members(b)
    assert (a <= b) == (members(a) <= members(b))


@given(sets)
def test_spans_never_touch(a: SpanSet) -> None:
    for left, right in zip(a.spans, a.spans[1:], strict=False):
        assert left.last is not None
        assert left.last + 1 < right.first


@given(sets, sets)
def test_runs_go_on_over_numbers_that_were_never_issued(a: SpanSet, issued: SpanSet) -> None:
    told = (a & issued).over(issued)
    assert told & issued == a & issued
    for left, right in zip(told.spans, told.spans[1:], strict=False):
        assert left.last is not None
        assert SpanSet.run(left.last + 1, right.first - 1) & issued  # else they were one


@given(sets, runs)
def test_what_lies_within_a_run_ends(a: SpanSet, run: Run) -> None:
    found = a.within(run)
    listed = [n for one in found for n in range(one.first, one.last + 1)]
    assert listed == [n for n in range(run.first, run.last + 1) if n in a]
    assert sum(one.size for one in found) == len(listed)


@given(st.lists(runs, max_size=5))
def test_runs_join_as_sets_do(several: list[Run]) -> None:
    wanted = SpanSet.of(Span(run.first, run.last) for run in several)
    assert [(run.first, run.last) for run in joined(several)] == [(s.first, s.last) for s in wanted]


def test_adjacent_numbers_join() -> None:
    assert SpanSet.of([Span(1, 5), Span(6, 10)]) == SpanSet.run(1, 10)


def test_counting_and_listing() -> None:
    assert SpanSet.of([Span(1, 3), Span(7, 7)]).count() == 4
    assert list(SpanSet.of([Span(1, 3), Span(7, 7)]).numbers()) == [1, 2, 3, 7]
    assert SpanSet.run(1, None).count() is None
    with pytest.raises(ValueError, match="without an end"):
        list(SpanSet.run(1, None).numbers())


def test_the_ends_of_a_set() -> None:
    assert (SpanSet.of([Span(9, 12), Span(3, 5)]).first, SpanSet.of([Span(9, 12), Span(3, 5)]).last) == (
        3,
        12,
    )
    assert SpanSet.of([Span(9, None), Span(3, 5)]).last is None
    for end in ("first", "last"):
        with pytest.raises(IndexError):
            getattr(SpanSet(), end)


def test_a_bound_is_known_where_it_is_one_number() -> None:
    assert Bound(5, 5).known
    assert not Bound(5, 6).known


bounds = st.tuples(st.integers(1, 12), st.integers(1, 12)).map(lambda p: Bound(min(p), max(p)))


@given(bounds, bounds)
def test_reach_is_what_every_possible_span_makes_it(first: Bound, last: Bound) -> None:
    """Over all choices of the two ends with first <= last: in all of them surely, in one possibly."""
    issued = SpanSet.run(1, 12)
    choices = [
        range(a, z + 1)
        for a in range(int(first.low), int(first.high) + 1)
        for z in range(int(last.low), int(last.high) + 1)
        if a <= z
    ]
    found = reach(first, last, issued)
    for number in issued.numbers():
        held = [number in choice for choice in choices]
        if choices:
            assert (found.covers(number) is Covers.YES) == all(held)
            assert (found.covers(number) is not Covers.NO) == any(held)


def test_the_pair_of_the_design() -> None:
    """First in a..b, last in c..d: surely b..c, possibly a..d; skipped numbers belong to nothing."""
    issued = SpanSet.run(1, 2140) - SpanSet.run(900, 919)
    found = reach(Bound(500, 520), Bound(950, 980), issued)
    assert found.surely == SpanSet.of([Span(520, 899), Span(920, 950)])
    assert found.possibly == SpanSet.of([Span(500, 899), Span(920, 980)])
    assert found.covers(910) is Covers.NO


def test_open_and_unknown_ends() -> None:
    issued = SpanSet.run(1, None)
    assert reach(Bound(613, 613), Bound(inf, inf), issued).surely == SpanSet.run(613, None)
    unknown = reach(Bound(1, 1), Bound(1, inf), issued)
    assert unknown.surely == SpanSet.run(1, 1)
    assert unknown.covers(10**9) is Covers.MAYBE
    nowhere = reach(Bound(1, inf), Bound(inf, inf), issued)
    assert (nowhere.surely, nowhere.possibly) == (SpanSet(), issued)
