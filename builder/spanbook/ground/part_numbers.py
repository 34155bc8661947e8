"""Part numbers: whose they are, when two are the same, and their place in an address."""

from __future__ import annotations

import re
import unicodedata
from functools import cache
from typing import NamedTuple

from spanbook.ground.joiners import without
from spanbook.ground.reserved import is_reserved

_PLAIN = re.compile("[A-Za-z0-9.-]+")
# Sorts of one sign: which of them stands on a page is the typesetter's doing. A fixed list, since addresses
# are made by it; Unicode's dashes (general category Pd, and the hyphen bullet and minus) and quotation marks.
DASHES = (
    "\u058a\u05be\u1400\u1806\u2010\u2011\u2012\u2013\u2014\u2015\u2043\u2212\u2e17\u2e1a\u2e3a\u2e3b\u2e40"
    "\u2e5d\u301c\u3030\u30a0\ufe31\ufe32\ufe58\ufe63\uff0d"
)
SINGLE_QUOTES = "`\u00b4\u2018\u2019\u201a\u201b\u2032\u2035\u2039\u203a\uff07"
DOUBLE_QUOTES = "\u00ab\u00bb\u201c\u201d\u201e\u201f\u2033\u2036\u2e42\u301d\u301e\u301f\uff02"
_SORTS = str.maketrans(
    {c: sign for sign, sorts in (("-", DASHES), ("'", SINGLE_QUOTES), ('"', DOUBLE_QUOTES)) for c in sorts}
    | {"\u00ad": ""}  # a soft hyphen is where a line may break
)


class PartKey(NamedTuple):
    """One part: whose number it is (the maker's or supplier's id), and the number, folded.

    `sense` is which of the things that it has meant, by the id of that part's record; empty where it has only
    meant one, and where nobody can tell.
    """

    by: str
    number: str
    sense: str = ""

    @classmethod
    def of(cls, by: str, number: str, sense: str = "") -> PartKey:
        return cls(by, folded(number), sense)

    @property
    def slug(self) -> str:
        """The number's part of a page address: two different numbers never share one."""
        return _slug(self.number)

    @property
    def path(self) -> str:
        """Its part of a page address: `castle-bearing/a203`."""
        return f"{self.by}/{self.slug}/{self.sense}" if self.sense else f"{self.by}/{self.slug}"

    @property
    def plain(self) -> PartKey:
        """The number alone, whichever thing it means."""
        return PartKey(self.by, self.number) if self.sense else self


@cache
def folded(number: str) -> str:
    """A number as it is compared: one sort of dash and of quotes, runs of spaces as one, small letters."""
    if number.isascii():  # of all those signs it has the grave accent alone
        return " ".join(number.replace("`", "'").split()).lower()
    return " ".join(without(number).translate(_SORTS).split()).casefold()


def slug_of(number: str) -> str:
    """The part of a page address that a number has."""
    return _slug(folded(number))


def slug_as_typed(number: str) -> str:
    """What stood in the address of a number while each sort of dash and quote made another of it."""
    return _slug(" ".join(without(number).split()).casefold())


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
