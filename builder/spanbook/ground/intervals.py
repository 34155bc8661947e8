"""Runs of serial numbers: inclusive integers, some without a known end, and spans with uncertain ends.

Everything here is over whole numbers, so 1..5 and 6..10 join to 1..10. Serial numbers always begin
somewhere; where they end nobody may know. What surely ends is a `Run`, anything else a `Span`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from math import inf


class Covers(StrEnum):
    """Whether a span covers a number: for certain, possibly, or not."""

    YES = "yes"
    MAYBE = "maybe"
    NO = "no"


@dataclass(frozen=True, slots=True)
class Run:
    """The numbers first..last, both included."""

    first: int
    last: int

    @property
    def size(self) -> int:
        return self.last - self.first + 1


@dataclass(frozen=True, slots=True)
class Span:
    """The numbers first..last, both included; last None: without a known end."""

    first: int
    last: int | None

    def __contains__(self, number: int) -> bool:
        return self.first <= number and (self.last is None or number <= self.last)

    @property
    def empty(self) -> bool:
        return self.last is not None and self.first > self.last

    def meet(self, other: Span) -> Span:
        """The numbers in both; it may be empty."""
        return Span(max(self.first, other.first), _lowest(self.last, other.last))

    def without(self, hole: Span) -> Iterator[Span]:
        """What is left on either side of a hole."""
        sides = [Span(self.first, _lower(hole.first - 1, self.last))]
        if hole.last is not None:
            sides.append(Span(max(self.first, hole.last + 1), self.last))
        return (side for side in sides if not side.empty)


@dataclass(frozen=True, slots=True)
class SpanSet:
    """A set of numbers as spans in rising order that neither touch nor overlap. Make one with `of`."""

    spans: tuple[Span, ...] = ()

    @classmethod
    def of(cls, spans: Iterable[Span]) -> SpanSet:
        joined: list[Span] = []
        for span in sorted((s for s in spans if not s.empty), key=lambda s: s.first):
            if joined and _touch(joined[-1], span):
                joined[-1] = Span(joined[-1].first, _farther(joined[-1].last, span.last))
            else:
                joined.append(span)
        return cls(tuple(joined))

    @classmethod
    def run(cls, first: int, last: int | None) -> SpanSet:
        span = Span(first, last)
        return cls(() if span.empty else (span,))

    def __contains__(self, number: int) -> bool:
        for span in self.spans:
            if number < span.first:
                return False
            if span.last is None or number <= span.last:
                return True
        return False

    def __bool__(self) -> bool:
        return bool(self.spans)

    def __iter__(self) -> Iterator[Span]:
        return iter(self.spans)

    def __or__(self, other: SpanSet) -> SpanSet:
        return SpanSet.of((*self.spans, *other.spans))

    def __and__(self, other: SpanSet) -> SpanSet:
        # In rising order, and none touches another: then two spans of a set would.
        met: list[Span] = []
        for a in self.spans:
            for b in other.spans:
                if a.last is not None and a.last < b.first:
                    break
                if b.last is None or a.first <= b.last:
                    met.append(a.meet(b))
        return SpanSet(tuple(met))

    def __sub__(self, other: SpanSet) -> SpanSet:
        left = self.spans
        for hole in other.spans:
            left = tuple(side for span in left for side in span.without(hole))
        return SpanSet(left)

    def __le__(self, other: SpanSet) -> bool:
        """Whether every number of this set is in the other."""
        return not self - other

    def over(self, issued: SpanSet) -> SpanSet:
        """The runs joined wherever no issued number lies between two of them."""
        found: list[Span] = []
        for span in self.spans:
            before = found[-1].last if found else None
            if before is not None and not SpanSet.run(before + 1, span.first - 1) & issued:
                found[-1] = Span(found[-1].first, span.last)
            else:
                found.append(span)
        return SpanSet(tuple(found))

    @property
    def first(self) -> int:
        """The lowest number. Raises IndexError on an empty set."""
        return self.spans[0].first

    @property
    def last(self) -> int | None:
        """The highest number; None without a known end. Raises IndexError on an empty set."""
        return self.spans[-1].last

    def within(self, run: Run) -> tuple[Run, ...]:
        """The numbers of the set that lie in a run, in rising order."""
        ends = ((max(s.first, run.first), _lower(run.last, s.last)) for s in self.spans)
        return tuple(Run(first, last) for first, last in ends if first <= last)

    def count(self) -> int | None:
        """How many numbers; None when there is no end to them."""
        total = 0
        for span in self.spans:
            if span.last is None:
                return None
            total += span.last - span.first + 1
        return total

    def numbers(self) -> Iterator[int]:
        """Every number in rising order. Raises ValueError when there is no end to them."""
        for span in self.spans:
            if span.last is None:
                raise ValueError("a set without an end cannot be listed")
            yield from range(span.first, span.last + 1)


def joined(runs: Iterable[Run]) -> tuple[Run, ...]:
    """Runs that touch or overlap as one each, in rising order."""
    found: list[Run] = []
    for run in sorted(runs, key=lambda r: r.first):
        if found and run.first <= found[-1].last + 1:
            found[-1] = Run(found[-1].first, max(found[-1].last, run.last))
        else:
            found.append(Run(run.first, run.last))
    return tuple(found)


@dataclass(frozen=True, slots=True)
class Bound:
    """Where an end of a span lies: somewhere from low to high, whole numbers or infinity."""

    low: float
    high: float

    @property
    def known(self) -> bool:
        return self.low == self.high


@dataclass(frozen=True, slots=True)
class Reach:
    """What an uncertain span covers: `surely` is within `possibly`."""

    surely: SpanSet
    possibly: SpanSet

    def covers(self, number: int) -> Covers:
        if number in self.surely:
            return Covers.YES
        return Covers.MAYBE if number in self.possibly else Covers.NO


def reach(first: Bound, last: Bound, issued: SpanSet) -> Reach:
    """What a span with these ends covers among the issued numbers; its first is at least some number.

    With the first number in a..b and the last in c..d it possibly covers a..d and surely b..c. A span
    holds at least one number, so its first is never above d and its last never below a: a bound that
    is vaguer than the other end allows is narrowed by it.
    """
    possibly = possible(first, last, issued)
    latest_first, earliest_last = min(first.high, last.high), max(last.low, first.low)
    return Reach(_between(latest_first, earliest_last) & possibly, possibly)


def possible(first: Bound, last: Bound, issued: SpanSet) -> SpanSet:
    """What a span with these ends possibly covers among the issued numbers."""
    return _between(first.low, last.high) & issued


def _between(low: float, high: float) -> SpanSet:
    if low == inf:
        return SpanSet()
    return SpanSet.run(int(low), None if high == inf else int(high))


def _touch(left: Span, right: Span) -> bool:
    """Whether `right`, which begins no earlier, overlaps `left` or follows on it."""
    return left.last is None or right.first <= left.last + 1


def _lower(a: int, b: int | None) -> int:
    return a if b is None else min(a, b)


def _lowest(a: int | None, b: int | None) -> int | None:
    return b if a is None else _lower(a, b)


def _farther(a: int | None, b: int | None) -> int | None:
    return None if a is None or b is None else max(a, b)
