"""What somebody saw on one machine, as it was typed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from spanbook.reading.basics import Record
from spanbook.reading.figures import Figure
from spanbook.reading.numbered import Mark, PartUse, Size
from spanbook.reading.signs import SignSeen

Condition = Literal["untouched", "likely-original", "altered", "unknown"]


@dataclass(frozen=True, slots=True)
class Find:
    """What one position held; `condition` is the machine's unless the find says otherwise."""

    position: str
    assembly: str | None
    one_of: tuple[str, ...]
    condition: Condition
    parts: tuple[PartUse, ...]
    marks: tuple[Mark, ...]
    measurements: tuple[Size, ...]
    signs: tuple[SignSeen, ...]
    photographs: tuple[Figure, ...]
    note: str | None

    @property
    def named(self) -> tuple[str, ...]:
        """The assemblies that it may have been: none where no record has it."""
        return (self.assembly,) if self.assembly else self.one_of


@dataclass(frozen=True, slots=True, eq=False)
class Teardown(Record):
    """`title` is the serial number as read and the date."""

    date: str
    seen_by: str
    serial: str
    series: str | None
    condition: Condition
    found: tuple[Find, ...]
    licence: str | None
