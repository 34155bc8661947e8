"""What somebody meant who typed an amount or a day otherwise than its field takes it."""

from __future__ import annotations

import re
from datetime import date
from typing import NamedTuple

_COMMA = re.compile(r"[0-9]+,[0-9]+")
_THOUSANDS = re.compile("[1-9][0-9]{0,2}(?:,[0-9]{3})+")
_AMOUNT = re.compile(r"(?P<number>-?[0-9]+(?:[.,][0-9]+|/[1-9][0-9]*| [0-9]+/[1-9][0-9]*)?) *(?P<unit>\D*)")
_WHOLE = re.compile(r"([0-9]*) ?([¼½¾⅐-⅞])")
_FRACTIONS = {
    "¼": "1/4", "½": "1/2", "¾": "3/4", "⅓": "1/3", "⅔": "2/3",
    "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
}  # fmt: skip
# How people write units beside the words that records have for them.
_UNITS = {
    **dict.fromkeys(('"', "″", "”", "''", "in.", "ins", "inch", "inches"), "in"),
    **dict.fromkeys(("'", "′", "foot", "feet"), "ft"),
    **dict.fromkeys(("millimetre", "millimetres", "millimeter", "millimeters"), "mm"),
    **dict.fromkeys(("lbs", "lb.", "pound", "pounds"), "lb"),
}
_DOTTED = re.compile(r"([0-9]{1,2})\. ?([0-9]{1,2})\. ?([12][0-9]{3})")
_SLASHED = re.compile(r"([0-9]{1,2})/([0-9]{1,2})/([12][0-9]{3})")
_DAY = re.compile(r"([12][0-9]{3})-([0-9]{1,2})-([0-9]{1,2})")
_MONTHS = 12
_IN_QUOTES = re.compile("[“”„‟«»‹›‘’‚](.*)[“”‟«»‹›‘’]")


class Amount(NamedTuple):
    """A number as records have it, and its unit; empty where none was typed beside it."""

    number: str
    unit: str


def pointed(text: str) -> str:
    """A number with a decimal comma, written with a point; any other text as it is."""
    return text.replace(",", ".") if _COMMA.fullmatch(text) else text


def of_thousands(text: str) -> str:
    """The digits of a number that has commas between its thousands; empty for any other text."""
    return text.replace(",", "") if _THOUSANDS.fullmatch(text) else ""


def unit(text: str) -> str:
    """The word that records have for a unit, as far as it is known to have another; otherwise as it is."""
    return _UNITS.get(text.lower(), text)


def amount(text: str) -> Amount | None:
    """The number and the unit that were typed as one, such as 2½" for 2 1/2 and in; None for other text."""
    found = _AMOUNT.fullmatch(_WHOLE.sub(_plain, text.strip()))
    return Amount(pointed(found["number"]), unit(found["unit"].strip())) if found else None


def _plain(found: re.Match[str]) -> str:
    fraction = _FRACTIONS.get(found[2], found[2])
    return f"{found[1]} {fraction}" if found[1] else fraction


def day(text: str) -> tuple[str, bool] | None:
    """A day as records have it, and whether there is such a day; None where it may be any of two, or none.

    2.3.2024 is of March wherever days are written with dots; 2/3/2024 is of March or of February.
    """
    if found := _DOTTED.fullmatch(text):
        number, month, year = map(int, found.groups())
    elif found := _SLASHED.fullmatch(text):
        number, month, year = map(int, found.groups())
        if max(number, month) <= _MONTHS and number != month:
            return None
        if month > _MONTHS:
            number, month = month, number
    elif found := _DAY.fullmatch(text):
        year, month, number = map(int, found.groups())
    else:
        return None
    if not 1 <= month <= _MONTHS:
        return None
    try:
        return date(year, month, number).isoformat(), True
    except ValueError:
        return f"{year}-{month:02}", False


def unquoted(text: str) -> str:
    """What stands in quotes that are none to YAML, such as telephones write; empty where there are none."""
    found = _IN_QUOTES.fullmatch(text)
    return found[1].strip() if found else ""
