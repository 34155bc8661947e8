"""Machines and their series, as they were typed, and what that makes of their numbers."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property
from typing import Literal

from spanbook.ground.intervals import SpanSet
from spanbook.ground.serials import Stamp
from spanbook.ground.stamped import Stamped
from spanbook.ground.years import Begin, YearTable
from spanbook.reading.basics import Evidence, OtherTitle, Record, Typed
from spanbook.reading.figures import Figure
from spanbook.reading.series_order import SeriesOrder
from spanbook.reading.series_typed import (
    Pair,
    Plant,
    SecondIssue,
    SeriesTyped,
    YearFirsts,
    YearLasts,
    YearLetters,
)


@dataclass(frozen=True, eq=False)
class Series:
    """One run of serial numbers of a machine. `last` is None when nobody knows how far it ran.

    `retired` says why nothing is answered from it any more, and `now` which series its numbers are of.

    What is told of a number elsewhere (`first`, `issued`, `years` …) is told of its place in the running
    order, which is the number itself where that never begins again.
    """

    id: str
    formerly: tuple[str, ...]
    machine: str
    title: str | None
    stamped: Stamped
    restarts: Literal["year", "month", "week", "letter"] | None
    most: int | None
    letters_left_out: str | None
    year_letters: YearLetters
    second_issues: tuple[SecondIssue, ...]
    plants: tuple[Plant, ...]
    plate: str
    where: str | None
    first_as_typed: Typed = field(metadata={"key": "first"})
    last_as_typed: Typed | None = field(metadata={"key": "last"})
    years_as_typed: YearFirsts = field(metadata={"key": "years"})
    years_last: YearLasts
    years_begin: Begin | None
    years_evidence: tuple[Evidence, ...]
    skipped_as_typed: tuple[Pair, ...] = field(metadata={"key": "skipped"})
    retired: str | None
    now: tuple[str, ...]
    evidence: tuple[Evidence, ...]
    notes: str | None

    @cached_property
    def order(self) -> SeriesOrder:
        """The running order that all this makes."""
        return SeriesOrder(
            SeriesTyped(
                stamped=self.stamped,
                restarts=self.restarts,
                most=self.most,
                left_out=self.letters_left_out or "",
                year_letters=dict(self.year_letters),
                plants=self.plants,
                seconds=self.second_issues,
                first=self.first_as_typed,
                last=self.last_as_typed,
                years=dict(self.years_as_typed),
                years_last=dict(self.years_last),
                skipped=self.skipped_as_typed,
                years_begin=self.years_begin,
            )
        )

    @property
    def stamp(self) -> Stamp:
        return self.order.stamp

    @property
    def first(self) -> int:
        return self.order.first

    @property
    def last(self) -> int | None:
        return self.order.last

    @property
    def skipped(self) -> SpanSet:
        """The numbers that were never issued."""
        return self.order.skipped

    @property
    def years(self) -> YearTable:
        """The first number of each year, and the last of those that ran on beside the next."""
        return self.order.years

    @property
    def issued(self) -> SpanSet:
        """The numbers that were issued; without an end when the last is not known."""
        return self.order.issued

    @property
    def name(self) -> str:
        """How a reader tells the series: its title, or its stamp with dots for what changes."""
        return self.title or self.stamped.outline


@dataclass(frozen=True, slots=True, eq=False)
class Machine(Record):
    titles: tuple[OtherTitle, ...]
    maker: str
    positions: tuple[str, ...]
    every_series: tuple[Series, ...] = field(metadata={"key": "series"})
    figures: tuple[Figure, ...]

    @property
    def places(self) -> tuple[tuple[int, Series], ...]:
        """The series that answers are made from, each with its place in the record's list."""
        return tuple((i, one) for i, one in enumerate(self.every_series) if not one.retired)

    @property
    def series(self) -> tuple[Series, ...]:
        """The series that answers are made from."""
        return tuple(one for _, one in self.places)

    @property
    def retired_series(self) -> tuple[Series, ...]:
        return tuple(one for one in self.every_series if one.retired)
