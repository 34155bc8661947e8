"""Part numbers: whose they are, when two are the same, and their place in an address."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from functools import cache

from spanbook.ground.joiners import without
from spanbook.ground.reserved import is_reserved

_PLAIN = re.compile("[A-Za-z0-9.-]+")


@dataclass(frozen=True, slots=True, order=True)
class PartKey:
    """One part: whose number it is (the maker's or supplier's id) and the number, folded."""

    by: str
    number: str

    @classmethod
    def of(cls, by: str, number: str) -> PartKey:
        return cls(by, folded(number))

    @property
    def slug(self) -> str:
        """The number's part of a page address: two different numbers never share one."""
        return _slug(self.number)


def folded(number: str) -> str:
    """A number as it is compared: without invisible joiners, runs of spaces as one, small letters."""
    return " ".join(without(number).split()).casefold()


@cache
def _slug(number: str) -> str:
    slug = number if _PLAIN.fullmatch(number) else "".join(map(_in_address, number))
    # Windows keeps some names for itself and drops a dot at the end of any.
    if is_reserved(slug) or slug.startswith("."):
        slug = f"~{slug}"
    return f"{slug[:-1]}~2e" if slug.endswith(".") else slug


def _in_address(character: str) -> str:
    if character.isascii() and (character.isalnum() or character in "-."):
        return character
    return "_" if character == " " else "".join(f"~{byte:02x}" for byte in character.encode())


@cache
def maker_id(maker: str) -> str:
    """The id a maker has in addresses: plain lower-case words joined by hyphens, never empty."""
    return hyphened(maker) or "maker"


def hyphened(text: str) -> str:
    """The plain small letters and digits of a text, its words joined by hyphens."""
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode().lower()
    return "-".join(re.findall("[a-z0-9]+", plain))
