"""Likely standard sizes, as a person reads them in a terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from spanbook.answers.sizing import Sized
from spanbook.ground.language import gettext as _
from spanbook.wording.sizing import (
    NOTHING,
    caution_words,
    likely_listed,
    next_words,
    recorded_words,
    sort_words,
)

INDENT = "   "


def as_text(found: Sequence[Sized]) -> str:
    """Each sort of thing it may be, with its likely sizes, what to measure next and what to look out for."""
    lines = [line for one in found for line in _sort(one)]
    return "\n".join([*lines, *caution_words(found)]) or _(NOTHING)


def _sort(one: Sized) -> Iterator[str]:
    yield sort_words(one)
    yield from (INDENT + likely for likely in likely_listed(one))
    yield from (INDENT + told for told in (recorded_words(one), next_words(one)) if told)
