"""What stands in a stamp beside its number: `6-{number}/{year:2}` as text and parts with a meaning."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from string import ascii_uppercase

from spanbook.ground.serials import Form, fold


class What(StrEnum):
    """What a part of a stamp says."""

    NUMBER = "number"
    YEAR = "year"
    MONTH = "month"
    WEEK = "week"
    LETTER = "letter"
    PLANT = "plant"
    ISSUE = "issue"


_PART = re.compile(
    r"\{(?:number(?::[1-9])?|year(?::(?:[1-4]|letter))?|month(?::(?:2|letter))?|week(?::2)?|letter|plant|issue)\}"
)
BY_LETTER = "letter"
MONTHS = range(1, 13)
MOST_WEEKS = 53

Value = int | str
Values = Mapping[What, Value]


@dataclass(frozen=True, slots=True)
class Part:
    """`how` is empty, the number of digits, or `letter`."""

    what: What
    how: str = ""


@dataclass(frozen=True, slots=True)
class Letters:
    """The letters that a works used: the alphabet without some, and those that stand for years."""

    left_out: str = ""
    of_years: tuple[tuple[int, str], ...] = ()

    @property
    def running(self) -> str:
        """The letters in their order."""
        return "".join(c for c in ascii_uppercase if c not in self.left_out.upper())


@dataclass(frozen=True, slots=True)
class Stamped:
    """The pieces of a stamp, in the order in which they stand on the plate."""

    pieces: tuple[str | Part, ...]

    @classmethod
    def of(cls, text: str) -> Stamped:
        """From text such as ``HK {number}`` or ``{number:4}/{year:2}``.

        Raises ValueError on braces that hold nothing known, and where {number} is not there once.
        """
        pieces = tuple(_pieces(text))
        whats = [one.what for one in pieces if isinstance(one, Part)]
        if whats.count(What.NUMBER) != 1:
            raise ValueError(f"{text!r} does not have {{number}} in it once")
        braces = any(c in one for one in pieces if isinstance(one, str) for c in "{}")
        if len(set(whats)) < len(whats) or braces:
            raise ValueError(f"{text!r} has a part twice, or something in braces that is none")
        return cls(pieces)

    def has(self, what: What) -> bool:
        return any(isinstance(one, Part) and one.what is what for one in self.pieces)

    @property
    def lettered(self) -> bool:
        """Whether there is more to a stamp than the digits of a number."""
        others = [one for one in self.pieces if not (isinstance(one, Part) and one.what is What.NUMBER)]
        return any(isinstance(one, Part) or fold(one) for one in others)

    @property
    def width(self) -> int:
        """The digits that the number is padded to; 1 where it is not."""
        return next(
            int(one.how or 1) for one in self.pieces if isinstance(one, Part) and one.what is What.NUMBER
        )

    def form(self, values: Values, letters: Letters) -> Form:
        """The form of a number's stamp where the other parts say these things."""
        ends = ["", ""]
        at = 0
        for one in self.pieces:
            if isinstance(one, str):
                ends[at] += one
            elif one.what is What.NUMBER:
                at = 1
            else:
                ends[at] += _text(one, values.get(one.what, ""), letters)
        return Form(ends[0], self.width, ends[1])

    @property
    def outline(self) -> str:
        """The text that never changes, with dots for what does: `HK …`, `6-…/…`."""
        return "".join(one if isinstance(one, str) else "…" for one in self.pieces).strip()


def _pieces(text: str) -> Iterator[str | Part]:
    at = 0
    for found in _PART.finditer(text):
        if found.start() > at:
            yield text[at : found.start()]
        what, _, how = found[0][1:-1].partition(":")
        yield Part(What(what), how)
        at = found.end()
    if at < len(text):
        yield text[at:]


def _text(part: Part, value: Value, letters: Letters) -> str:
    """How a part reads for what it says."""
    if part.what is What.YEAR and part.how == BY_LETTER:
        return dict(letters.of_years).get(int(value), "")
    if part.what is What.MONTH and part.how == BY_LETTER:
        return letters.running[int(value) - 1]
    if part.what is What.YEAR and part.how:
        return f"{value:04}"[-int(part.how) :]
    return f"{value:0{part.how or 1}}" if isinstance(value, int) else value


def weeks_in(year: int) -> int:
    """The weeks of a year as ISO 8601 counts them, 52 or 53: the last is that of 28 December."""
    return date(year, 12, 28).isocalendar().week


def each_value(what: What, years: Sequence[int], letters: Letters) -> Sequence[Value]:
    """Everything that a part of a stamp may say, in order; of weeks those that any year has."""
    if what is What.YEAR:
        return years
    if what is What.MONTH:
        return MONTHS
    return range(1, MOST_WEEKS + 1) if what is What.WEEK else letters.running
