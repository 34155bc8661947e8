"""What a cell shows of a number or a date, by its format: as far as that says it beyond doubt.

Formats are those of ECMA-376 part 1, 18.8.31 (number format codes).
"""

from __future__ import annotations

import re
from datetime import datetime

from spanbook.reading.sheets.cells import Cell, CellSort

# Zeros stand for digits; what is quoted, escaped or a sign of its own stands for itself.
_PIECES = re.compile(
    r'(?P<digits>0+)|"(?P<quoted>[^"]*)"|\\(?P<escaped>.)|(?P<plain>[- ()+:])|_.|(?P<other>.)'
)
_COLOURS = re.compile(r"\[(?:black|blue|cyan|green|magenta|red|white|yellow|color ?[0-9]+)\]", re.IGNORECASE)
# The built-in format 14: shown as each machine shows dates, with the whole year.
_SHORT_DATE = "mm-dd-yy"


def number_cell(number: str, shown_by: str) -> Cell:
    """A number cell of a format; `number` is written plainly, without zeros that say nothing."""
    shown = _by_zeros(number, shown_by) if number.isdigit() else None
    return Cell(CellSort.NUMBER, number if shown is None else shown, exact=shown is not None)


def _by_zeros(digits: str, shown_by: str) -> str | None:
    """0012 for 12 by 0000, 12-345 by 00-000, WH-12 by "WH-"0; None where the format says no more than
    digits."""
    pieces: list[tuple[str, str]] = []
    positive, *others = _COLOURS.sub("", shown_by).split(";")
    if len(others) > 1 and not int(digits):  # nought has a format of its own
        return None
    for found in _PIECES.finditer(positive):
        if found["other"]:
            return None
        said = next((name for name, text in found.groupdict().items() if text is not None), None)
        if said:
            pieces.append((said, found[said]))
    places = sum(len(text) for said, text in pieces if said == "digits")
    if not places or (places == 1 and all(said == "digits" for said, _ in pieces)):
        return None
    groups = sum(said == "digits" for said, _ in pieces)
    if groups > 1 and len(digits) > places:  # programs differ on where the digits go that have no zeros
        return None
    left, made = digits.rjust(places, "0"), ""
    for said, text in pieces:
        take = len(left) if groups == 1 else len(text)
        made, left = (made + left[:take], left[take:]) if said == "digits" else (made + text, left)
    return made.strip()


def date_cell(date: datetime, shown_by: str) -> Cell:
    """A date as much of it as its format shows: 2024 for yyyy, 2024-05 for mm/yyyy."""
    letters = re.sub(r'"[^"]*"|\\.|\[[^\]]*\]', "", shown_by.lower())
    whole = "yyyy" in letters or letters == _SHORT_DATE  # a program guesses the century of two digits
    if whole and "d" not in letters:
        return Cell(CellSort.DATE, f"{date:%Y-%m}" if "m" in letters else f"{date.year:04}")
    if date.hour or date.minute or date.second:
        return Cell(CellSort.DATE, date.isoformat(" "), exact=False)
    return Cell(CellSort.DATE, date.date().isoformat(), exact=whole)
