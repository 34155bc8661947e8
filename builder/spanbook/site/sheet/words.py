"""The lines of a sheet that one machine has otherwise than another."""

from __future__ import annotations

from dataclasses import dataclass

from spanbook.answers.strip_down import Sheet
from spanbook.register.model import Register
from spanbook.site import addresses
from spanbook.site.page import Link
from spanbook.wording.lines import freed_words
from spanbook.wording.renewing import renewed_words
from spanbook.wording.strip_down import StepWords, rest_words, step_words


@dataclass(frozen=True, slots=True)
class SheetWords:
    """Its steps, what stays on or nobody tells of, what is renewed, and the tray."""

    steps: tuple[StepWords, ...]
    rest: tuple[str, ...]
    renew: tuple[Link, ...]
    tray: tuple[str, ...]


def sheet_words(register: Register, sheet: Sheet) -> SheetWords:
    """The lines for the machine of a sheet, or for any."""
    renewed = zip(renewed_words(register, sheet), sheet.renewed, strict=True)
    return SheetWords(
        steps=tuple(step_words(register, sheet, at) for at in range(len(sheet.steps))),
        rest=tuple(rest_words(register, sheet)),
        renew=tuple(Link(words, addresses.of_part(freed.keys[0])) for words, freed in renewed),
        tray=tuple(freed_words(register, freed) for freed in sheet.tray),
    )
