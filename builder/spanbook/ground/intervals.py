"""Runs of serial numbers: inclusive integers, with open ends, and spans whose ends are uncertain.

Everything here is over whole numbers, so 1..5 and 6..10 join to 1..10. ``None`` as a first number
means "no lower end", as a last number "no upper end".
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
class Span:
    """The numbers first..last, both included."""

    first: int | None
    last: int | None

    def __contains__(self, number: int) -> bool:
        return (self.first is None or self.first <= number) and (self.last is None or number <= self.last)

    @property
    def empty(self) -> bool:
        return self.first is not None and self.last is not None and self.first > self.last

    def meet(self, other: Span) -> Span:
        """The numbers in both; it may be empty."""
        return Span(_highest(self.first, other.first), _lowest(self.last, other.last))


@dataclass(frozen=True, slots=True)
class SpanSet:
    """A set of numbers as spans in rising order that neither touch nor overlap. Make one with `of`."""

    spans: tuple[Span, ...] = ()

    @classmethod
    def of(cls, spans: Iterable[Span]) -> SpanSet:
        joined: list[Span] = []
        for span in sorted((s for s in spans if not s.empty), key=_low):
            if joined and _touch(joined[-1], span):
                joined[-1] = Span(joined[-1].first, _farther(joined[-1].last, span.last))
            else:
                joined.append(span)
        return cls(tuple(joined))

    @classmethod
    def run(cls, first: int | None, last: int | None) -> SpanSet:
        return cls.of([Span(first, last)])

    def __contains__(self, number: int) -> bool:
        return any(number in span for span in self.spans)

    def __bool__(self) -> bool:
        return bool(self.spans)

    def __iter__(self) -> Iterator[Span]:
        return iter(self.spans)

    def __or__(self, other: SpanSet) -> SpanSet:
        return SpanSet.of((*self.spans, *other.spans))

    def __and__(self, other: SpanSet) -> SpanSet:
        return SpanSet.of(a.meet(b) for a in self.spans for b in other.spans)

    def __sub__(self, other: SpanSet) -> SpanSet:
        left = self
        for hole in other.spans:
            before = SpanSet() if hole.first is None else SpanSet.run(None, hole.first - 1)
            after = SpanSet() if hole.last is None else SpanSet.run(hole.last + 1, None)
            left = (left & before) | (left & after)
        return left

    def gaps(self, within: Span) -> SpanSet:
        """The numbers of `within` that are not in the set."""
        return SpanSet.of([within]) - self

    def __le__(self, other: SpanSet) -> bool:
        """Whether every number of this set is in the other."""
        return not self - other

    @property
    def first(self) -> int | None:
        """The lowest number; None when there is no lower end. Raises IndexError on an empty set."""
        return self.spans[0].first

    @property
    def last(self) -> int | None:
        """The highest number; None when there is no upper end. Raises IndexError on an empty set."""
        return self.spans[-1].last

    def count(self) -> int | None:
        """How many numbers; None when there is no end to them."""
        total = 0
        for span in self.spans:
            if span.first is None or span.last is None:
                return None
            total += span.last - span.first + 1
        return total

    def numbers(self) -> Iterator[int]:
        """Every number in rising order. Raises ValueError when there is no end to them."""
        for span in self.spans:
            if span.first is None or span.last is None:
                raise ValueError("a set without an end cannot be listed")
            yield from range(span.first, span.last + 1)


@dataclass(frozen=True, slots=True)
class Bound:
    """Where an end of a span lies: somewhere from low to high, whole numbers or plus or minus infinity."""

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
    """What a span with these ends covers among the issued numbers.

    With the first number in a..b and the last in c..d it possibly covers a..d and surely b..c. A span
    holds at least one number, so its first is never above d and its last never below a: a bound that
    is vaguer than the other end allows is narrowed by it.
    """
    possibly = SpanSet.of([_span(first.low, last.high)]) & issued
    latest_first, earliest_last = min(first.high, last.high), max(last.low, first.low)
    return Reach(SpanSet.of([_span(latest_first, earliest_last)]) & possibly, possibly)


_NOTHING = Span(1, 0)


def _span(low: float, high: float) -> Span:
    if low == inf or high == -inf:
        return _NOTHING
    return Span(None if low == -inf else int(low), None if high == inf else int(high))


def _low(span: Span) -> float:
    return -inf if span.first is None else span.first


def _touch(left: Span, right: Span) -> bool:
    """Whether `right`, which begins no earlier, overlaps `left` or follows on it."""
    return left.last is None or right.first is None or right.first <= left.last + 1


def _highest(a: int | None, b: int | None) -> int | None:
    return b if a is None else a if b is None else max(a, b)


def _lowest(a: int | None, b: int | None) -> int | None:
    return b if a is None else a if b is None else min(a, b)


def _farther(a: int | None, b: int | None) -> int | None:
    return None if a is None or b is None else max(a, b)
