"""The words of the front page."""

from __future__ import annotations

from calendar import month_name
from dataclasses import dataclass
from datetime import date

from spanbook.wording.grammar import plural


@dataclass(frozen=True, slots=True)
class Leads:
    """The two boxes, and the heading over each list."""

    plate: str = "The number on your plate"
    plate_for: str = "what your machine left the works with"
    part: str = "The number or mark on a part"
    part_for: str = "what it is and what replaces it"
    worn: str = "Write ? for what cannot be read."
    look: str = "Look it up"
    machines: str = "The machines"
    counts: str = "What is recorded"
    newest: str = "Seen last"
    asked: str = "Who can tell?"
    every: str = "Every open question"


LEADS = Leads()
_COUNTED = {
    "assembly": ("1 assembly", "{} assemblies"),
    "part": ("1 part number", "{} part numbers"),
    "teardown": ("1 teardown", "{} teardowns"),
    "source": ("1 source", "{} sources"),
}


def counted(kind: str, count: int) -> str:
    """How many there are: `46 assemblies`."""
    return plural(count, *_COUNTED[kind])


def as_of(changed: date) -> str:
    """Which state of the records the pages tell of: `The records as they stood on 5 May 2026.`"""
    return f"The records as they stood on {changed.day} {month_name[changed.month]} {changed.year}."
