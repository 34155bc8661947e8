"""What somebody holds, as the page of a position says it."""

from __future__ import annotations

from collections.abc import Mapping

from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.wording.pages import PageWords
from spanbook.wording.signs import AGAINST, AGREES, ALIKE, ELSE, ENOUGH, NO_SIGNS, UNRECORDED

HOLDING = PageWords(
    marked("What am I holding?"),
    marked("A thing on the bench, and which one it is: look where you are asked, and tap what you see."),
)
WHICH_PART = PageWords(
    marked("Which part am I holding?"),
    marked(
        "A part on the bench, and which one it is: look where you are asked, "
        "and type what you read or measure."
    ),
)
BY_SIGNS = marked("By what is seen")
NONE = marked("Nothing is recorded of three things or more at one position yet.")
NO_PARTS = marked("Nothing is recorded yet by which the parts of one position are told apart.")
# What stands on the page itself.
_PAGE = {
    "next": marked("Look next"),
    "said": marked("What you saw"),
    "take-back": marked("Tap what was wrong to take it back."),
    "again": marked("Begin again"),
    "rest": marked("All that it may be"),
    "serial": marked("Serial number of the machine that it is from, if you know it"),
    "mark": marked("A number or mark on it, ? for what is worn away"),
    "size": marked("A size of it, as 3 3/4 in or 95 mm"),
    "use": marked("Use it"),
    "more": marked("What is recorded of each:"),
    "without": marked("This needs a script. Without one, the signs of each stand with the position:"),
}
# What the script says; `{}` stands for what is named.
_WORDS = {
    "unrecorded": UNRECORDED,
    "else": ELSE,
    "enough": ENOUGH,
    "no-signs": NO_SIGNS,
    "agrees": AGREES,
    "against": AGAINST,
    "alike": ALIKE,
    "and": marked("and"),
    "or": marked("or"),
    "another": marked("another"),
    "first": marked("Most likely"),
    "report": marked("It is this: into the report"),
    "skip": marked("I cannot tell"),
    "mark": marked("Number or mark: {}"),
    "size": marked("{}: {}"),
    "unmeasured": marked("{} is no size: write a number and its unit, as 5/16 in, 12 thou or 7.9 mm."),
    "rest": marked("{} more, less likely"),
    "for": marked("On {}."),
    "unread": marked("{} reads as no serial number known here, or as several: nothing is made of it."),
    "not-here": marked("Nothing is recorded here for the machine {}: its number tells nothing."),
    "less": marked("less than 1 %"),
    "more": marked("more than 99 %"),
}


def page_words() -> dict[str, str]:
    """What stands on the page itself."""
    return _told(_PAGE)


def words() -> dict[str, str]:
    """What its script says."""
    return _told(_WORDS)


def _told(words: Mapping[str, str]) -> dict[str, str]:
    return {name: _(text) for name, text in words.items()}


def holding_words(title: str, *, parts: bool) -> PageWords:
    """The page of one position: which assembly somebody holds, or which part."""
    if parts:
        summary = _("{}, its parts: look where you are asked, and type what you read or measure.")
        return PageWords(f"{WHICH_PART.told().title} {title}", summary.format(title))
    summary = _("{}: look where you are asked, and tap what you see.")
    return PageWords(f"{HOLDING.told().title} {title}", summary.format(title))
