"""What somebody holds, as the page of a position says it."""

from __future__ import annotations

from spanbook.wording.pages import PageWords
from spanbook.wording.signs import AGAINST, AGREES, ALIKE, ELSE, ENOUGH, NO_SIGNS, UNRECORDED

HOLDING = PageWords(
    "What am I holding?",
    "A thing on the bench, and which one it is: look where you are asked, and tap what you see.",
)
WHICH_PART = PageWords(
    "Which part am I holding?",
    "A part on the bench, and which one it is: look where you are asked, and type what you read or measure.",
)
BY_SIGNS = "By what is seen"
NEXT = "Look next"
NONE = "Nothing is recorded of three things or more at one position yet."
NO_PARTS = "Nothing is recorded yet by which the parts of one position are told apart."
SAID = "What you saw"
TAKE_BACK = "Tap what was wrong to take it back."
AGAIN = "Begin again"
REST = "All that it may be"
SERIAL = "Serial number of the machine that it is from, if you know it"
MARK = "A number or mark on it, ? for what is worn away"
SIZE = "A size of it, as 3 3/4 in or 95 mm"
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
    "mark": "Number or mark: {}",
    "size": "{}: {}",
    "unmeasured": "{} is no size: write a number and its unit, as 5/16 in, 12 thou or 7.9 mm.",
    "rest": "{} more, less likely",
    "for": "On {}.",
    "unread": "{} reads as no serial number known here, or as several: nothing is made of it.",
    "not-here": "Nothing is recorded here for the machine {}: its number tells nothing.",
    "less": "less than 1 %",
    "more": "more than 99 %",
}


def holding_words(title: str, *, parts: bool) -> PageWords:
    """The page of one position: which assembly somebody holds, or which part."""
    if parts:
        summary = f"{title}, its parts: look where you are asked, and type what you read or measure."
        return PageWords(f"{WHICH_PART.title} {title}", summary)
    return PageWords(f"{HOLDING.title} {title}", f"{title}: look where you are asked, and tap what you see.")
