"""A conversion planned on the site: what its page says; what a plan says itself stands in `conversions`."""

from __future__ import annotations

from spanbook.answers.plans import Why
from spanbook.wording.conversions import (
    AS_CHEAP,
    BACK,
    BACK_WHOLE,
    ENDS_WITHOUT,
    MORE,
    NEW_PARTS,
    NOT_KNOWN,
    NOTHING,
    REFUSED,
    STEPS,
    THEN,
    TO_FIND,
)
from spanbook.wording.pages import PageWords

PLAN = PageWords(
    "Plan a conversion",
    "What your machine has, what you want on it, and the steps between: parts, needs, the way back.",
)
UNREAD = "{} reads as no serial number known here, or as several: a plan is one machine's."
SERIAL = "Serial number, as stamped"
USE = "Use it"
WANT = "What you want on it"
HAVE = "What it has now"
LATEST = "The latest of everything"
WORKS = "As it left the works"
WITHOUT = "Planning needs a script. Without one, every conversion stands with what it takes and needs:"
SHOPPING = "Shopping list"
STEPS_TITLE = "The steps"
COPY = "To take it along, copy it as"
ALL = "Every conversion that is recorded"
TO_PLAN = "Plan it on my machine"
TO_CARD_PLAN = "Plan a conversion of this machine"
# `{}` stands for what is named.
WORDS = {
    **{str(why): words for why, words in REFUSED.items()},
    "as-cheap": AS_CHEAP,
    "back": BACK,
    "back-whole": BACK_WHOLE,
    "choose": "choose",
    "else": "not known",
    "ends-without": ENDS_WITHOUT,
    "for": "{}: {}",
    "have": HAVE,
    "latest": LATEST,
    "left": "{}, as it left the works",
    "more": MORE,
    "new-part": NEW_PARTS[0],
    "new-parts": NEW_PARTS[1],
    "no-wish": "Nothing is wanted yet.",
    "none-here": "No conversion is recorded for the machines of this series.",
    "not-known": NOT_KNOWN,
    "nothing": NOTHING,
    "says-otherwise": "otherwise than it left the works: {}",
    "as-left": "taken as it left the works",
    "shopping": SHOPPING,
    "step": STEPS[0],
    "steps": STEPS[1],
    "take-back": "take back: {}",
    "then": THEN,
    "to-find": TO_FIND,
    "works": WORKS,
}
assert set(map(str, Why)) <= WORDS.keys()
