"""Several numbers given together, as `F 118 / HK 588`: those of one machine, or of machines that are not one.

No record need say that they are one machine's: each tells of what goes by its plate then. Two numbers of one
plate, of different models, or of machines that records keep apart are not taken for one machine's.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from enum import StrEnum
from itertools import product

from spanbook.answers.readings import Reading, read_serial
from spanbook.ground.matching import UNREADABLE
from spanbook.register.model import Register

_JOINTS = (re.compile(r"\s+/\s+"), re.compile("/"))  # a stamp may have a stroke of its own
MOST = 4  # numbers of one machine


class Apart(StrEnum):
    """Why numbers are not one machine's: they are of different models, records have them on different
    machines, or two are of one plate and no record has them on one machine."""

    MODELS = "models"
    UNITS = "units"
    PLATE = "plate"


@dataclass(frozen=True, slots=True)
class Together:
    """Numbers that were given together: `machine` has them all, or `apart` says why none has."""

    parts: tuple[Reading, ...]
    machine: Reading | None
    apart: Apart | None = None

    @property
    def shown(self) -> str:
        return " / ".join(part.own.shown for part in self.parts)


def together(register: Register, text: str) -> tuple[Together, ...]:
    """Every way in which a text reads as several issued numbers: those of one model, else all others.

    Nothing where it reads as one number, or where a part of it reads as none.
    """
    if UNREADABLE in text or read_serial(register, text):
        return ()
    for joint in _JOINTS:
        read = [_issued(register, part) for part in joint.split(text)]
        if 1 < len(read) <= MOST and all(read):
            ways = [_taken(parts) for parts in product(*read)]
            return tuple([way for way in ways if way.apart is not Apart.MODELS] or ways)
    return ()


def machines_in(register: Register, text: str) -> tuple[Reading, ...]:
    """Every machine that a text names by one number, or by several: apart, each by its own."""
    return read_serial(register, text) or tuple(_readings(together(register, text)))


def _readings(ways: Iterable[Together]) -> Iterator[Reading]:
    for way in ways:
        yield from (way.machine,) if way.machine else way.parts


def _issued(register: Register, text: str) -> list[Reading]:
    return [reading for reading in read_serial(register, text) if reading.issued]


def _taken(parts: tuple[Reading, ...]) -> Together:
    """Numbers taken for one machine's, if they can be."""
    if len({part.series.machine for part in parts}) > 1:
        return Together(parts, None, Apart.MODELS)
    units = {part.unit for part in parts if part.unit}
    if len(units) > 1:
        return Together(parts, None, Apart.UNITS)
    if units and all(part.unit for part in parts):
        return Together(parts, parts[0])
    # A number given twice is one, and a unit stands once for all of its numbers that were given.
    kept: list[Reading] = []
    for part in parts:
        if not any(part.same_as(other) for other in kept):
            kept.append(part)
    numbers = tuple(dict.fromkeys(number for part in kept for number in part.numbers or (part.own,)))
    of_plate = [{number.plate for number in part.numbers or (part.own,)} for part in kept]
    if len(set().union(*of_plate)) < sum(map(len, of_plate)):
        return Together(parts, None, Apart.PLATE)
    if len(kept) == 1:
        return Together(parts, kept[0])
    return Together(parts, replace(kept[0], numbers=numbers, unit=None, parts=tuple(kept)))
