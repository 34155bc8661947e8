"""What the sentences share: how a list, a count and several of one thing are said."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction


def listed(words: Sequence[str], joint: str = "and") -> str:
    """A list as a phrase: `a, b and c`."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} {joint} {words[-1]}" if words else ""


def plural(count: int, one: str, more: str) -> str:
    """The form of a sentence that a count asks for, with the count in place of `{}`."""
    return (one if count == 1 else more).format(count)


def times(quantity: int, thing: str) -> str:
    """Several of one thing: `2 × WH-2242`; one alone is not counted."""
    return thing if quantity == 1 else counted(quantity, thing)


def counted(quantity: int, thing: str) -> str:
    """So many of one thing, where one is counted too: `1 × WH-2242`."""
    return f"{quantity} × {thing}"


def stopped(text: str) -> str:
    """A sentence with its stop, which an abbreviation at its end has already."""
    return text if text.endswith(".") else f"{text}."


def capital(text: str) -> str:
    """A phrase as the beginning of a sentence."""
    return text[:1].upper() + text[1:]


def share_of(share: Fraction | float) -> str:
    """A probability as a reader takes it in: whole per cents, and never none or all where that is not so."""
    about = float(share)  # a hundred times as fast to compare, and whole per cents need no more
    if share and about <= 0.005:
        return "less than 1 %"
    if about >= 0.995 and share != 1:
        return "more than 99 %"
    return f"{about * 100:.0f} %"


def shares_of(least: Fraction | float, most: Fraction | float) -> str:
    """Probabilities from the least to the most of several: `12 % to 18 %`; one where they read alike."""
    ends = share_of(least), share_of(most)
    return ends[0] if ends[0] == ends[1] else f"{ends[0]} to {ends[1]}"
