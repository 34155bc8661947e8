"""What somebody holds, as a person reads it in a terminal."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.signs.key import Key, Seen, Told
from spanbook.ground.language import gettext as _
from spanbook.wording.signs import ENOUGH, NEXT, NO_SIGNS, alike_words, likely_words, look_words

INDENT = "   "
MOST = 8  # likely things


def as_text(key: Key, seen: Seen) -> str:
    """What it is likely to be, best first and always with what nobody has recorded; then where to look."""
    told = key.told(seen)
    return "\n".join([*_likely(told, seen), *_looks(key, told)])


def _likely(told: Told, seen: Seen) -> Iterator[str]:
    listed = told.likely[:MOST]
    yield from (likely_words(one, seen) for one in listed)
    yield from (likely_words(one, seen) for one in told.likely[MOST:] if one.thing is None)


def _looks(key: Key, told: Told) -> Iterator[str]:
    if not key.signs:
        yield _(NO_SIGNS)
    elif told.looks:
        yield _(NEXT)
        yield INDENT + look_words(told.looks[0])
    else:
        yield _(ENOUGH)
    if alike := alike_words(told):
        yield alike
