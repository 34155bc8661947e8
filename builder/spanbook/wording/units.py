"""Machines that are known by several numbers."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.readings import Reading
from spanbook.answers.together import Apart, Together
from spanbook.reading.records import Unit
from spanbook.register.model import Register
from spanbook.register.units import Borne
from spanbook.wording.grammar import listed
from spanbook.wording.pieces import Pieces, Ref
from spanbook.wording.this_machine import this_machine_words

CARD = "its card"


TOGETHER = "Taken together as asked: {}. No record says that they are one machine."
APART = {
    Apart.MODELS: "{} are numbers of different models.",
    Apart.UNITS: "{} are numbers of different machines, by the records.",
    Apart.PLATE: "{}: two of these are numbers of one plate, and no record has them on one machine.",
}


def apart_words(one: Together) -> str:
    """Why numbers that were given together are not taken for one machine's; nothing where they are."""
    return APART[one.apart].replace("{}", one.shown) if one.apart else ""


def known_words(register: Register, reading: Reading) -> Iterator[Pieces]:
    """Under which numbers one machine is known; nothing of one that has a single number."""
    if reading.parts:
        yield (TOGETHER.replace("{}", reading.shown),)
    for part in reading.parts or (reading,):
        if part.unit:
            yield _unit_words(register, part.unit)


def _unit_words(register: Register, unit: Unit) -> Pieces:
    borne = [borne_words(one) for one in register.units.numbers[unit]]
    return Ref("One machine", unit), f" under several numbers: {'; '.join(borne)}."


def borne_words(one: Borne) -> str:
    """A number with its plate, and when the machine bore it: `HK 233, engine, until 1937`."""
    first, last = one.typed.borne
    match first, last:
        case None, None:
            when = ""
        case None, _:
            when = f", until {last}"
        case _, None:
            when = f", from {first} on"
        case _:
            when = f", in {first}" if first == last else f", {first} to {last}"
    return f"{one.number.shown}, {one.number.series.plate}{when}"


def unit_summary(reading: Reading, register: Register) -> str:
    """Which machine it is and when it was built, by the first of its numbers, and the others."""
    others = [one.shown for one in reading.numbers if one != reading.own]
    also = f" Also known as {listed(others)}." if others else ""
    return this_machine_words(register, reading) + also
