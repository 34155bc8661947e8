"""Runs of numbers against every number by itself."""

from __future__ import annotations

import itertools

from hypothesis import given
from hypothesis import strategies as st

from spanbook.ground.intervals import Span, SpanSet
from spanbook.ground.piecewise import Change, Piece, changes, over


@given(
    st.lists(st.tuples(st.integers(0, 30), st.integers(0, 5), st.sampled_from("ab")), max_size=6),
    st.lists(st.tuples(st.integers(0, 30), st.integers(0, 5), st.sampled_from("ab")), max_size=6),
)
def test_changes_of_runs_are_those_of_every_number(
    one: list[tuple[int, int, str]], other: list[tuple[int, int, str]]
) -> None:
    sides = [_apart(one), _apart(other)]
    found = list(changes(*sides))
    told = {
        n: (c.before, c.after) for c in found for n in range(c.first, (50 if c.last is None else c.last) + 1)
    }
    for number in range(45):
        pair = tuple(_said(runs, number) for runs in sides)
        assert told.get(number, pair) == pair
        assert (number in told) == (pair[0] != pair[1])
    for left, right in itertools.pairwise(found):
        joined = (left.last or 0) + 1 == right.first
        assert not joined or (left.before, left.after) != (right.before, right.after)


def _apart(drawn: list[tuple[int, int, str]]) -> list[Piece[str]]:
    runs: list[Piece[str]] = []
    for first, length, said in sorted(drawn):
        if not runs or first > (runs[-1].last or 0):
            runs.append(Piece(first, first + length, said))
    return runs


def _said(runs: list[Piece[str]], number: int) -> str | None:
    return next((r.said for r in runs if r.first <= number <= (r.last or 0)), None)


def test_a_run_without_an_end_is_compared_to_its_end() -> None:
    assert list(changes([Piece(1, None, "a")], [Piece(1, 4, "a"), Piece(7, None, "b")])) == [
        Change(5, 6, "a", None),
        Change(7, None, "a", "b"),
    ]


def test_of_a_span_the_numbers_that_were_issued_are_told() -> None:
    issued = SpanSet.of([Span(1, 7), Span(10, None)])
    assert list(over(Span(5, 12), issued, "a")) == [Piece(5, 7, "a"), Piece(10, 12, "a")]
    assert list(over(Span(8, 9), issued, "a")) == []
    assert list(over(Span(12, None), issued, "a")) == [Piece(12, None, "a")]
