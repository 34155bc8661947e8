"""Acts by which numbers replace others, as they were typed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from spanbook.reading.basics import Evidence, Record, SeriesSpan
from spanbook.reading.dated import YearSaid
from spanbook.reading.numbered import PartUse

Interchange = Literal["both", "new-for-old"]


@dataclass(frozen=True, slots=True)
class ActNeed:
    """What must go with an act: a part (by its number) or a conversion (its id); exactly one of the two."""

    number: str | None
    by: str | None
    quantity: int
    conversion: str | None
    why: str | None
    means: str | None = None

    @property
    def part(self) -> PartUse | None:
        """The part, as a line of a list."""
        if self.number is None:
            return None
        return PartUse(self.number, self.by, None, self.quantity, (), None, self.means)


@dataclass(frozen=True, slots=True, eq=False)
class Supersession(Record):
    """`title` is empty: an act is named by its numbers.

    Without `new` the old numbers are no longer supplied, or were still supplied if it says `current`, or
    supplied again if it says `again`.
    `alternative` is one way among others, which speaks against no other act.
    """

    old: tuple[PartUse, ...]
    new: tuple[PartUse, ...]
    current: bool
    again: bool
    alternative: bool
    interchange: Interchange
    serials: tuple[SeriesSpan, ...]
    needs: tuple[ActNeed, ...]
    year: YearSaid | None
    evidence: tuple[Evidence, ...]

    @property
    def stays(self) -> bool:
        """Whether it says that the old numbers themselves are supplied."""
        return self.current or self.again
