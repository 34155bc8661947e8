"""What a text reads as when it is taken for a serial number: machines by their numbers."""

from __future__ import annotations

from dataclasses import dataclass, replace

from spanbook.ground.years import Part, Years
from spanbook.reading.records import Plant, Series, Unit
from spanbook.register.model import Register
from spanbook.register.units import Number, first_of_plates


@dataclass(frozen=True, slots=True)
class Reading:
    """A machine by a serial number read in one series. `issued` is false for a number outside it or skipped:
    no machine has it, so it has no `years`.

    `numbers` are all that the machine is known by, this one too, in the order of its record `unit`; nothing
    where it is known by this one alone. Without a unit they are those that somebody gave together, and
    `parts` what is known under each of these.
    """

    series: Series
    number: int
    issued: bool
    years: Years | None
    numbers: tuple[Number, ...] = ()
    unit: Unit | None = None
    parts: tuple[Reading, ...] = ()

    @property
    def shown(self) -> str:
        """As the plate has it, or the plates."""
        return " / ".join(part.own.shown for part in self.parts) or self.own.shown

    @property
    def own(self) -> Number:
        return Number(self.series, self.number)

    @property
    def built(self) -> tuple[Number, ...]:
        """The numbers that it was built under, one a plate."""
        return first_of_plates(self.numbers) or (self.own,)

    @property
    def part_of_year(self) -> Part | None:
        """Where in its year it was built."""
        first = self.built[0]
        return first.series.years.part_of(first.number)

    def among(self, other: Reading) -> Reading:
        """The same number, as one of several that were given together."""
        return replace(self, numbers=other.numbers, parts=other.parts)

    @property
    def plants(self) -> tuple[Plant, ...]:
        """Where it may have been built."""
        first = self.built[0]
        return first.series.order.plants_at(first.number)

    def by(self, number: Number) -> Reading:
        """The same machine, asked about by another of its numbers."""
        return replace(self, series=number.series, number=number.number)

    def same_as(self, other: Reading) -> bool:
        """Whether it is the same machine, under whatever number."""
        return (self.unit is not None and self.unit is other.unit) or self.own == other.own


def read_serial(register: Register, text: str) -> tuple[Reading, ...]:
    """Every series in which a text reads as a serial number, with the number; those issued first."""
    found = (
        machine_of(register, series, number)
        for series in register.series.values()
        for number in series.stamp.readings(text)
    )
    return tuple(sorted(found, key=lambda r: (not r.issued, r.series.id)))


def reading_of(series: Series, number: int) -> Reading:
    """A number by itself, whatever machine has it."""
    issued = number in series.issued
    return Reading(series, number, issued, series.years.year_of(number) if issued else None)


def machine_of(register: Register, series: Series, number: int) -> Reading:
    """The machine with a number, known by all its numbers that a record has."""
    reading = reading_of(series, number)
    unit = register.units.of(reading.own)
    return known_by(reading, register.units.all_of(unit), unit) if unit else reading


def known_by(reading: Reading, numbers: tuple[Number, ...], unit: Unit | None) -> Reading:
    """A machine that is known by several numbers; it is as old as the first of them."""
    first = numbers[0]
    return replace(reading, numbers=numbers, unit=unit, years=first.series.years.year_of(first.number))


def may_be(register: Register, text: str) -> tuple[Reading, ...]:
    """Every issued number that a text with `?` for unreadable characters may be, by series."""
    return tuple(
        machine_of(register, series, number)
        for series in register.series.values()
        for number in series.stamp.may_be(text)
        if number in series.issued
    )


def loosely(register: Register, text: str) -> tuple[Reading, ...]:
    """Every issued number that a text may be with its letters left out or at the other end, by series."""
    return tuple(
        machine_of(register, series, number)
        for series in register.series.values()
        for number in series.stamp.loosely(text)
        if number in series.issued and number not in series.stamp.readings(text)
    )


def worn_to(register: Register, text: str) -> tuple[Reading, ...]:
    """Every issued number whose stamp, worn, may read as a text does, beside what it reads as, by series.

    By our own table of letters and digits that wear alike (`ground/matching.py`).
    """
    return tuple(
        machine_of(register, series, number)
        for series in register.series.values()
        for number in series.stamp.worn_from(text)
        if number in series.issued and number not in series.stamp.readings(text)
    )
