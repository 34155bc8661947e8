"""What a text reads as when it is taken for a serial number: machines by their numbers."""

from __future__ import annotations

from dataclasses import dataclass

from spanbook.ground.years import Years
from spanbook.reading.records import Series
from spanbook.register.model import Register


@dataclass(frozen=True, slots=True)
class Reading:
    """A serial number read in one series. `issued` is false for a number outside it or skipped."""

    series: Series
    number: int
    issued: bool
    years: Years | None


def read_serial(register: Register, text: str) -> tuple[Reading, ...]:
    """Every series in which a text reads as a serial number, with the number; those issued first."""
    found = (
        reading_of(series, number)
        for series in register.series.values()
        if (number := series.stamp.read(text)) is not None
    )
    return tuple(sorted(found, key=lambda r: (not r.issued, r.series.id)))


def reading_of(series: Series, number: int) -> Reading:
    return Reading(series, number, number in series.issued, series.years.year_of(number))


def may_be(register: Register, text: str) -> tuple[Reading, ...]:
    """Every issued number that a text with `?` for unreadable characters may be, by series."""
    return tuple(
        reading_of(series, number)
        for series in register.series.values()
        for number in series.stamp.may_be(text)
        if number in series.issued
    )


def worn_to(register: Register, text: str) -> tuple[Reading, ...]:
    """Every issued number whose stamp, worn, may read as a text does, beside what it reads as, by series.

    By our own table of letters and digits that wear alike (`ground/matching.py`).
    """
    return tuple(
        reading_of(series, number)
        for series in register.series.values()
        for number in series.stamp.worn_from(text)
        if number in series.issued and number != series.stamp.read(text)
    )
