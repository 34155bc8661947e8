"""An answer as the rows of the finder's list. The script in the pages makes the same from the tables."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from urllib.parse import quote_plus

from spanbook.answers.readings import Reading
from spanbook.answers.search import MOST, Answer, How, Known, Match, nearest_run
from spanbook.answers.together import Apart, Together
from spanbook.register.model import Register
from spanbook.site import addresses
from spanbook.wording.finder import WORDS, say


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
    found = [*_serials(register, answer), *(_match(register, m) for m in answer.matches)]
    if answer.more_matches:
        found.append(Row(WORDS["more-numbers"], "", ""))
    found += [Row(d.title, d.sort, d.address) for d in answer.documents]
    if answer.more_documents:
        found.append(Row(WORDS["more-pages"], "", ""))
    return found or [Row(WORDS["none"], "", "")]


def card_address(serial: str) -> str:
    return f"{addresses.CARD}?serial={quote_plus(serial)}"


def _serials(register: Register, answer: Answer) -> Iterator[Row]:
    if len(answer.may_be) > 1:
        text = answer.query.strip()
        yield Row(text, say("worn", str(len(answer.may_be))), card_address(text), itself=True)
    if answer.together:
        yield from (_together(register, one) for one in answer.together)
        return
    yield from (_reading(register, reading, itself=True) for reading in answer.readings)
    alone = len(answer.may_be) == 1
    yield from (_reading(register, reading, itself=alone) for reading in answer.may_be[:MOST])
    if answer.worn and any(reading.issued for reading in answer.readings):
        text = answer.query.strip()
        yield Row(text, say("worn-too", shown(answer.worn)), card_address(text))
    else:
        yield from (_worn(register, reading) for reading in answer.worn[:MOST])


def _together(register: Register, one: Together) -> Row:
    if one.apart is Apart.MODELS:
        return Row(one.shown, say("models"), card_address(one.shown))
    machine = register.machines[one.parts[0].series.machine].title
    return Row(one.shown, say("together", machine), card_address(one.shown), itself=True)


def shown(worn: tuple[Reading, ...]) -> str:
    """The first numbers that a worn stamp may be, in a line."""
    numbers = ", ".join(reading.series.stamp.show(reading.number) for reading in worn[:MOST])
    return say("and-more", numbers) if len(worn) > MOST else numbers


def _worn(register: Register, reading: Reading) -> Row:
    number = reading.series.stamp.show(reading.number)
    return Row(
        number, say("worn-card", register.machines[reading.series.machine].title), card_address(number)
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


def _match(register: Register, match: Match) -> Row:
    part = match.key.part
    whose = register.makers.get(part.key.by, part.key.by)
    how = "as-worn" if match.how is How.WORN else str(match.how)
    known = match.key.known
    said = (
        say(how, part.name, whose)
        if known is Known.NUMBER
        else say(f"{known}-{how}", part.number, part.name, whose)
    )
    itself = match.how in (How.EXACT, How.SPACING)
    return Row(match.key.text, said, addresses.of_part(part.key), itself)
