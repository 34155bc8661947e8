"""Machines and their series, as they were typed."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache

from spanbook.ground.intervals import Span, SpanSet
from spanbook.ground.serials import Stamp
from spanbook.ground.years import YearTable
from spanbook.reading.basics import Evidence, Record


@dataclass(frozen=True, slots=True, eq=False)
class Series:
    """One run of serial numbers of a machine. `last` is None when nobody knows how far it ran."""

    id: str
    formerly: tuple[str, ...]
    machine: str
    title: str | None
    stamp: Stamp = field(metadata={"key": "stamped"})
    plate: str
    where: str | None
    first: int
    last: int | None
    years_as_typed: YearTable = field(metadata={"key": "years"})
    years_last: YearTable
    years_evidence: tuple[Evidence, ...]
    skipped_as_typed: tuple[tuple[int, int], ...] = field(metadata={"key": "skipped"})
    evidence: tuple[Evidence, ...]
    notes: str | None

    @property
    def skipped(self) -> SpanSet:
        """The numbers that were never issued."""
        return _skipped(self.skipped_as_typed)

    @property
    def years(self) -> YearTable:
        """The first number of each year, and the last of those that ran on beside the next."""
        return self.years_as_typed.running_on(self.years_last)

    @property
    def issued(self) -> SpanSet:
        """The numbers that were issued; without an end when the last is not known."""
        return _issued(self.first, self.last, self.skipped_as_typed)

    @property
    def name(self) -> str:
        """How a reader tells the series: its title, or its stamp with the digits as dots."""
        return self.title or f"{self.stamp.prefix}…{self.stamp.suffix}".strip()


def _skipped(typed: tuple[tuple[int, int], ...]) -> SpanSet:
    return SpanSet.of(Span(first, last) for first, last in typed)


@lru_cache(maxsize=1024)  # asked for again and again, of a few series
def _issued(first: int, last: int | None, skipped: tuple[tuple[int, int], ...]) -> SpanSet:
    return SpanSet.run(first, last) - _skipped(skipped)


@dataclass(frozen=True, slots=True, eq=False)
class Machine(Record):
    maker: str
    positions: tuple[str, ...]
    series: tuple[Series, ...]
