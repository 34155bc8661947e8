"""The cards of machines that are known by several numbers: a table for each, whichever is asked for."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from spanbook.answers.question_anchor import anchor
from spanbook.answers.readings import Reading, machine_of
from spanbook.answers.this_machine import ThisMachine
from spanbook.reading.records import Series, Teardown, Unit
from spanbook.register.model import Register
from spanbook.site import addresses
from spanbook.site.card import found
from spanbook.site.card.lines import said
from spanbook.site.common import Site
from spanbook.wording.questions import question_words
from spanbook.wording.this_machine import (
    sections,
    seen_short_words,
    short_words,
    teardown_words,
)
from spanbook.wording.units import known_words
from spanbook.wording.which_machine import machine_words


def name_of(unit: Unit) -> str:
    """What its table is called."""
    return f"unit-{unit.id}"


def reading_of(site: Site, unit: Unit) -> Reading | None:
    """The machine by the first of its numbers; None where none of them can be read."""
    numbers = site.register.units.all_of(unit)
    return machine_of(site.register, numbers[0].series, numbers[0].number) if numbers else None


def table(site: Site, reading: Reading) -> dict[str, Any]:
    register, machine = site.register, site.answers.machines.of(reading)
    model, part = register.machines[reading.series.machine], reading.part_of_year
    head = machine_words(model, reading.years, part, reading.plants)
    return {
        "head": head,
        "known": [said(words) for words in known_words(register, reading)],
        "looks": _looks(register, machine.teardowns, exact=True),
        "perhaps": _looks(register, machine.perhaps, exact=False),
        "rows": [
            [
                short_words(register, place),
                str(place.known),
                [[heading, [*map(said, lines)]] for heading, lines in sections(register, place)],
                told_by(site, place.reading.series, place.position),
                seen_short_words(register, place.seen),
            ]
            for place in machine.positions
        ],
        "questions": [
            [question_words(register, one), f"{addresses.of_questions(one.series)}#{anchor(one)}"]
            for one in machine.questions
        ],
        "places": _places(site, machine),
        "plates": sorted({one.plate for one in reading.numbers}),
    }


def _looks(register: Register, teardowns: Iterable[Teardown], *, exact: bool) -> list[Any]:
    return [said(teardown_words(register, teardown, exact=exact)) for teardown in teardowns]


def told_by(site: Site, series: Series, position: str) -> list[int]:
    """Whether the numbers of a series tell of a position, and whether it follows their own plate."""
    follows = site.register.positions[position].follows or ""
    tells = site.answers.fits.speaking.plate_to_ask(series, position) is None
    return [int(tells), int(series.plate.casefold() == follows.casefold())]


def _places(site: Site, machine: ThisMachine) -> list[Any]:
    """Where something else may be found on it, and by which of its numbers that is looked up."""
    return [
        [*found.place_of(site, i, place.position, held), place.reading.series.id, place.reading.number]
        for i, place in enumerate(machine.positions)
        if (held := found.candidates(site.answers, place.reading.series, place.position))
    ]
