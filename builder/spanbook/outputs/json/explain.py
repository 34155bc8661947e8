"""What may have happened to a machine that holds what it should not (`schema/answer-explain.json`)."""

from __future__ import annotations

from typing import Any

from spanbook.answers.stories import Explanation
from spanbook.answers.story import Story
from spanbook.register.model import Register
from spanbook.wording.pieces import plain
from spanbook.wording.stories import assumed_words, head_words, ruled_out_words, story_words

Object = dict[str, Any]


def as_object(register: Register, serial: str, explained: Explanation) -> Object:
    """For each position every story, the likeliest first; probabilities are rounded, and sum to about one."""
    return {
        "query": serial,
        "kind": "explain",
        "series": explained.reading.series.id,
        "number": explained.reading.number,
        "condition": explained.condition,
        "found": [
            {
                "position": one.place.position,
                "assembly": one.found.id,
                "words": head_words(register, explained, one),
                "stories": [_story(story) for story in one.stories],
            }
            for one in explained.positions
        ],
        "assumed": assumed_words(explained.assumed, explained.condition),
    }


def _story(story: Story) -> Object:
    return {
        "story": str(story.kind),
        "probability": float(story.probability),
        "odds": float(story.odds),
        "likelihood": float(story.likelihood),
        "words": plain(story_words(story)) if story.probability else ruled_out_words(story),
        "conversions": [conversion.id for conversion in story.through],
        "breaks": [[one.earlier.id, one.later.id] for one in story.breaks],
        "standing": str(story.standing) if story.standing else None,
    }
