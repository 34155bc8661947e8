"""Machines that are known by several numbers."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.readings import Reading
from spanbook.answers.together import Apart, Together
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.punctuation import parted
from spanbook.reading.records import Unit
from spanbook.register.model import Register
from spanbook.register.units import Borne
from spanbook.wording.grammar import listed, span_of
from spanbook.wording.pieces import Pieces, Ref, filled
from spanbook.wording.which_machine import this_machine_words

CARD = marked("its card")


TOGETHER = marked("Taken together as asked: {}. No record says that they are one machine.")
APART = {
    Apart.MODELS: marked("{} are numbers of different models."),
    Apart.UNITS: marked("{} are numbers of different machines, by the records."),
    Apart.PLATE: marked("{}: two of these are numbers of one plate, and no record has them on one machine."),
}


def apart_words(one: Together) -> str:
    """Why numbers that were given together are not taken for one machine's; nothing where they are."""
    return _(APART[one.apart]).format(one.shown) if one.apart else ""


def known_words(register: Register, reading: Reading) -> Iterator[Pieces]:
    """Under which numbers one machine is known; nothing of one that has a single number."""
    if reading.parts:
        yield (_(TOGETHER).format(reading.shown),)
    for part in reading.parts or (reading,):
        if part.unit:
            yield _unit_words(register, part.unit)


def _unit_words(register: Register, unit: Unit) -> Pieces:
    borne = [borne_words(one) for one in register.units.numbers[unit]]
    told, one = _("{machine} under several numbers: {numbers}."), Ref(_("One machine"), unit)
    return filled(told, machine=one, numbers=parted(*borne))


def borne_words(one: Borne) -> str:
    """A number with its plate, and when the machine bore it: `HK 233, engine, until 1937`."""
    first, last = one.typed.borne
    told = f"{one.number.shown}, {one.number.series.plate}"
    match first, last:
        case None, None:
            return told
        case None, _:
            return _("{number}, until {year}").format(number=told, year=last)
        case _, None:
            return _("{number}, from {year} on").format(number=told, year=first)
        case _ if first == last:
            return _("{number}, in {year}").format(number=told, year=first)
        case _:
            return f"{told}, {span_of([str(first), str(last)])}"


def unit_summary(reading: Reading, register: Register) -> str:
    """Which machine it is and when it was built, by the first of its numbers, and the others."""
    others = [one.shown for one in reading.numbers if one != reading.own]
    told = this_machine_words(register, reading)
    return f"{told} {_('Also known as {}.').format(listed(others))}" if others else told
