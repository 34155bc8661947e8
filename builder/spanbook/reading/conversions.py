"""Conversions as they were typed."""

from __future__ import annotations

from dataclasses import dataclass, field

from spanbook.reading.basics import Evidence, OtherTitle, Record, SeriesSpan
from spanbook.reading.dated import YearEnd, YearSaid
from spanbook.reading.numbered import Declined, PartUse


@dataclass(frozen=True, slots=True)
class PositionNeed:
    """What another position must hold: one of these assemblies, and why; with `advice` it only ought to."""

    position: str
    assemblies: tuple[str, ...]
    why: str
    advice: bool


@dataclass(frozen=True, slots=True)
class Change:
    """What a conversion makes of one position; without `start` of whatever is there, or of nothing."""

    position: str
    start: tuple[str, ...] = field(metadata={"key": "from"})
    to: str


@dataclass(frozen=True, slots=True)
class PartTaken:
    """A part of what another position holds, which a conversion uses and leaves that without."""

    position: str
    number: str
    by: str | None
    name: str | None
    quantity: int

    @property
    def use(self) -> PartUse:
        """The part, as a line of a list."""
        return PartUse(self.number, self.by, self.name, self.quantity, (), None, None)


@dataclass(frozen=True, slots=True, eq=False)
class Conversion(Record):
    titles: tuple[OtherTitle, ...]
    number: str | None
    by: str | None
    position: str
    start: tuple[str, ...] = field(metadata={"key": "from"})  # Python keeps `from` for itself
    to: str
    also: tuple[Change, ...]
    takes: tuple[PartTaken, ...]
    serials: tuple[SeriesSpan, ...]
    adds: tuple[PartUse, ...]
    removes: tuple[PartUse, ...]
    needs: tuple[PositionNeed, ...]
    year: YearSaid | None
    until: YearEnd | None
    cautions: tuple[str, ...]
    declined: tuple[Declined, ...]
    evidence: tuple[Evidence, ...]

    @property
    def changes(self) -> tuple[Change, ...]:
        """What it makes of each position, its own first."""
        return (Change(self.position, self.start, self.to), *self.also)

    def change_at(self, position: str) -> Change | None:
        """What it makes of a position, if it changes that."""
        return next((change for change in self.changes if change.position == position), None)
