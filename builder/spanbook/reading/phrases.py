"""What problem messages share: several words as one phrase, and numbers as a language writes them."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from functools import reduce

from spanbook.ground.language import gettext as _
from spanbook.ground.language import pgettext


def all_of(words: Iterable[str]) -> str:
    """At least one word, as `a and b and c`."""
    return reduce(lambda first, last: _("{first} and {last}").format(first=first, last=last), words)


def any_of(words: Iterable[str]) -> str:
    """At least one word, as `a or b or c`."""
    return reduce(lambda first, last: _("{first} or {last}").format(first=first, last=last), words)


def thousands(number: int) -> str:
    """A whole number in groups of three digits: `1,000,000`."""
    return f"{number:,}".replace(",", pgettext("between thousands", ","))


def decimal(number: float | Fraction, places: int) -> str:
    """A number to so many decimal places: `0.25`."""
    return f"{number:.{places}f}".replace(".", pgettext("decimal point", "."))
