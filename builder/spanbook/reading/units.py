"""Machines by several numbers, as they were typed."""

from __future__ import annotations

from dataclasses import dataclass

from spanbook.reading.basics import Evidence, Record


@dataclass(frozen=True, slots=True)
class UnitNumber:
    """A number that one machine bears or bore; `years` as typed."""

    serial: str
    series: str | None
    years: str | None
    evidence: tuple[Evidence, ...]
    note: str | None

    @property
    def borne(self) -> tuple[int | None, int | None]:
        """The first and the last year in which it bore the number; None where that is open."""
        first, slash, last = (self.years or "../..").partition("/")
        return _year(first), _year(last if slash else first)


def _year(text: str) -> int | None:
    return None if text == ".." else int(text)


@dataclass(frozen=True, slots=True, eq=False)
class Unit(Record):
    """One individual machine; `title` is its numbers."""

    machine: str
    numbers: tuple[UnitNumber, ...]
