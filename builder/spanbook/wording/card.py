"""The machine card: what its script says that is not about one position."""

from __future__ import annotations

from spanbook.wording.holding import HOLDING
from spanbook.wording.odds import ODDS
from spanbook.wording.stories import IMPOSSIBLE
from spanbook.wording.this_machine import (
    LEFT,
    LEFT_BY,
    NOT_SEEN,
    PERHAPS_SEEN,
    QUESTIONS,
    SEEN,
    SEEN_AND_RECORDED,
)
from spanbook.wording.told_by_eye import TELL
from spanbook.wording.units import APART, TOGETHER

# `{}` stands for the number, of `place` for the position.
WORDS = {
    "unread": "{} reads as no serial number known here. Write it with its letters, as stamped.",
    "never": "{} was never issued in this series.",
    "several": "{} may be any of these. Below is what they have in common.",
    "worn": "If the stamp is worn, it may be one of these instead, by our own table of what wears alike:",
    "found": "Found something else?",
    "differs": "differs between them",
    "place": "{}: all series",
    "holding": HOLDING.title,
    "not-seen": NOT_SEEN,
    "odds": ODDS,
    "tell": TELL,
    "contents": "On this card",
    "look": "Look up another",
    "questions": QUESTIONS,
    "all-questions": "Everything that is open in the series",
}
# What it says of several numbers that were given together.
SEVERAL = {
    "seen": SEEN,
    "perhaps": PERHAPS_SEEN,
    "seen-and-recorded": SEEN_AND_RECORDED,
    "left": LEFT,
    "left-by": LEFT_BY,
    "together": TOGETHER,
    **{f"apart-{why}": words for why, words in APART.items()},
}
# What the script says of something else that was found.
FOUND = {
    "choose": "choose",
    "tell": "Tell it, with a picture",
    "ruled-out": IMPOSSIBLE,
    "alone": "Weighed alone; several finds are weighed together by the command, spanbook explain.",
}
