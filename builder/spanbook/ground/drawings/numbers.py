"""The numbers of a drawing, read one after the other from a text."""

from __future__ import annotations

import re

MOST = 10_000_000  # beyond it nothing is drawn that an eye could see
# Two patterns, for one that takes both tries every split of a long run of spaces.
_GAP = re.compile(r"\s*(?:,\s*)?", re.ASCII)
_NUMBER = re.compile(r"[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?")
# W3C CSS Values 3, section 5.2: an inch is 96 pixels.
_PIXELS = {"px": 1.0, "mm": 96 / 25.4, "cm": 96 / 2.54, "in": 96.0, "pt": 96 / 72, "pc": 16.0, "": 1.0}
_LENGTH = re.compile(rf"\s*({_NUMBER.pattern})({'|'.join(_PIXELS)})\s*", re.ASCII)


class NoNumber(ValueError):  # noqa: N818 - it says what happened
    """Where a number is wanted something else stands."""


class Numbers:
    """What is left of a text of numbers."""

    def __init__(self, text: str) -> None:
        self._text = text
        self._at = 0
        self._skip()

    def __bool__(self) -> bool:
        return self._at < len(self._text)

    def letter(self) -> str:
        """The next letter; empty where something else stands."""
        found = self._text[self._at : self._at + 1]
        if not found.isascii() or not found.isalpha():
            return ""
        self._at += 1
        self._skip()
        return found

    def next(self) -> float:
        """The next number. Raises NoNumber."""
        found = _NUMBER.match(self._text, self._at)
        if found is None:
            raise NoNumber(self._text[self._at : self._at + 20])
        self._at = found.end()
        self._skip()
        return bounded(float(found[0]))

    def flag(self) -> bool:
        """The next 0 or 1, which needs no space behind it. Raises NoNumber."""
        found = self._text[self._at : self._at + 1]
        if found not in ("0", "1"):
            raise NoNumber(self._text[self._at : self._at + 20])
        self._at += 1
        self._skip()
        return found == "1"

    def all(self) -> list[float]:
        """The rest of them. Raises NoNumber."""
        found = []
        while self:
            found.append(self.next())
        return found

    def _skip(self) -> None:
        found = _GAP.match(self._text, self._at)
        self._at = found.end() if found else self._at


def bounded(value: float) -> float:
    """The value itself. Raises NoNumber for one that is endless, or too large to be drawn."""
    if not -MOST <= value <= MOST:
        raise NoNumber(str(value))
    return value


def length(text: str | None, absent: float = 0.0) -> float:
    """A length in pixels, `absent` for none. Raises NoNumber for what is none, shares included."""
    if text is None:
        return absent
    found = _LENGTH.fullmatch(text)
    if found is None:
        raise NoNumber(text[:20])
    return bounded(float(found[1]) * _PIXELS[found[2]])
