"""A conversion planned on the site: what its page says; what a plan says itself stands in `conversions`."""

from __future__ import annotations

from spanbook.answers.plans import Why
from spanbook.ground.language import counted_forms, marked
from spanbook.ground.language import gettext as _
from spanbook.ground.punctuation import labelled
from spanbook.wording.conversions import (
    AS_CHEAP,
    BACK,
    BACK_WHOLE,
    ENDS_WITHOUT,
    MORE,
    NEW_PARTS,
    NO_FURTHER,
    NONE_HERE,
    NOT_FOR_IT,
    NOT_KNOWN,
    NOTHING,
    REFUSED,
    STEPS,
    THEN,
    TO_FIND,
)
from spanbook.wording.pages import PageWords

PLAN = PageWords(
    marked("Plan a conversion"),
    marked("What your machine has, what you want on it, and the steps between: parts, needs, the way back."),
)
UNREAD = marked("{} reads as no serial number known here, or as several: a plan is one machine's.")
SERIAL = marked("Serial number, as stamped")
USE = marked("Use it")
WANT = marked("What you want on it")
HAVE = marked("What it has now")
LATEST = marked("The latest of everything")
WORKS = marked("As it left the works")
WITHOUT = marked(
    "Planning needs a script. Without one, every conversion stands with what it takes and needs:"
)
SHOPPING = marked("Shopping list")
COPY = marked("To take it along, copy it as")
ALL = marked("Every conversion that is recorded")
TO_PLAN = marked("Plan it on my machine")
TO_CARD_PLAN = marked("Plan a conversion of this machine")
# `{}` stands for what is named.
_WORDS = {
    **{str(why): words for why, words in REFUSED.items()},
    "as-cheap": AS_CHEAP,
    "back": BACK,
    "back-whole": BACK_WHOLE,
    "choose": marked("choose"),
    "else": marked("not known"),
    "ends-without": ENDS_WITHOUT,
    "have": HAVE,
    "latest": LATEST,
    "left": marked("{}, as it left the works"),
    "more": MORE,
    "no-wish": marked("Nothing is wanted yet."),
    "no-further": NO_FURTHER,
    "none-here": NONE_HERE,
    "not-for-it": NOT_FOR_IT,
    "not-known": NOT_KNOWN,
    "nothing": NOTHING,
    "says-otherwise": marked("otherwise than it left the works: {}"),
    "as-left": marked("taken as it left the works"),
    "shopping": SHOPPING,
    "take-back": marked("take back: {}"),
    "then": THEN,
    "to-find": TO_FIND,
    "works": WORKS,
}
assert set(map(str, Why)) <= _WORDS.keys()


def words() -> dict[str, str | dict[str, str]]:
    """What the page says; where something is counted, in all its forms."""
    return {
        **{name: _(text) for name, text in _WORDS.items()},
        "for": labelled("{}", "{}"),
        "new-parts": counted_forms(*NEW_PARTS),
        "steps": counted_forms(*STEPS),
    }
