"""The Python interface: open a folder of records, ask what fits.

>>> register = spanbook.open_register("my-community")
>>> register.fits("HK 588")
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from functools import cached_property
from pathlib import Path

from spanbook.answers import applicability as _applicability
from spanbook.answers import breaks as _breaks
from spanbook.answers.answers import Answers
from spanbook.answers.changepoint import Rates
from spanbook.answers.conversions import (
    Holds,
    NoPlan,
    Plan,
    as_it_left_the_works,
    as_late_as_it_can_be,
    convert,
)
from spanbook.answers.orders import Orders, orders
from spanbook.answers.supersession import Need, Substitutes, order_now, would_do
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.problems import Problems, errors
from spanbook.register.model import Register
from spanbook.rules.checking import check_folder, open_folder


@dataclass(frozen=True, eq=False)
class OpenRegister(Register):
    """A register that answers. Everything it holds is read-only."""

    @cached_property
    def answers(self) -> Answers:
        """Whatever was once asked, kept."""
        return Answers(self)

    def read_serial(self, text: str) -> tuple[_applicability.Reading, ...]:
        """Every series in which a text reads as a serial number, in any case and spacing.

        A number that was never issued is given too, with `issued` false; nothing for other texts.
        """
        return _applicability.read_serial(self, text)

    def fits(self, text: str) -> tuple[_applicability.Card, ...]:
        """For every reading of a serial number, what each position of that machine has."""
        return tuple(self.answers.fits.card(reading) for reading in self.read_serial(text))

    def breaks(self, position: str, series: str, rates: Rates | None = None) -> tuple[_breaks.Break, ...]:
        """Where production changed at a position (its full name) over a series (its id), as far as is known.

        Raises LookupError for a position or series that no record has.
        """
        if position not in self.positions or series not in self.series:
            raise LookupError(f"no record has the position {position} or the series {series}")
        return _breaks.breaks_at(self.answers.fits, position, self.series[series], rates or Rates())

    def order_now(
        self, number: str, quantity: int = 1, serial: str | None = None, by: str | None = None
    ) -> Need:
        """The tree of what replaces so many of a number today, for one machine if a serial is given.

        It stops after twenty acts in a row, with the ending that it goes on; `orders` goes to the end.

        Raises LookupError when the number is not known, is several makers' and `by` does not say whose,
        or when the serial number does not read as exactly one issued machine.
        """
        return order_now(self, self._key(number, by), quantity, self._reading(serial))

    def orders(
        self, number: str, quantity: int = 1, serial: str | None = None, by: str | None = None
    ) -> Orders:
        """Every complete way to order so many of a number today. Raises LookupError as order_now."""
        return orders(self, self._key(number, by), quantity, self._reading(serial))

    def would_do(self, number: str, serial: str | None = None, by: str | None = None) -> Substitutes:
        """The numbers usable instead, each with the acts that say so. Raises LookupError as order_now."""
        return would_do(self, self._key(number, by), self._reading(serial))

    def convert(
        self, serial: str, wanted: Holds | None = None, holds: Holds | None = None, *, latest: bool = False
    ) -> Plan | NoPlan:
        """How a machine is converted to what is wanted (position to assembly id), by the fewest new parts.

        What `holds` does not say is taken as it left the works where that is settled. Without `wanted`
        the goal is as it left the works, or with `latest` as late as it can be. Raises LookupError for a
        serial number that is not exactly one machine, or for an assembly at a position not its own.
        """
        reading = self._reading(serial)
        assert reading is not None, "a serial number was given"
        works = as_it_left_the_works(self.answers.fits, reading)
        start = {**works, **(holds or {})}
        goal = wanted or (as_late_as_it_can_be(self, reading, start) if latest else works)
        for position, id_ in (*start.items(), *goal.items()):
            if id_ not in self.assemblies or self.assemblies[id_].position != position:
                raise LookupError(f"no record has the assembly {id_} at {position}")
        return convert(self, reading, start, goal)

    def _key(self, number: str, by: str | None) -> PartKey:
        found = [key for key in self.parts if key == PartKey.of(by or key.by, number)]
        if len(found) == 1:
            return found[0]
        whose = f" of {by}" if by else ""
        if not found:
            raise LookupError(f"no record mentions the part number {number}{whose}")
        raise LookupError(f"{number} is a number of {', '.join(k.by for k in found)}: say whose")

    def _reading(self, serial: str | None) -> _applicability.Reading | None:
        if serial is None:
            return None
        found = [reading for reading in self.read_serial(serial) if reading.issued]
        if len(found) != 1:
            raise LookupError(f"{serial} reads as {len(found)} machines, and one is wanted")
        return found[0]


def open_register(path: str | Path) -> OpenRegister:
    """The register of a project folder (one with `content/` in it) or of a content folder itself.

    Raises Problems with every problem when a record has an error, FileNotFoundError without a folder.
    """
    opened = open_folder(Path(path))
    if errors(opened.problems):
        raise Problems(check_folder(Path(path)).problems)
    return OpenRegister(*(getattr(opened.register, field.name) for field in fields(Register)))
