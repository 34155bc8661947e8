"""How a serial number is stamped: reading it in any spelling, printing it, listing what a worn one may be."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import product

from spanbook.ground.joiners import without
from spanbook.ground.matching import DIGITS, JOINTS, UNREADABLE, as_worn

_STAMPED = re.compile(r"(?P<prefix>[^{}]*)\{number(?::(?P<width>[1-9]))?\}(?P<suffix>[^{}]*)")
_DIGITS = "0123456789"
# Four unreadable digits are ten thousand machines: more is not a reading.
MOST_UNREADABLE = 4
MOST_EITHER = 6  # digits that may be either of two: 64 numbers
MOST_DIGITS = 12  # as a record's numbers; with more a browser no longer counts right, nor Python at all


@lru_cache(maxsize=4096)
def fold(text: str) -> str:
    """The characters of a serial number that tell: any case, without spaces, dots and dashes."""
    return JOINTS.sub("", without(text)).casefold()


@dataclass(frozen=True, slots=True)
class Worn:
    """The numbers that some digits may be, with `?` for each that cannot be read."""

    digits: str

    def first_from(self, number: int) -> int | None:
        """The lowest of them that is not below a number; None when there is none."""
        wanted = f"{max(number, 0):0{len(self.digits)}}"
        if len(wanted) > len(self.digits):
            return None
        alike = 0
        while alike < len(wanted) and self.digits[alike] in (wanted[alike], UNREADABLE):
            alike += 1
        if alike == len(wanted):
            return int(wanted)
        # As much of the wanted number as can stand before a higher digit, and the lowest after that.
        for at in range(alike, -1, -1):
            higher = str(int(wanted[at]) + 1) if self.digits[at] == UNREADABLE else self.digits[at]
            if wanted[at] < higher and len(higher) == 1:
                return int(wanted[:at] + higher + self.digits[at + 1 :].replace(UNREADABLE, "0"))
        return None


@dataclass(frozen=True, slots=True)
class Stamp:
    """How the numbers of one series are stamped: `prefix`, the digits padded to `width`, `suffix`."""

    prefix: str
    width: int
    suffix: str

    @classmethod
    def of(cls, stamped: str) -> Stamp:
        """From text such as ``HK {number}`` or ``{number:4}S``. Raises ValueError on any other form."""
        match = _STAMPED.fullmatch(stamped)
        if match is None:
            raise ValueError(f"{stamped!r} does not have {{number}} in it once")
        return cls(match["prefix"], int(match["width"] or 1), match["suffix"])

    def show(self, number: int) -> str:
        """The number as the plate has it."""
        return f"{self.prefix}{number:0{self.width}}{self.suffix}"

    def read(self, text: str) -> int | None:
        """The number in the series, leading zeros or not; None when the text is not of this form."""
        worn = self.worn(text)
        return int(worn.digits) if worn and UNREADABLE not in worn.digits else None

    def worn(self, text: str) -> Worn | None:
        """The digits of a number in the series, with `?` for each that cannot be read.

        None when the text is not of this form, or has more unreadable digits than are a reading.
        """
        digits = self._digits(fold(text))
        if not digits or len(digits) > MOST_DIGITS or not all(c in _DIGITS + UNREADABLE for c in digits):
            return None
        return Worn(digits) if digits.count(UNREADABLE) <= MOST_UNREADABLE else None

    def may_be(self, text: str) -> Iterator[int]:
        """Every number that a text with `?` for unreadable characters may be, in rising order.

        Nothing when it is not of this form or has more than four unreadable digits.
        """
        if worn := self.worn(text):
            for choice in product(*(_DIGITS if c == UNREADABLE else c for c in worn.digits)):
                yield int("".join(choice))

    def worn_from(self, text: str) -> Iterator[int]:
        """Every number whose stamp, worn, may read as a text does, its plain reading too, in rising order.

        One character at least has to be a digit: `lid` is a word. Nothing where `?` stands in it, or where
        more than six of its digits may be either of two.
        """
        prefix, suffix, folded = fold(self.prefix), fold(self.suffix), fold(text)
        typed = folded[len(prefix) : len(folded) - len(suffix)]
        digits = as_worn(typed)
        if as_worn(folded) != as_worn(prefix) + digits + as_worn(suffix):
            return
        if not 0 < len(digits) <= MOST_DIGITS or not all(c in DIGITS for c in digits):
            return
        either = sum(len(DIGITS[c]) > 1 for c in digits)
        if any(c in _DIGITS for c in typed) and either <= MOST_EITHER:
            for choice in product(*(DIGITS[c] for c in digits)):
                yield int("".join(choice))

    def _digits(self, folded: str) -> str | None:
        """What stands between prefix and suffix, if those are there (`?` stands for any character)."""
        prefix, suffix = fold(self.prefix), fold(self.suffix)
        end = len(folded) - len(suffix)
        if end <= len(prefix):
            return None
        fits = _alike(folded[: len(prefix)], prefix) and _alike(folded[end:], suffix)
        return folded[len(prefix) : end] if fits else None


def _alike(read: str, stamped: str) -> bool:
    return read == stamped or all(r in (s, UNREADABLE) for r, s in zip(read, stamped, strict=True))
