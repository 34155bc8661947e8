"""Other numbers of a part, misprints for it, its meanings, hands and sets, as its page shows them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from spanbook.answers.pairs import mirrors_of
from spanbook.answers.sets import Held, held_in, sets_of
from spanbook.reading.records import AlsoNumber, Misprint, OtherPart, PartRecord, Reuse, SetPart
from spanbook.register.model import Part
from spanbook.register.statements import OfNumber
from spanbook.site import addresses
from spanbook.site.common import Site, Trust, part_link
from spanbook.site.page import Link
from spanbook.site.trust import trust
from spanbook.wording.numbers import (
    also_words,
    held_in_words,
    held_words,
    pair_words,
    part_title,
    reuse_words,
    sense_words,
)


@dataclass(frozen=True, slots=True)
class NumberRow:
    """A number, or another part, with what is said of it and how far that is to be trusted.

    `link` is None for a number that has no page but this. `anchor` is empty where another record says so.
    """

    anchor: str
    number: str
    link: Link | None
    said: str
    note: str | None
    trust: Trust | None


@dataclass(frozen=True, slots=True)
class NumbersView:
    """What a part's page tells of numbers, each list empty where nothing is said."""

    also: tuple[NumberRow, ...]
    misprints: tuple[NumberRow, ...]
    meanings: tuple[NumberRow, ...]
    meant: tuple[Link, ...]
    pair: str
    mirrors: tuple[NumberRow, ...]
    only_in: tuple[NumberRow, ...]
    held_in: tuple[NumberRow, ...]
    holds: tuple[NumberRow, ...]
    unlike: tuple[NumberRow, ...]


_NOTHING = NumbersView((), (), (), (), "", (), (), (), (), ())


def numbers_of(site: Site, part: Part) -> NumbersView:
    record = part.record
    if not (record or part.beside or part.key.plain in site.register.numbering.senses):
        return _NOTHING
    rows = list(_rows(site, record)) if record else []

    def of(kind: type[object], among: tuple[object, ...]) -> tuple[NumberRow, ...]:
        return tuple(row for said, row in rows if isinstance(said, kind) and said in among)

    said_here = {row.link.address for said, row in rows if row.link and isinstance(said, OtherPart)}
    only_in = sets_of(site.register, part.key)
    senses = site.register.numbering.senses.get(part.key.plain, ())
    return NumbersView(
        also=of(AlsoNumber, record.also if record else ()),
        misprints=of(Misprint, record.misprints if record else ()),
        meanings=of(Reuse, record.reused if record else ()),
        meant=tuple(
            Link(sense_words(site.register, sense.part), site.record_link(sense.part).address)
            for sense in senses
            if sense.part is not record
        ),
        pair=pair_words(site.register, part),
        mirrors=of(OtherPart, record.mirrors if record else ()) or tuple(_mirrored(site, part)),
        only_in=of(OtherPart, record.only_in if record else ()),
        held_in=tuple(_held(site, held) for held in held_in(site.register, part) if held.key not in only_in),
        holds=of(SetPart, record.holds if record else ()),
        unlike=(
            *of(OtherPart, record.unlike if record else ()),
            *(row for row in _told_apart(site, part) if row.link and row.link.address not in said_here),
        ),
    )


def _rows(site: Site, record: PartRecord) -> Iterator[tuple[object, NumberRow]]:
    """Every statement about numbers that a part's record makes."""
    for statement in site.register.statements_of[record]:
        if isinstance(subject := statement.subject, OfNumber):
            yield subject.said, _row(site, record, subject, statement.anchor)


def _row(site: Site, record: PartRecord, subject: OfNumber, anchor: str) -> NumberRow:
    judged = trust(site, subject)
    match said := subject.said:
        case AlsoNumber():
            words = also_words(site.register, record, said)
            return NumberRow(anchor, said.number, None, words, said.note, judged)
        case Misprint():
            return NumberRow(anchor, said.number, None, "", said.note, judged)
        case Reuse():
            return NumberRow(anchor, "", None, reuse_words(site.register, said), said.note, judged)
        case _:
            part = site.register.parts[site.register.key_of(record, said)]
            words = held_words(said.quantity, part) if isinstance(said, SetPart) else part.name
            return NumberRow(anchor, said.number, part_link(part, said.number), words, said.note, judged)


def _mirrored(site: Site, part: Part) -> Iterator[NumberRow]:
    """The other hand, where its record alone says so."""
    for other in mirrors_of(site.register, part):
        yield NumberRow("", other.number, part_link(other), other.name, None, None)


def _held(site: Site, held: Held) -> NumberRow:
    part = site.register.parts[held.key]
    link = Link(part_title(part), addresses.of_part(part.key))
    return NumberRow("", part.number, link, held_in_words(held.quantity, part), None, None)


def _told_apart(site: Site, part: Part) -> Iterator[NumberRow]:
    """Parts whose records say that they are not this one."""
    register = site.register
    for record in part.beside:
        for one in record.unlike:
            if register.key_of(record, one) == part.key:
                other = register.parts[register.key_of_record(record)]
                yield NumberRow("", other.number, part_link(other), other.name, one.note, None)
