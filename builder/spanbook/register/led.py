"""Numbers that lead to the page of another: other numbers of one thing, misprints, and former spellings."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from spanbook.register.model import Part, Register


class Led(StrEnum):
    """Why a number leads to a part: it is another number of it, a misprint for it, or is spelt otherwise."""

    ALSO = "also"
    MISPRINT = "misprint"
    SPELT = "spelt"


@dataclass(frozen=True, slots=True)
class LedNumber:
    """A number as it is written, whose it is, and the part that it leads to; `path` is where its page was."""

    number: str
    by: str
    part: Part
    how: Led
    path: str


def led_numbers(register: Register) -> dict[str, LedNumber]:
    """Every number that leads to the page of another, by its part of the address."""
    found: dict[str, LedNumber] = {}
    for part in register.parts.values():
        if part.record or part.spelt:
            for one in (*_also(register, part), *_spelt(part)):
                found.setdefault(one.path, one)
    if not found:
        return found
    taken = {key.path for key in register.parts} | {key.path for key in register.numbering.senses}
    return {path: one for path, one in found.items() if path not in taken}


def _also(register: Register, part: Part) -> Iterator[LedNumber]:
    if part.record is None:
        return
    numbering = register.numbering
    others = zip(numbering.also(part.record), part.record.also, strict=True)
    misprints = zip(numbering.misprints(part.record), part.record.misprints, strict=True)
    for how, pairs in ((Led.ALSO, others), (Led.MISPRINT, misprints)):
        for key, said in pairs:
            if numbering.leads.get(key) == part.key:
                yield LedNumber(said.number, key.by, part, how, key.path)


def _spelt(part: Part) -> Iterator[LedNumber]:
    for number, by, path in part.spelt:
        yield LedNumber(number, by, part, Led.SPELT, path)


def owners_of(register: Register) -> set[str]:
    """All whose numbers are known, be it only as another number of a part."""
    also = (one.by for one in led_numbers(register).values() if one.how is Led.ALSO)
    return {*(key.by for key in register.parts), *also}
