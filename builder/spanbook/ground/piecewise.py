"""Runs of numbers of which the same is said, and where two lists of them differ."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

from spanbook.ground.intervals import Span, SpanSet

S = TypeVar("S")


@dataclass(frozen=True, slots=True)
class Piece(Generic[S]):
    """Numbers first..last (None: no known end) and what is said of them."""

    first: int
    last: int | None
    said: S


@dataclass(frozen=True, slots=True)
class Change(Generic[S]):
    """Numbers first..last of which another thing is said than before; None: nothing is."""

    first: int
    last: int | None
    before: S | None
    after: S | None


def over(span: Span, issued: SpanSet, said: S) -> Iterator[Piece[S]]:
    """The same said of the issued numbers of a span."""
    for part in SpanSet.of([span]) & issued:
        yield Piece(part.first, part.last, said)


def changes(before: Iterable[Piece[S]], after: Iterable[Piece[S]]) -> Iterator[Change[S]]:
    """Where two lists of runs, each in rising order and apart, differ: in rising order, as long as can be."""
    one, other = _Walk(tuple(before)), _Walk(tuple(after))
    cuts = sorted({edge for run in (*one.runs, *other.runs) for edge in _edges(run)})
    ends = [*(cut - 1 for cut in cuts[1:]), None]
    found: Change[S] | None = None
    for first, last in zip(cuts, ends[: len(cuts)], strict=True):
        was, now = one.said(first), other.said(first)
        if found and (was, now) != (found.before, found.after):
            yield found
            found = None
        if was != now:
            found = Change(found.first if found else first, last, was, now)
    if found:
        yield found


def _edges(run: Piece[S]) -> Iterator[int]:
    yield run.first
    if run.last is not None:
        yield run.last + 1


@dataclass(slots=True)
class _Walk(Generic[S]):
    """A list of runs asked by numbers that only rise."""

    runs: Sequence[Piece[S]]
    at: int = 0

    def said(self, number: int) -> S | None:
        while self.at < len(self.runs) and (last := self.runs[self.at].last) is not None and last < number:
            self.at += 1
        if self.at == len(self.runs) or self.runs[self.at].first > number:
            return None
        return self.runs[self.at].said
