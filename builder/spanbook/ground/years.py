"""The year of a serial number, from a table of each year's first number."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Years:
    """The years a number may belong to: first..last, both included; last is None for "or later"."""

    first: int
    last: int | None


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

    def span_of(self, first: int | None, last: int | None) -> Years | None:
        """The years in which the numbers first..last were issued; None when the first is not dated."""
        start = None if first is None else self.year_of(first)
        end = None if last is None else self.year_of(last)
        return Years(start.first, end.last if end else None) if start else None
