"""How an assembly comes apart, as a person reads it in a terminal."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.readings import Reading
from spanbook.answers.renewing import MayHold
from spanbook.answers.strip_down import Sheet
from spanbook.ground.language import gettext as _
from spanbook.register.model import Register
from spanbook.wording.lines import freed_words
from spanbook.wording.renewing import for_words, renewed_words
from spanbook.wording.strip_down import (
    LOCAL_RULES,
    NO_TORQUE,
    PUTTING_BACK,
    RENEW,
    TRAY,
    accounts_words,
    back_words,
    caution_words,
    either_words,
    minutes_words,
    rest_words,
    sheet_title,
    step_words,
)

INDENT = "   "


def as_text(register: Register, sheet: Sheet, machine: Reading | None, held: MayHold | None) -> str:
    """Cautions, steps, what to renew with today's numbers, the tray, and putting back; of one machine also
    whether and how it may hold the assembly."""
    return "\n".join(_lines(register, sheet, machine, held))


def _lines(register: Register, sheet: Sheet, machine: Reading | None, held: MayHold | None) -> Iterator[str]:
    yield sheet_title(sheet.assembly)
    if machine:
        yield for_words(machine.shown, held)
    yield accounts_words(sheet)
    yield _(LOCAL_RULES)
    yield from (INDENT + line for line in caution_words(register, sheet))
    for at in range(len(sheet.steps)):
        words = step_words(register, sheet, at)
        yield f"{at + 1}. {words.do}"
        yield from (INDENT + line for line in words.lines)
    yield from either_words(sheet)
    yield from rest_words(register, sheet)
    if sheet.renewed:
        yield _(RENEW)
        yield from (INDENT + line for line in renewed_words(register, sheet))
    yield _(TRAY)
    yield from (INDENT + freed_words(register, freed) for freed in sheet.tray)
    if back := list(back_words(sheet)):
        yield _(PUTTING_BACK)
        yield from (INDENT + line for line in back)
    yield _(NO_TORQUE)
    if told := minutes_words(sheet):
        yield told
