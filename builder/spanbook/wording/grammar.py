"""What the sentences share: how a list, a count and several of one thing are said."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction
from functools import reduce
from typing import Literal

from spanbook.ground.language import ENGLISH, marked, ngettext, pgettext, spoken
from spanbook.ground.language import gettext as _
from spanbook.reading.phrases import any_of

Joint = Literal["and", "or", "and then"]
JOINTS: dict[Joint, str] = {
    "and": marked("{first} and {last}"),
    "or": marked("{first} or {last}"),
    "and then": marked("{first} and then {last}"),
}
_LOOSE_JOINTS = {"and": marked("{first}; and {last}"), "or": marked("{first}; or {last}")}
_POINT = re.compile(r"(?<=\d)\.(?=\d+(?![\d/]))")  # `1.1/8` is a whole number and a fraction


def listed(words: Sequence[str], joint: Joint = "and") -> str:
    """A list as a phrase: `a, b and c`."""
    if len(words) < 2:
        return "".join(words)
    return _(JOINTS[joint]).format(first=", ".join(words[:-1]), last=words[-1])


def chained(phrases: Sequence[str], joint: Literal["and", "or"]) -> str:
    """Phrases that have commas of their own: `a, b; or c; or d, e`; empty where there are none."""
    message = _(_LOOSE_JOINTS[joint])
    return reduce(lambda first, last: message.format(first=first, last=last), phrases) if phrases else ""


def either(phrases: Sequence[str]) -> str:
    """Phrases of which any one will do: `a or b or c`."""
    return any_of(phrases) if phrases else ""


def span_of(ends: Sequence[str]) -> str:
    """From one end to the other: `a to b`; one end alone is told as it is."""
    return ends[0] if len(ends) == 1 else _("{first} to {last}").format(first=ends[0], last=ends[1])


def decimals(text: str) -> str:
    """A phrase with the decimal point of the language that is spoken."""
    return _POINT.sub(pgettext("decimal point", "."), text)


def general(number: Fraction | float) -> str:
    """A number with as many places as it has, up to six: `0.5`, `20`."""
    return decimals(f"{float(number):g}")


def plural(count: int, one: str, more: str, **values: object) -> str:
    """The form of a sentence that a count asks for, with the count in place of `{}` and values by name."""
    return ngettext(one, more, count).format(count, **values)


def and_more(named: str, count: int) -> str:
    """What is named, and how many more there are: `a, b and 3 more`."""
    return plural(count, "{named} and {} more", "{named} and {} more", named=named)


def first_of(named: Sequence[str], most: int) -> str:
    """Those that are told of many, and how many more there are: `a, b and 3 more`."""
    told = ", ".join(named[:most])
    return and_more(told, len(named) - most) if len(named) > most else told


def more(count: int) -> str:
    """How many more there are, on a line of its own."""
    return plural(count, "and {} more", "and {} more")


def times(quantity: int, thing: str) -> str:
    """Several of one thing: `2 × WH-2242`; one alone is not counted."""
    return thing if quantity == 1 else counted(quantity, thing)


def counted(quantity: int, thing: str) -> str:
    """So many of one thing, where one is counted too: `1 × WH-2242`."""
    return f"{quantity} × {thing}"


def stopped(text: str) -> str:
    """A sentence with its stop, which an abbreviation at its end has already."""
    return text if text.endswith(".") else f"{text}."


def small(title: str) -> str:
    """A title inside a sentence, in small letters; languages of other customs keep it as it is."""
    return title.lower() if spoken() == ENGLISH else title


def capital(text: str) -> str:
    """A phrase as the beginning of a sentence."""
    return text[:1].upper() + text[1:]


def inside(text: str) -> str:
    """What a record says, inside a sentence: English begins it small, others have capitals of their own."""
    return text[:1].lower() + text[1:] if spoken() == ENGLISH else text


def share_of(share: Fraction | float) -> str:
    """A probability as a reader takes it in: whole per cents, and never none or all where that is not so."""
    about = float(share)  # a hundred times as fast to compare, and whole per cents need no more
    if share and about <= 0.005:
        return _("less than 1 %")
    if about >= 0.995 and share != 1:
        return _("more than 99 %")
    return _("{} %").format(f"{about * 100:.0f}")


def shares_of(least: Fraction | float, most: Fraction | float) -> str:
    """Probabilities from the least to the most of several: `12 % to 18 %`; one where they read alike."""
    first = share_of(least)
    last = first if least == most else share_of(most)
    return first if first == last else span_of((first, last))
