"""The words of the front page."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked_forms
from spanbook.wording.days import day_words
from spanbook.wording.grammar import plural


@dataclass(frozen=True, slots=True)
class Leads:
    """The two boxes, and the heading over each list."""

    plate: str
    plate_for: str
    part: str
    part_for: str
    worn: str
    look: str
    machines: str
    counts: str
    newest: str
    asked: str
    every: str


def leads() -> Leads:
    return Leads(
        plate=_("The number on your plate"),
        plate_for=_("what your machine left the works with"),
        part=_("The number or mark on a part"),
        part_for=_("what it is and what replaces it"),
        worn=_("Write ? for what cannot be read."),
        look=_("Look it up"),
        machines=_("The machines"),
        counts=_("What is recorded"),
        newest=_("Seen last"),
        asked=_("Who can tell?"),
        every=_("Every open question"),
    )


_COUNTED = {
    "assembly": marked_forms("{} assembly", "{} assemblies"),
    "part": marked_forms("{} part number", "{} part numbers"),
    "teardown": marked_forms("{} teardown", "{} teardowns"),
    "source": marked_forms("{} source", "{} sources"),
}


def counted(kind: str, count: int) -> str:
    """How many there are: `46 assemblies`."""
    return plural(count, *_COUNTED[kind])


def as_of(changed: date) -> str:
    """Which state of the records the pages tell of: `The records as they stood on 5 May 2026.`"""
    return _("The records as they stood on {}.").format(day_words(changed))
