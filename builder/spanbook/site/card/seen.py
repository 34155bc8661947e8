"""What was seen on single machines: by their numbers in small tables, so that a card loads little of it.

A worn number may be thousands of machines: what was seen under it stands once, with the number as read.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from spanbook.answers.answers import Answers
from spanbook.answers.questions import Question
from spanbook.answers.readings import reading_of
from spanbook.answers.this_machine import MOST_QUESTIONS
from spanbook.reading.records import Series, Teardown
from spanbook.register.worn import MayBe
from spanbook.site.card.lines import said
from spanbook.wording.this_machine import (
    PERHAPS_SEEN,
    seen_sections,
    seen_short_words,
    seen_words,
    short_words,
    teardown_words,
)

MACHINES_OF_A_BLOCK = 40


def questions_of(answers: Answers, series: Series) -> Mapping[int, list[Question]]:
    """The first few questions to the owner of each machine that somebody looked at, by its one number."""
    machines = answers.machines
    of_units = answers.register.units.of_series.get(series.id, {})
    return {
        number: list(machines.open_to(reading_of(series, number)))[:MOST_QUESTIONS]
        for number in sorted(machines.looks.seen(series))
        if number not in of_units
    }


def blocks(
    answers: Answers, series: Series, positions: Sequence[str], asked: Mapping[int, Sequence[int]]
) -> list[dict[int, Any]]:
    """The machines that somebody looked at, in blocks of rising numbers.

    Each has a sentence for each look, the positions that were looked at (by their places among those of the
    machine) with the short answer, what was seen and that in short, and its questions, by their places in the
    table. For one that is known by several numbers stands its unit's id: it has a table of its own.
    """
    of_units = answers.register.units.of_series.get(series.id, {})
    made: dict[int, Any] = {
        number: [*_machine(answers, series, number, positions), list(asked[number])]
        for number in answers.machines.looks.seen(series)
        if number not in of_units
    }
    made |= {number: unit.id for number, unit in of_units.items()}
    made = dict(sorted(made.items()))
    numbers = list(made)
    starts = range(0, len(numbers), MACHINES_OF_A_BLOCK)
    return [{n: made[n] for n in numbers[start : start + MACHINES_OF_A_BLOCK]} for start in starts]


def _machine(answers: Answers, series: Series, number: int, positions: Sequence[str]) -> tuple[Any, Any]:
    register, machines = answers.register, answers.machines
    reading = reading_of(series, number)
    teardowns = machines.looks.of(reading)
    looked = {find.position for teardown in teardowns for find in teardown.found}
    rows = []
    for i, position in enumerate(positions):
        if position not in looked:
            continue
        if seen := tuple(machines.found(teardowns, reading, position, exact=True)):
            place = replace(machines.at(reading, position), seen=seen)
            lines = [[heading, [*map(said, told)]] for heading, told in seen_sections(register, seen)]
            rows.append([i, short_words(register, place), lines, seen_short_words(register, seen)])
    return [said(teardown_words(register, teardown, exact=True)) for teardown in teardowns], rows


def worn(answers: Answers, series: Series, positions: Sequence[str]) -> list[Any]:
    """What was seen on machines whose number only may be read: the number, the sentence of the look, and for
    each position that was looked at what was found, by runs of numbers that the records tell alike."""
    return [
        [
            teardown.serial,
            said(teardown_words(answers.register, teardown, exact=False)),
            PERHAPS_SEEN,
            [
                [i, first, last, line]
                for i, position in enumerate(positions)
                if any(find.position == position for find in teardown.found)
                for first, last, line in _runs(answers, teardown, numbers, position)
            ],
        ]
        for teardown, numbers in answers.machines.looks.worn(series)
    ]


def _runs(answers: Answers, teardown: Teardown, numbers: MayBe, position: str) -> list[Any]:
    found: list[Any] = []
    for piece in answers.fits.told_alike((numbers.series, position)):
        lowest = numbers.lowest(piece.first, piece.last)
        if lowest is None:
            continue
        reading = reading_of(numbers.series, lowest)
        for seen in answers.machines.found([teardown], reading, position, exact=False):
            found.append([piece.first, piece.last, said(seen_words(answers.register, seen))])
    return found
