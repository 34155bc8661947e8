"""What is found for a query, as a person reads it in a terminal."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from spanbook.answers.answers import Answers
from spanbook.answers.listed import listed
from spanbook.answers.orders import orders
from spanbook.answers.readings import Reading
from spanbook.answers.search import SURE, Answer, Asker, Match
from spanbook.answers.this_machine import ThisMachine, ThisPosition
from spanbook.ground.language import gettext as _
from spanbook.ground.punctuation import labelled
from spanbook.register.model import Register
from spanbook.wording.finder import of_size_words
from spanbook.wording.order_here import answer_words
from spanbook.wording.pieces import plain
from spanbook.wording.questions import question_words
from spanbook.wording.retired import retired_number_words
from spanbook.wording.search import (
    document_words,
    loose_words,
    match_words,
    more_words,
    never_words,
    nothing_words,
    taken_words,
    worn_words,
)
from spanbook.wording.sizing import MIND, standard_words, typed_caution
from spanbook.wording.this_machine import (
    QUESTIONS,
    looks,
    sections,
    this_position_words,
)
from spanbook.wording.units import apart_words, known_words
from spanbook.wording.which_machine import this_machine_words

INDENT = "  "


def as_text(asker: Asker, query: str) -> str:
    answer = asker.ask(query)
    lines = [apart_words(one) for one in answer.together if one.apart]
    if answer.places:
        lines += _places(asker.register, answer)
    else:
        for reading in (*answer.readings, *answer.may_be):
            lines += _reading(asker.answers, reading)
    lines += (plain(retired_number_words(asker.register, number)) for number in answer.retired)
    if answer.worn:
        lines.append(worn_words(answer))
    if answer.loose:
        lines.append(loose_words(answer))
    lines += (taken_words(*one) for one in answer.taken)
    for match in answer.matches:
        lines += _match(asker, answer.words, match)
    lines += _sizes(asker.register, answer)
    lines += map(document_words, answer.documents)
    if answer.more_matches or answer.more_documents:
        lines.append(more_words())
    if answer.empty:
        lines.append(nothing_words(asker, query))
    return "\n".join(lines)


def _match(asker: Asker, query: str, match: Match) -> Iterator[str]:
    """A number, and of one that is surely meant what is ordered for it today."""
    key = match.key.part.key
    yield match_words(asker.register, query, match, listed(asker.answers.ever, key))
    if match.how in SURE and key not in asker.register.numbering.senses:
        found = orders(asker.register, key)
        yield INDENT + answer_words(
            asker.register, found, key, lambda act: asker.answers.standing(act).standing
        )


def _sizes(register: Register, answer: Answer) -> Iterator[str]:
    """The standard sizes that were typed, the parts recorded to have them, and what to mind."""
    for standard, parts in answer.sizes:
        yield labelled(standard.name, standard_words(standard))
        yield from (INDENT + labelled(one.number, of_size_words(register, standard, one)) for one in parts)
    cautions = dict.fromkeys(typed_caution(standard.sort) for standard, _parts in answer.sizes)
    yield from (labelled(_(MIND), caution) for caution in cautions)


def _places(register: Register, answer: Answer) -> Iterator[str]:
    """The positions asked for, machine by machine."""
    for reading, places in groupby(answer.places, key=lambda place: place[0]):
        yield this_machine_words(register, reading)
        for _reading, place in places:
            yield from _place(register, place)


def _reading(answers: Answers, reading: Reading) -> Iterator[str]:
    if reading.issued:
        yield from machine_lines(answers.register, answers.machines.of(reading))
    else:
        yield never_words(answers.register, reading)


def machine_lines(register: Register, machine: ThisMachine) -> Iterator[str]:
    """All that is known of one machine, in the order of its card."""
    yield this_machine_words(register, machine.reading)
    yield from (INDENT + plain(words) for words in known_words(register, machine.reading))
    yield from (INDENT + plain(words) for words in looks(register, machine))
    for place in machine.positions:
        yield from _place(register, place)
    if machine.questions:
        yield INDENT + _(QUESTIONS)
        yield from (INDENT * 2 + question_words(register, question) for question in machine.questions)


def _place(register: Register, place: ThisPosition) -> Iterator[str]:
    yield INDENT + this_position_words(register, place)
    for heading, lines in sections(register, place):
        yield INDENT * 2 + heading
        yield from (INDENT * 3 + plain(words) for words in lines)
