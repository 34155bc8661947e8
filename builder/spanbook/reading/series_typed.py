"""What the record of a series says of its numbers, as it was typed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from spanbook.ground.stamped import Stamped
from spanbook.ground.years import Begin
from spanbook.reading.basics import Around, Beside, End, Evidence, Typed

Pair = tuple[Typed, Typed]
# A year with what stands under it.
YearFirsts = tuple[tuple[int, End | Beside], ...]
YearLasts = tuple[tuple[int, Typed], ...]
YearLetters = tuple[tuple[int, str], ...]


@dataclass(frozen=True, slots=True)
class Plant:
    """Where machines of a series were built: the letter in the stamp, if it has one, and which numbers."""

    name: str
    letter: str | None
    numbers: tuple[Pair, ...]
    evidence: tuple[Evidence, ...]
    note: str | None


@dataclass(frozen=True, slots=True)
class SecondIssue:
    """Numbers that were stamped again, with a mark."""

    mark: str
    numbers: tuple[Pair, ...]


@dataclass(frozen=True, slots=True)
class SeriesTyped:
    """What the record of a series says of its numbers, as typed."""

    stamped: Stamped
    restarts: Literal["year", "month", "week", "letter"] | None
    most: int | None
    left_out: str
    year_letters: Mapping[int, str]
    plants: tuple[Plant, ...]
    seconds: tuple[SecondIssue, ...]
    first: Typed
    last: Typed | None
    years: Mapping[int, End | Beside]
    years_last: Mapping[int, Typed]
    skipped: tuple[Pair, ...]
    years_begin: Begin | None = None


def numbers_of(end: End | Beside) -> tuple[Typed, ...]:
    """The numbers that an end names."""
    if isinstance(end, Around | Beside):
        return (end.number,)
    if isinstance(end, tuple):
        return end
    return () if end in ("unknown", "open") else (end,)
