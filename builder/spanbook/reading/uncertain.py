"""Numbers that are not sure, as people write them, and what a record takes instead."""

from __future__ import annotations

import re

from spanbook.ground.language import gettext as _
from spanbook.reading.write import flow

_NUMBER = "([0-9]{1,12})"
_WORDS = r"(?:about|around|approx(?:imately|\.)?|circa|ca?\.?|~|±)"
# How people write that a number is not sure, how far off it may be, and a range of two.
_ABOUT = re.compile(rf"(?i){_WORDS}\s*{_NUMBER}|{_NUMBER}\s*\?")
_WITHIN = re.compile(rf"(?i)(?:{_WORDS}\s*)?{_NUMBER}\s*(?:±|\+\s*/?\s*-|\+/−)\s*{_NUMBER}")
_RANGE = re.compile(rf"{_NUMBER}\s*(-|–|\.\.|to|or|/)\s*{_NUMBER}")
_SHORTENS = "-–/"  # 1911-13 is 1911 to 1913; words between two numbers leave nothing out


def todo(value: object) -> str:
    """How an uncertain number in words is written; empty for anything else."""
    text = value.strip() if isinstance(value, str) else ""
    if found := _RANGE.fullmatch(text):
        pair = flow(sorted(_whole(*found.groups())))
        return _(
            "write a number that is not sure as a pair, the lowest and the highest it may be: {}"
        ).format(pair)
    if found := _WITHIN.fullmatch(text):
        return _("write it like this: about {number} ± {off}").format(number=int(found[1]), off=int(found[2]))
    if found := _ABOUT.fullmatch(text):
        number = int(found[1] or found[2])
        off = 2 if number < 100 else 10
        pair = flow([max(0, number - off), number + off])
        return _(
            "say how far off it may be, for example about {number} ± {off}; or write a pair, "
            "the lowest and the highest it may be: {pair}"
        ).format(number=number, off=off, pair=pair)
    return ""


def _whole(first: str, between: str, last: str) -> tuple[int, int]:
    """The numbers of a range, the second with the digits that it has in common with the first."""
    low, high = int(first), int(last)
    if between in _SHORTENS and len(last) < len(first):
        step = 10 ** len(last)
        high += low - low % step
        high += step if high < low else 0
    return low, high
