"""What two spellings have in common: for words, for numbers, and for what a worn stamp leaves.

Every function here has a twin in `site/finder/read.js`; the table of queries in the tests holds the two
together. Both go by Unicode's compatibility decomposition and small letters, and pass over every mark:
accents, the vowel signs and viramas of India's scripts, and the joiners that nobody sees.
"""

from __future__ import annotations

import re
import unicodedata
from itertools import pairwise

from spanbook.ground.joiners import without

UNREADABLE = "?"
# Characters that wear alike on cast and stamped metal, each group under its digit. Our own table: no
# published one for worn stampings was found, and Unicode's UTS #39, which is about glyphs on a screen,
# has only 0-O, 1-l and I-l of these.
WORN = {"0": "0oqd", "1": "1il", "8": "8b3", "5": "5s", "2": "2z", "6": "6g", "7": "7t"}
_WORN = str.maketrans({c: digit for digit, alike in WORN.items() for c in alike})
# The digits that each worn form may have been.
DIGITS = {digit: "".join(sorted(filter(str.isdigit, WORN.get(digit, digit)))) for digit in "012456789"}
# Spaces, dots and dashes are the stamper's habit and the reader's eye, never part of a number.
JOINTS = re.compile(
    r"[\s.·•\u00ad\u058a\u05be\u1400\u1806\u2010-\u2015\u2043\u2212\u2e17\u2e1a\u2e3a\u2e3b\u2e40\u2e5d\u301c"
    r"\u3030\u30a0\ufe31\ufe32\ufe58\ufe63\uff0d_-]+"
)
# Quotes stand round a number in prose, and for inches: numbers that differ in them are looked at together.
QUOTES = re.compile(r"""["'`\u00ab\u00bb\u2018-\u201f\u2032-\u2036\u2039\u203a\u2e42\u301d-\u301f]+""")
# What a sentence or a list puts round a number: never more than one pair, so that an inch mark stays.
_ROUND = re.compile(r"""[(\["'\u00ab\u00bb\u2018-\u201f]([^()\[\]]+)[)\]"'\u00ab\u00bb\u2018-\u201f]""")
_AFTER = " \t\r\n\u00a0,;:"
# What becomes of the characters that most numbers are made of.
_SQUEEZED = {
    at: None if JOINTS.fullmatch(chr(at)) or QUOTES.fullmatch(chr(at)) else chr(at).lower()
    for at in range(128)
}
_WORD = re.compile(r"[^\W_]+")
_COMPOUND = re.compile(r"[^\W_]+(?:[-\u2010\u2011][^\W_]+)+")


def unwrapped(text: str) -> str:
    """What was asked, out of the sentence that it was copied from: `(HK 588)`, `HK 588,`."""
    bare = text.strip().rstrip(_AFTER)
    inside = _ROUND.fullmatch(bare)
    return (inside[1].strip() if inside else bare) or text.strip()


def plain(text: str) -> str:
    """Small letters without accents and other marks."""
    if text.isascii():  # which decomposes into itself and has no marks
        return text.lower()
    opened = unicodedata.normalize("NFKD", without(text))
    return "".join(c for c in opened if not unicodedata.category(c).startswith("M")).lower()


def squeezed(text: str) -> str:
    """A number without spaces, dots, dashes and quotes."""
    if text.isascii():
        return text.translate(_SQUEEZED)
    return QUOTES.sub("", JOINTS.sub("", plain(text)))


def worn(text: str) -> str:
    """A squeezed number as a worn stamp leaves it: what wears alike is alike."""
    return as_worn(squeezed(text))


def as_worn(text: str) -> str:
    """A text with each character as a worn stamp leaves it."""
    return text.translate(_WORN)


def misread(one: str, other: str) -> bool:
    """Whether two texts differ, and only where one has a digit and the other a letter that wears like it.

    Two digits that wear alike, as 3 and 8 do, and two letters, as in bail and ball, mostly mean two things.
    """
    a, b = (" ".join(plain(text).split()) for text in (one, other))
    if len(a) != len(b):
        return False
    pairs = [(x, y) for x, y in zip(a, b, strict=True) if x != y]
    mixed = all(x.isdigit() != y.isdigit() for x, y in pairs)
    return bool(pairs) and mixed and all(as_worn(x) == as_worn(y) for x, y in pairs)


def read_as(typed: str, stamped: str) -> tuple[tuple[str, str], ...]:
    """Which characters of a number were read as which others, each pair once: what stands, and what was read.

    Nothing for what could not be read, nor where the two are not one number worn. Zeros may be left out.
    """
    read, stands = _bare(typed), _bare(stamped)
    more = len(stands) - len(read)
    if more > 0:
        shorter = (
            stands[:at] + stands[at + more :]
            for at in range(len(stands))
            if stands[at:].startswith("0" * more)
        )
        stands = next((one for one in shorter if _worn_alike(read, one)), stands)
    if not _worn_alike(read, stands):
        return ()
    pairs = zip(stands, read, strict=True)
    return tuple(
        dict.fromkeys((a, b) for a, b in pairs if UNREADABLE not in (a, b) and a.lower() != b.lower())
    )


def _bare(text: str) -> str:
    return QUOTES.sub("", JOINTS.sub("", without(text)))


def _worn_alike(read: str, stands: str) -> bool:
    return len(read) == len(stands) and all(
        UNREADABLE in (a, b) or as_worn(plain(a)) == as_worn(plain(b))
        for a, b in zip(read, stands, strict=True)
    )


def one_edit(one: str, other: str) -> bool:
    """Whether one text is another with one character more, less or other, or two neighbours changed about."""
    if one == other or abs(len(one) - len(other)) > 1:
        return False
    begin = 0
    while begin < min(len(one), len(other)) and one[begin] == other[begin]:
        begin += 1
    a, b = one[begin:], other[begin:]
    if len(a) == len(b):
        return a[1:] == b[1:] or (a[:2] == b[1::-1] and a[2:] == b[2:])
    return a[1:] == b if len(a) > len(b) else a == b[1:]


def words(text: str) -> list[str]:
    """The words of a text, in order."""
    return _WORD.findall(plain(text))


def terms(text: str, *, joined: bool) -> set[str]:
    """What a text is found by: its words, hyphenated ones also as one, with `joined` neighbours too."""
    found = words(text)
    compounds = {"".join(words(compound)) for compound in _COMPOUND.findall(text)}
    pairs = {a + b for a, b in pairwise(found)} if joined else set()
    return {*found, *compounds, *pairs}
