"""The year of a serial number, from a table of each year's first number."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise


@dataclass(frozen=True, slots=True)
class Years:
    """The years a number may belong to: first..last, both included; last is None for "or later"."""

    first: int
    last: int | None


class Part(StrEnum):
    """Where in its year a number stands: in the first or the last third of that year's numbers."""

    EARLY = "early"
    LATE = "late"


FEWEST = 30  # numbers of a year of which a third means anything: our own measure


@dataclass(frozen=True, slots=True)
class YearTable:
    """Year y owns the numbers from its own first up to the next year's first, which is not its.

    A year whose first number is also that of the next had none. A number below the table belongs to no
    known year. Years left out of the table share the numbers of the year before them. The last is open.
    """

    years: tuple[int, ...]
    firsts: tuple[int, ...]

    @classmethod
    def of(cls, table: Mapping[int, int]) -> YearTable:
        years = tuple(sorted(table))
        return cls(years, tuple(table[year] for year in years))

    def year_of(self, number: int) -> Years | None:
        """The years of a number; None below the table. The firsts must not fall."""
        at = bisect_right(self.firsts, number) - 1
        if at < 0:
            return None
        return Years(self.years[at], self.years[at + 1] - 1 if at + 1 < len(self.years) else None)

    def part_of(self, number: int) -> Part | None:
        """Where in its year a number stands; None in the middle, and where the year or its end is not known.

        By the numbers alone: whether a year's numbers were given out evenly the table does not say.
        """
        for first, after in self._whole_years():
            third = (after - first) // 3
            if first <= number < first + third:
                return Part.EARLY
            if after - third <= number < after:
                return Part.LATE
        return None

    def cuts(self) -> Iterator[int]:
        """Every number from which on the year, or the place in it, may be another; in rising order."""
        found = set(self.firsts)
        for first, after in self._whole_years():
            third = (after - first) // 3
            found |= {first + third, after - third}
        yield from sorted(found)

    def _whole_years(self) -> Iterator[tuple[int, int]]:
        """The first number of each year of enough numbers, and the first of the next year in the table."""
        each = zip(pairwise(self.years), pairwise(self.firsts), strict=True)
        for (year, following), (first, after) in each:
            if following == year + 1 and after - first >= FEWEST:
                yield first, after

    def span_of(self, first: int | None, last: int | None) -> Years | None:
        """The years in which the numbers first..last were issued; None when the first is not dated."""
        start = None if first is None else self.year_of(first)
        end = None if last is None else self.year_of(last)
        return Years(start.first, end.last if end else None) if start else None
