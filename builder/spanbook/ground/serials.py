"""How a serial number is stamped: reading it in any spelling, printing it, listing what a worn one may be."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import product

from spanbook.ground.joiners import without

# Spaces, dots and dashes are the stamper's habit and the reader's eye, never part of a number.
_IGNORED = re.compile(r"[\s.·•\u00ad\u2010-\u2015\u2043\u2212\ufe58\ufe63\uff0d_-]+")
_STAMPED = re.compile(r"(?P<prefix>[^{}]*)\{number(?::(?P<width>[1-9]))?\}(?P<suffix>[^{}]*)")
_DIGITS = "0123456789"
UNREADABLE = "?"
# Four unreadable digits are ten thousand machines: more is not a reading.
MOST_UNREADABLE = 4


@lru_cache(maxsize=4096)
def fold(text: str) -> str:
    """The characters of a serial number that tell: any case, without spaces, dots and dashes."""
    return _IGNORED.sub("", without(text)).casefold()


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
        digits = self._digits(fold(text))
        return int(digits) if digits and all(c in _DIGITS for c in digits) else None

    def may_be(self, text: str) -> Iterator[int]:
        """Every number that a text with `?` for unreadable characters may be, in rising order.

        Nothing when it is not of this form or has more than four unreadable digits.
        """
        digits = self._digits(fold(text))
        if not digits or not all(c in _DIGITS + UNREADABLE for c in digits):
            return
        if digits.count(UNREADABLE) > MOST_UNREADABLE:
            return
        for choice in product(*(_DIGITS if c == UNREADABLE else c for c in digits)):
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
