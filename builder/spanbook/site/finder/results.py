"""An answer as the rows of the finder's list. The script in the pages makes the same from the tables."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from urllib.parse import quote_plus

from spanbook.answers.readings import Reading
from spanbook.answers.search import MOST, SURE, Answer, How, Known, Match, nearest_run
from spanbook.answers.this_machine import ThisPosition
from spanbook.answers.together import Apart, Together
from spanbook.ground.language import gettext as _
from spanbook.ground.matching import read_as, words
from spanbook.register.model import Register
from spanbook.register.units import Number
from spanbook.site import addresses
from spanbook.wording.finder import MOST_TAKEN, may_be_words, of_size_words, read_words, say
from spanbook.wording.sizing import MIND, standard_words, typed_caution
from spanbook.wording.this_machine import badge_words, short_words


@dataclass(frozen=True, slots=True)
class Row:
    """A line of the list: a link, or without an address a remark.

    `itself`: it is what was asked for, and not only like it. Where one row alone is, Enter goes to it.
    """

    title: str
    detail: str
    address: str
    itself: bool = False


def rows(register: Register, answer: Answer) -> list[Row]:
    """The rows of an answer in their order."""
    places = [_place(register, answer, reading, place) for reading, place in answer.places]
    numbers = [(match, _match(register, answer.words, match)) for match in answer.matches]
    sure = [row for match, row in numbers if match.how in SURE]
    other = [row for match, row in numbers if match.how not in SURE]
    if answer.more_matches:
        other.append(Row(say("more-numbers"), "", ""))
    pages = list(_pages(answer))
    loose = [] if places else [_loose(register, reading) for reading in answer.loose]
    found = [*places, *_serials(register, answer), *sure, *loose, *_sizes(register, answer)]
    found += [*pages, *other] if answer.as_words else [*other, *pages]
    return found or list(_nothing(answer))


def _nothing(answer: Answer) -> Iterator[Row]:
    yield Row(say("none"), "", "")
    if answer.alone:
        yield Row(say("alone"), ", ".join(answer.alone), "")


def _pages(answer: Answer) -> Iterator[Row]:
    for word, others in answer.taken:
        yield Row(say("taken", word), say("taken-for", ", ".join(others[:MOST_TAKEN])), "")
    for i, document in enumerate(answer.documents):
        yield Row(document.title, document.sort, document.address, i < answer.named and not answer.beside)
    if answer.more_documents:
        yield Row(say("more-pages"), "", "")


def _sizes(register: Register, answer: Answer) -> Iterator[Row]:
    yield from (Row(one.name, standard_words(one), "") for one, _parts in answer.sizes)
    for standard, parts in answer.sizes:
        for part in parts:
            yield Row(part.number, of_size_words(register, standard, part), addresses.of_part(part.key))
    cautions = dict.fromkeys(typed_caution(one.sort) for one, _parts in answer.sizes)
    yield from (Row(_(MIND), caution, "") for caution in cautions)


def _place(register: Register, answer: Answer, reading: Reading, place: ThisPosition) -> Row:
    position = register.positions[place.position].title
    known = say("at-place", short_words(register, place), badge_words(place)[0])
    address = f"{card_address(reading.shown)}#{card_line(place.position)}"
    itself = words(position) == words(answer.words) and reading in answer.readings
    return Row(say("place", reading.shown, position), known, address, itself)


def card_line(position: str) -> str:
    """Where a position stands on a machine's card."""
    return addresses.anchor_of_position(position)


def card_address(serial: str) -> str:
    return f"{addresses.CARD}?serial={quote_plus(serial)}"


def _serials(register: Register, answer: Answer) -> Iterator[Row]:
    if len(answer.may_be) > 1:
        text = answer.query
        yield Row(text, may_be_words(len(answer.may_be)), card_address(text), itself=True)
    if answer.together:
        yield from (_together(register, one) for one in answer.together)
        return
    yield from (_reading(register, reading, itself=not answer.beside) for reading in answer.readings)
    yield from (_retired(register, number) for number in answer.retired)
    alone = len(answer.may_be) == 1
    yield from (_reading(register, reading, itself=alone) for reading in answer.may_be[:MOST])
    text = answer.query
    if answer.worn and any(reading.issued for reading in answer.readings):
        pairs = dict.fromkeys(pair for one in answer.worn[:MOST] for pair in read_as(text, _stamped(one)))
        yield Row(say("worn-title", read_words(pairs)), say("worn-too", shown(answer.worn)), "")
    else:
        yield from (_worn(register, text, reading) for reading in answer.worn[:MOST])


def _together(register: Register, one: Together) -> Row:
    if one.apart is Apart.MODELS:
        return Row(one.shown, say("models"), card_address(one.shown))
    machine = register.machines[one.parts[0].series.machine].title
    return Row(one.shown, say("together", machine), card_address(one.shown), itself=True)


def shown(worn: tuple[Reading, ...]) -> str:
    """The first numbers that a worn stamp may be, in a line."""
    numbers = ", ".join(_stamped(reading) for reading in worn[:MOST])
    return say("and-more", numbers) if len(worn) > MOST else numbers


def _stamped(reading: Reading) -> str:
    return reading.series.stamp.show(reading.number)


def _worn(register: Register, text: str, reading: Reading) -> Row:
    number = _stamped(reading)
    said = say(
        "worn-card", register.machines[reading.series.machine].title, read_words(read_as(text, number))
    )
    return Row(number, said, card_address(number))


def _loose(register: Register, reading: Reading) -> Row:
    number = _stamped(reading)
    return Row(
        number, say("loose-card", register.machines[reading.series.machine].title), card_address(number)
    )


def _reading(register: Register, reading: Reading, *, itself: bool) -> Row:
    series, show = reading.series, reading.series.stamp.show
    shown, machine = show(reading.number), register.machines[series.machine].title
    if reading.issued:
        return Row(shown, say("card", machine), card_address(shown), itself)
    run = nearest_run(series, reading.number)
    first = show(run.first)
    near = say("up", first) if run.last is None else say("to", first, show(run.last))
    return Row(shown, say("never", machine, near), addresses.of_series(series))


def _retired(register: Register, number: Number) -> Row:
    """It leads to the page of its series, which leads on."""
    machine = register.machines[number.series.machine].title
    return Row(number.shown, say("retired", machine), addresses.of_series(number.series), itself=True)


def _match(register: Register, text: str, match: Match) -> Row:
    part = match.key.part
    whose = register.makers.get(part.key.by, part.key.by)
    read = read_as(text, match.key.text) if match.how is How.WORN else ()
    how = "as-worn" if read else str(How.BEGINS if match.how is How.WORN else match.how)
    known = match.key.known
    named = (part.name, whose) if known is Known.NUMBER else (part.number, part.name, whose)
    told = (*named, read_words(read)) if read else named
    said = say(how if known is Known.NUMBER else f"{known}-{how}", *told)
    return Row(match.key.text, said, addresses.of_part(part.key), itself=match.how in SURE)
