"""Part numbers: whose they are, when two are the same, and their place in an address."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from functools import cache

from spanbook.ground.joiners import without

# Characters that a worn stamp makes alike, for numbers and names that nobody could tell apart.
# Our own table: no published one for worn metal stampings was found; Unicode's UTS #39 is about
# glyphs on a screen and has only 0-O and 1-I-l of these.
_WORN_TWINS = str.maketrans("01852", "OIBSZ")
_DEVICES = {"con", "prn", "aux", "nul", *(f"com{n}" for n in range(10)), *(f"lpt{n}" for n in range(10))}
# Windows keeps the names of devices; an index or a readme is the page of the folder it stands in.
_PLAIN = re.compile("[A-Za-z0-9.-]+")
_RESERVED = {*_DEVICES, "index", "readme"}


@dataclass(frozen=True, slots=True, order=True)
class PartKey:
    """One part: whose number it is (the maker's or supplier's id) and the number, folded."""

    by: str
    number: str

    @classmethod
    def of(cls, by: str, number: str) -> PartKey:
        return cls(by, " ".join(without(number).split()).casefold())

    @property
    def slug(self) -> str:
        """The number's part of a page address: two different numbers never share one."""
        return _slug(self.number)


@cache
def _slug(number: str) -> str:
    slug = number if _PLAIN.fullmatch(number) else "".join(map(_in_address, number))
    # Windows keeps some names for itself and drops a dot at the end of any.
    if slug.split(".")[0] in _RESERVED or slug.startswith("."):
        slug = f"~{slug}"
    return f"{slug[:-1]}~2e" if slug.endswith(".") else slug


def _in_address(character: str) -> str:
    if character.isascii() and (character.isalnum() or character in "-."):
        return character
    return "_" if character == " " else "".join(f"~{byte:02x}" for byte in character.encode())


def worn_alike(text: str) -> str:
    """What is left of a text when worn twins (0/O, 1/I, 8/B, 5/S, 2/Z) cannot be told apart."""
    return " ".join(without(text).upper().split()).translate(_WORN_TWINS)


@cache
def maker_id(maker: str) -> str:
    """The id a maker has in addresses: plain lower-case words joined by hyphens, never empty."""
    return hyphened(maker) or "maker"


def hyphened(text: str) -> str:
    """The plain small letters and digits of a text, its words joined by hyphens."""
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode().lower()
    return "-".join(re.findall("[a-z0-9]+", plain))
