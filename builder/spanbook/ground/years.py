"""The year of a serial number, from a table of each year's first number."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from itertools import pairwise

from spanbook.ground.language import marked


@dataclass(frozen=True, slots=True)
class Begin:
    """The month in which the years of a works began: of the year itself, or of the year before."""

    month: int
    before: bool


@dataclass(frozen=True, slots=True)
class Works:
    """Years as the works counted them: first..last, both included; last is None for "or later"."""

    first: int
    last: int | None
    begin: Begin


@dataclass(frozen=True, slots=True)
class Years:
    """The years a number may belong to: first..last, both included; last is None for "or later".

    They are the calendar's; of a works whose years began in another month `works` has its own.
    """

    first: int
    last: int | None
    works: Works | None = None

    @classmethod
    def of_works(cls, first: int, last: int | None, begin: Begin | None) -> Years:
        """From years as the works counted them; None: as the calendar does."""
        if begin is None:
            return cls(first, last)
        back, on = (1, 0) if begin.before else (0, 1)
        return cls(first - back, None if last is None else last + on, Works(first, last, begin))


class Part(StrEnum):
    """Where in its year a number stands: in the first or the last third of that year's numbers."""

    EARLY = "early"
    LATE = "late"


# English on every machine, which the standard library's are not: as they are typed.
MONTHS = (
    marked("January"),
    marked("February"),
    marked("March"),
    marked("April"),
    marked("May"),
    marked("June"),
    marked("July"),
    marked("August"),
    marked("September"),
    marked("October"),
    marked("November"),
    marked("December"),
)
FAR = 10**15  # a place beyond any number, where it is not known how far a year may run
FEWEST = 30  # numbers of a year of which a third means anything: our own measure


@dataclass(frozen=True, slots=True)
class YearTable:
    """Year y owns the numbers from its own first up to the next year's first, which is not its.

    A year whose first number is also that of the next had none. A number below the table belongs to no
    known year. Years left out of the table share the numbers of the year before them. The last is open.
    `lasts` are years with their last numbers, where they ran on beside the next: the numbers between may be
    of either. `ends` are those of years that the stamp itself tells: they stop before the next begins, None
    where nobody knows with which number. `unsure` are years whose first number is not known exactly. The
    years of the table are the works' own; `begin` says in which month, where that is not January.
    """

    years: tuple[int, ...]
    firsts: tuple[int, ...]
    lasts: tuple[tuple[int, int], ...] = ()
    ends: tuple[tuple[int, int | None], ...] = ()
    unsure: tuple[int, ...] = ()
    begin: Begin | None = None

    @classmethod
    def of(cls, table: Mapping[int, int]) -> YearTable:
        years = tuple(sorted(table))
        return cls(years, tuple(table[year] for year in years))

    def running_on(self, lasts: YearTable) -> YearTable:
        """The same table, with the last numbers of those years that ran on beside the next."""
        told = zip(lasts.years, lasts.firsts, strict=True)
        return replace(self, lasts=tuple(told)) if lasts.years else self

    def year_of(self, number: int) -> Years | None:
        """The years of a number; None below the table. The firsts must not fall."""
        at = bisect_right(self.firsts, number) - 1
        if at < 0:
            return None
        if self.ends:
            return Years.of_works(self.years[at], self.years[at], self.begin)
        last = self.years[at + 1] - 1 if at + 1 < len(self.years) else None
        running = (year for year, end in self.lasts if year in self.years[:at] and number <= end)
        return Years.of_works(min(running, default=self.years[at]), last, self.begin)

    def part_of(self, number: int) -> Part | None:
        """Where in its year a number stands; None in the middle, and where the year or its end is not known.

        By the numbers alone: whether a year's numbers were given out evenly the table does not say.
        """
        years = self.year_of(number)
        if years is None or years.first != years.last:
            return None
        for first, after in self._whole_years():
            third = (after - first) // 3
            if first <= number < first + third:
                return Part.EARLY
            if after - third <= number < after:
                return Part.LATE
        return None

    def edges(self) -> tuple[int, ...]:
        """Every number from which on the year may be another, in rising order."""
        return tuple(sorted({*self.firsts, *(last + 1 for _, last in self.lasts)}))

    def cuts(self) -> Iterator[int]:
        """Every number from which on the year, or the place in it, may be another; in rising order."""
        found = set(self.edges())
        for first, after in self._whole_years():
            third = (after - first) // 3
            found |= {first + third, after - third}
        yield from sorted(found)

    def _whole_years(self) -> Iterator[tuple[int, int]]:
        """The first number of each year of enough numbers, and the first that is no longer its."""
        lasts, ends = dict(self.lasts), dict(self.ends)
        each = zip(pairwise(self.years), pairwise(self.firsts), strict=True)
        for (year, following), (first, after) in each:
            last = ends.get(year, max(after - 1, lasts.get(year, 0)))
            known = following == year + 1 and not {year, following} & {*self.unsure}
            if last is not None and known and last + 1 - first >= FEWEST:
                yield first, last + 1

    def span_of(self, first: int | None, last: int | None) -> Years | None:
        """The years in which the numbers first..last were issued; None when the first is not dated."""
        start = None if first is None else self.year_of(first)
        end = None if last is None else self.year_of(last)
        if start is None:
            return None
        works = start.works and replace(start.works, last=end.works.last if end and end.works else None)
        return Years(start.first, end.last if end else None, works)
