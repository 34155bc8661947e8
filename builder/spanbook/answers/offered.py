"""When a conversion was offered: from one year to another, each perhaps not known exactly.

Three-valued, as a span of serial numbers is. That it was offered in the year it began, and in the year it
ended, is sure, whatever else is not known.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

from spanbook.ground.intervals import Covers
from spanbook.reading.dated import between
from spanbook.reading.records import Conversion


@dataclass(frozen=True, slots=True)
class Offered:
    """Between which years it began to be offered, and between which it ended; infinite where nothing says."""

    first: tuple[float, float]
    last: tuple[float, float]

    @property
    def can_be(self) -> bool:
        """Whether it may have begun before it ended."""
        return self.first[0] <= self.last[1]

    def in_year(self, year: int) -> Covers:
        """Whether it was offered in a year."""
        if not self.first[0] <= year <= self.last[1]:
            return Covers.NO
        begun = year >= min(self.first[1], self.last[1])
        going = year <= max(self.last[0], self.first[0])
        return Covers.YES if begun and going else Covers.MAYBE


def offered(conversion: Conversion) -> Offered:
    """When a conversion was offered."""
    return Offered(between(conversion.year), between(conversion.until))


def earliest(conversion: Conversion) -> int:
    """The first year it may have been offered in; 0 where nothing says."""
    first = offered(conversion).first[0]
    return 0 if first == -inf else int(first)
