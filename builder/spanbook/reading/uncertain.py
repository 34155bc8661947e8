"""Numbers that are not sure, as people write them, and as a record does: a pair."""

from __future__ import annotations

import re

from spanbook.reading.write import flow

# How people write that a number is not sure, and a range of two.
_ABOUT = re.compile(
    r"(?i)(?:about|around|approx(?:imately|\.)?|circa|ca?\.?|~|±)\s*([0-9]{1,12})|([0-9]{1,12})\s*\?"
)
_RANGE = re.compile(r"([0-9]{1,12})\s*(?:-|–|\.\.|to|or|/)\s*([0-9]{1,12})")


def pair(value: object) -> str:
    """What was meant by an uncertain number in words, as a pair; empty for anything else."""
    text = value.strip() if isinstance(value, str) else ""
    if found := _RANGE.fullmatch(text):
        return flow(sorted(map(int, found.groups())))
    if found := _ABOUT.fullmatch(text):
        number = int(found[1] or found[2])
        off = 2 if number < 100 else 10
        return flow([max(0, number - off), number + off])
    return ""
