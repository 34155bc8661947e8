"""The machine card: what its script says that is not about one position."""

from __future__ import annotations

from collections.abc import Mapping

from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
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
_WORDS = {
    "unread": marked("{} reads as no serial number known here. Write it with its letters, as stamped."),
    "never": marked("{} was never issued in this series."),
    "several": marked("{} may be any of these. Below is what they have in common."),
    "worn": marked(
        "If the stamp is worn, it may be one of these instead, by our own table of what wears alike:"
    ),
    "loose": marked("With the letters of its plate it may be:"),
    "found": marked("Found something else?"),
    "differs": marked("differs between them"),
    "place": marked("{}: all series"),
    "holding": HOLDING.title,
    "not-seen": NOT_SEEN,
    "odds": ODDS,
    "tell": TELL,
    "contents": marked("On this card"),
    "look": marked("Look up another"),
    "questions": QUESTIONS,
    "all-questions": marked("Everything that is open in the series"),
}
_SEVERAL = {
    "seen": SEEN,
    "perhaps": PERHAPS_SEEN,
    "seen-and-recorded": SEEN_AND_RECORDED,
    "left": LEFT,
    "left-by": LEFT_BY,
    "together": TOGETHER,
    **{f"apart-{why}": words for why, words in APART.items()},
}
_FOUND = {
    "choose": marked("choose"),
    "tell": marked("Tell it, with a picture"),
    "ruled-out": IMPOSSIBLE,
    "alone": marked("Weighed alone; several finds are weighed together by the command, spanbook explain."),
}


def words() -> dict[str, str]:
    """What the script says of a card."""
    return _told(_WORDS)


def several_words() -> dict[str, str]:
    """What it says of several numbers that were given together."""
    return _told(_SEVERAL)


def found_words() -> dict[str, str]:
    """What it says of something else that was found."""
    return _told(_FOUND)


def _told(words: Mapping[str, str]) -> dict[str, str]:
    return {name: _(text) for name, text in words.items()}
