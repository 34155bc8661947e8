"""Years of acts, sources and conversions, as they are typed, and between which years that is."""

from __future__ import annotations

from math import inf
from typing import Literal

from spanbook.reading.basics import Around, Beside

# A year, one somewhere between two, about one, or before or after one.
YearSaid = int | tuple[int, int] | Around | Beside
YearEnd = YearSaid | Literal["open"]


def between(year: YearEnd | None) -> tuple[float, float]:
    """The earliest and the latest that a year may be, both included; infinite where nothing says.

    `before 1936` is 1935 or earlier; what is open has no last year.
    """
    match year:
        case None:
            return -inf, inf
        case "open":
            return inf, inf
        case (first, last):
            return first, last
        case Around():
            return int(year.number) - year.off, int(year.number) + year.off
        case Beside(side="before"):
            return -inf, int(year.number) - 1
        case Beside():
            return int(year.number) + 1, inf
        case _:
            return year, year
