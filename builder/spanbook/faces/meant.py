"""What is meant by what whoever asks has typed: a machine, a part, assemblies."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from spanbook.answers.readings import Reading
from spanbook.answers.together import machines_in
from spanbook.ground.intervals import SpanSet
from spanbook.ground.language import gettext as _
from spanbook.ground.matching import squeezed
from spanbook.ground.part_numbers import PartKey, folded
from spanbook.reading.records import Assembly
from spanbook.register.model import Register
from spanbook.register.numbering import Spoken
from spanbook.wording.grammar import plural
from spanbook.wording.numbers import unclear_words


class UnknownNumber(LookupError):  # noqa: N818 - what it is, not that it is wrong
    """No record mentions a part number."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """So many (`quantity`) of a part `number`, for any machine or one by its `serial`, today or in a `year`;
    `by` says whose it is where several firms have it, `means` which part (its record's id) where it has
    meant several things.

    Any number of the part will do, misprints too; a machine may tell which part a number meant.
    """

    number: str
    quantity: int = 1
    serial: str | None = None
    by: str | None = None
    year: int | None = None
    means: str | None = None


def meant(register: Register, wanted: Wanted, reading: Reading | None = None) -> PartKey:
    """The one part that a number means, for a machine or for any.

    Raises UnknownNumber when no record mentions it, and LookupError, saying what to add, when it is several
    firms', may be several, or has meant several things.
    """
    number, by, numbering = wanted.number, wanted.by, register.numbering
    known = {key.plain for key in register.parts} | numbering.leads.keys() | numbering.senses.keys()
    before = {key: now for key, now in register.former.numbers.items() if key.plain not in known}
    known |= before.keys()
    of_firm = sorted(key for key in known if by in (None, key.by))
    written = [key for key in of_firm if key.number == folded(number)]
    # Spaces, dots and dashes are passed over only where nothing is spelt as it was asked.
    written = written or [key for key in of_firm if squeezed(key.number) == squeezed(number)]
    if not written:
        told = (
            _("no record mentions the part number {number} of {owner}")
            if by
            else _("no record mentions the part number {number}")
        )
        raise UnknownNumber(told.format(number=number, owner=by))
    of = _spoken_of(reading, wanted.year)
    asked = (numbering.asked(before.get(one, one), of, wanted.means) for one in written)
    found = dict.fromkeys(key for each in asked for key in each)
    if len(found) == 1:
        return next(iter(found))
    firms = dict.fromkeys(key.by for key in written)
    if len(firms) > 1:
        raise LookupError(
            _("{number} is a number of {firms}: say whose").format(number=number, firms=", ".join(firms))
        )
    if len(written) > 1:
        raise LookupError(
            _("{number} may be {known}: say which").format(
                number=number, known=", ".join(register.parts[key].number for key in found)
            )
        )
    raise LookupError(unclear_words(register, number, numbering.senses[written[0]], chosen=bool(found)))


def reading_of(register: Register, serial: str | None) -> Reading | None:
    """The one issued machine that a serial number is. Raises LookupError where it is none, or several."""
    if serial is None:
        return None
    found = [reading for reading in machines_in(register, serial) if reading.issued]
    if len(found) != 1:
        raise LookupError(
            plural(
                len(found),
                "{serial} reads as {} machines, and one is wanted",
                "{serial} reads as {} machines, and one is wanted",
                serial=serial,
            )
        )
    return found[0]


def known_assemblies(register: Register, ids: Iterable[str]) -> tuple[str, ...]:
    """The ids of assemblies. Raises LookupError for one that no record has."""
    ids = tuple(ids)
    for id_ in ids:
        if id_ not in register.assemblies:
            raise LookupError(
                _("no record has the assembly {}; its id is the end of its page's address").format(id_)
            )
    return ids


def held_at(register: Register, holds: Mapping[str, str]) -> dict[str, Assembly]:
    """Assemblies by their positions. Raises LookupError for one that is not there."""
    for position, id_ in holds.items():
        if id_ not in register.assemblies or register.assemblies[id_].position != position:
            raise LookupError(
                _("no record has the assembly {assembly} at {position}").format(
                    assembly=id_, position=position
                )
            )
    return {position: register.assemblies[id_] for position, id_ in holds.items()}


def _spoken_of(reading: Reading | None, year: int | None) -> Spoken:
    """The machine and the year that somebody asks for, as a number's meaning is told by them."""
    numbers = {reading.series.id: SpanSet.run(reading.number, reading.number)} if reading else None
    return Spoken(numbers, (year, year) if year is not None else None)
