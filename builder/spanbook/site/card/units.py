"""The cards of machines that are known by several numbers: a table for each, whichever is asked for."""

from __future__ import annotations

from typing import Any

from spanbook.answers.questions import anchor
from spanbook.answers.readings import Reading, machine_of
from spanbook.answers.this_machine import ThisMachine
from spanbook.reading.records import Unit
from spanbook.site import addresses
from spanbook.site.card import found
from spanbook.site.card.lines import said
from spanbook.site.common import Site
from spanbook.wording.questions import question_words
from spanbook.wording.this_machine import looks, machine_words, sections, short_words
from spanbook.wording.units import known_words


def name_of(unit: Unit) -> str:
    """What its table is called."""
    return f"unit-{unit.id}"


def reading_of(site: Site, unit: Unit) -> Reading | None:
    """The machine by the first of its numbers; None where none of them can be read."""
    numbers = site.register.units.all_of(unit)
    return machine_of(site.register, numbers[0].series, numbers[0].number) if numbers else None


def files(site: Site) -> dict[str, Any]:
    """The table of every unit by its name."""
    readings = {unit: reading_of(site, unit) for unit in site.register.unit_records.values()}
    return {name_of(unit): _table(site, reading) for unit, reading in readings.items() if reading}


def _table(site: Site, reading: Reading) -> dict[str, Any]:
    register, machine = site.register, site.answers.machines.of(reading)
    head = machine_words(register.machines[reading.series.machine], reading.years, reading.part_of_year)
    return {
        "head": head,
        "looks": [said(words) for words in (known_words(register, reading), *looks(register, machine))],
        "rows": [
            [
                short_words(register, place),
                str(place.known),
                [[heading, [*map(said, lines)]] for heading, lines in sections(register, place)],
            ]
            for place in machine.positions
        ],
        "questions": [
            [question_words(register, one), f"{addresses.of_questions(one.series)}#{anchor(one)}"]
            for one in machine.questions
        ],
        "places": _places(site, machine),
    }


def _places(site: Site, machine: ThisMachine) -> list[Any]:
    """Where something else may be found on it, and by which of its numbers that is looked up."""
    return [
        [*found.place(site, i, place.position, held), place.reading.series.id, place.reading.number]
        for i, place in enumerate(machine.positions)
        if (held := found.candidates(site.answers, place.reading.series, place.position))
    ]
