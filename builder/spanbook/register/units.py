"""Machines that are known by several numbers: which numbers, and which machine a number is one of.

Of one plate a machine was built under the number that its record lists first; what comes after is what it was
numbered anew. A number that was never issued, or that an earlier unit has, is left out: the rules tell of it.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field

from spanbook.reading.records import Series, Unit, UnitNumber


@dataclass(frozen=True, slots=True)
class Number:
    """A serial number: a series, and a number in it."""

    series: Series
    number: int

    @property
    def shown(self) -> str:
        """As the plate has it."""
        return self.series.stamp.show(self.number)

    @property
    def plate(self) -> str:
        return self.series.plate.casefold()


@dataclass(frozen=True, slots=True)
class Borne:
    """A number of a unit, with what its record says of it."""

    number: Number
    typed: UnitNumber


@dataclass(frozen=True, slots=True)
class Units:
    """The numbers of every unit, in the order of its record, and by the id of a series the units of its
    numbers."""

    numbers: Mapping[Unit, tuple[Borne, ...]] = field(default_factory=dict)
    of_series: Mapping[str, Mapping[int, Unit]] = field(default_factory=dict)

    def of(self, number: Number) -> Unit | None:
        return self.of_series.get(number.series.id, {}).get(number.number)

    def all_of(self, unit: Unit) -> tuple[Number, ...]:
        """Every number of a unit in the order of its record."""
        return tuple(one.number for one in self.numbers[unit])

    def together(self, series: Series) -> Iterable[Series]:
        """The series of all numbers that machines of a series have, its own first."""
        shared = self.of_series.get(series.id, {}).values()
        return dict.fromkeys([series, *(one.series for unit in shared for one in self.all_of(unit))])

    def shared(self, series: Series) -> Collection[int]:
        """The numbers of a series that are one of several of a machine, rising."""
        return self.of_series.get(series.id, {}).keys()


def units_of(units: Iterable[Unit], series: Mapping[str, Series]) -> Units:
    numbers: dict[Unit, tuple[Borne, ...]] = {}
    of_series: dict[str, dict[int, Unit]] = {}
    for unit in units:
        found = []
        for typed in unit.numbers:
            may_be = read(typed, unit, series.values())
            if len(may_be) == 1 and may_be[0].series.machine == unit.machine:
                of = of_series.setdefault(may_be[0].series.id, {})
                if of.setdefault(may_be[0].number, unit) is unit:
                    found.append(Borne(may_be[0], typed))
        numbers[unit] = tuple(dict.fromkeys(found))
    return Units(numbers, {id_: dict(sorted(of.items())) for id_, of in of_series.items()})


def read(typed: UnitNumber, unit: Unit, series: Iterable[Series]) -> tuple[Number, ...]:
    """The issued numbers that a number of a unit reads as: in the series of its machine, else in others."""
    found = [
        Number(one, number)
        for one in series
        if typed.series in (None, one.id) and (number := one.stamp.read(typed.serial)) is not None
        if number in one.issued
    ]
    own = [one for one in found if one.series.machine == unit.machine]
    return tuple(own or found)


def first_of_plates(numbers: Iterable[Number]) -> tuple[Number, ...]:
    """The first number of each plate, in their order."""
    found: dict[str, Number] = {}
    for number in numbers:
        found.setdefault(number.plate, number)
    return tuple(found.values())
