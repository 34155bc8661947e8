"""What may have happened to a machine that holds what it should not, as a person reads it in a terminal."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.stories import Explained, Explanation
from spanbook.ground.language import gettext as _
from spanbook.ground.punctuation import labelled
from spanbook.register.model import Register
from spanbook.wording.grammar import share_of
from spanbook.wording.pieces import plain
from spanbook.wording.stories import (
    IMPOSSIBLE,
    NOTHING,
    assumed_words,
    head_words,
    ruled_out_words,
    story_words,
)

INDENT = "   "


def as_text(register: Register, explained: Explanation) -> str:
    """For each position the stories that can be, the likeliest first, then those that cannot."""
    lines = [line for one in explained.positions for line in (*_position(register, explained, one), "")]
    return "\n".join([*lines, assumed_words(explained.assumed, explained.condition)])


def _position(register: Register, explained: Explanation, one: Explained) -> Iterator[str]:
    yield head_words(register, explained, one)
    if not one.possible:
        yield f"{INDENT}{_(NOTHING)}"
    for story in one.possible:
        yield labelled(f"{INDENT}{share_of(story.probability)}", plain(story_words(story)))
    if one.impossible:
        yield f"{INDENT}{_(IMPOSSIBLE)}"
        yield from (f"{INDENT}- {ruled_out_words(story)}" for story in one.impossible)
