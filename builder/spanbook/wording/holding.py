"""What somebody holds, as the page of a position says it."""

from __future__ import annotations

from spanbook.wording.pages import PageWords
from spanbook.wording.signs import AGAINST, AGREES, ALIKE, ELSE, ENOUGH, NO_SIGNS, UNRECORDED

HOLDING = PageWords(
    "What am I holding?",
    "A thing on the bench, and which one it is: look where you are asked, and tap what you see.",
)
BY_SIGNS = "By what is seen"
NEXT = "Look next"
NONE = "Nothing is recorded of three things or more at one position yet."
SAID = "What you saw"
TAKE_BACK = "Tap what was wrong to take it back."
AGAIN = "Begin again"
REST = "All that it may be"
SERIAL = "Serial number of the machine that it is from, if you know it"
USE = "Use it"
MORE = "What is recorded of each:"
WITHOUT = "This needs a script. Without one, the signs of each stand with the position:"
# `{}` stands for what is named.
WORDS = {
    "unrecorded": UNRECORDED,
    "else": ELSE,
    "enough": ENOUGH,
    "no-signs": NO_SIGNS,
    "agrees": AGREES,
    "against": AGAINST,
    "alike": ALIKE,
    "and": "and",
    "or": "or",
    "others": "{} others",
    "another": "another",
    "first": "Most likely",
    "report": "It is this: into the report",
    "skip": "I cannot tell",
    "for": "On {}.",
    "unread": "{} reads as no serial number known here, or as several: nothing is made of it.",
    "not-here": "Nothing is recorded here for the machine {}: its number tells nothing.",
    "less": "less than 1 %",
    "more": "more than 99 %",
}


def holding_words(title: str) -> PageWords:
    """The page of one position."""
    return PageWords(f"{HOLDING.title} {title}", f"{title}: look where you are asked, and tap what you see.")
