"""Sizes as they are read off a rule or a page, exactly, and told in both systems.

1 in = 25.4 mm and 1 lb = 0.45359237 kg exactly (international yard and pound agreement, 1959);
1 psi = 1 lbf/in² with standard gravity 9.80665 m/s² (NIST Special Publication 811, appendix B).
"""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction

# How many millimetres make one of each unit of length.
MM_OF = {"in": Fraction(254, 10), "thou": Fraction(254, 10_000), "mm": Fraction(1), "µm": Fraction(1, 1000)}
_KG_OF_LB = Fraction(45359237, 10**8)
_BAR_OF_PSI = _KG_OF_LB * Fraction(980665, 10**5) / (Fraction(254, 10**4) ** 2) / 10**5

# What each unit is told in besides, and how many of those make one. A pint is 0.568 litre in one country
# and 0.473 in another, and the record does not say which: it is left as it stands.
_OTHER = {
    "in": ("mm", MM_OF["in"]),
    "thou": ("mm", MM_OF["thou"]),
    "mm": ("in", 1 / MM_OF["in"]),
    "µm": ("thou", MM_OF["µm"] / MM_OF["thou"]),
    "lb": ("kg", _KG_OF_LB),
    "kg": ("lb", 1 / _KG_OF_LB),
    "psi": ("bar", _BAR_OF_PSI),
    "bar": ("psi", 1 / _BAR_OF_PSI),
}
# A fraction is exact: its value in the other system is given to a millionth of the unit, where 1/64 in ends.
_PLACES_OF_EXACT = 6
_FEWEST_DIGITS = 2

_DECIMAL = re.compile(r"-?\d+(?:\.\d+)?")
_MIXED = re.compile(r"(?P<sign>-?)(?:(?P<whole>\d+)[ .-])?(?P<top>\d+)/(?P<bottom>\d+)")


def read(text: str) -> Fraction:
    """A number from `0.3125`, `5/16`, `1 1/8`, `1-1/8`, `1.1/8` or `1⅛`. Raises ValueError for other text."""
    plain = " ".join(_plain(text).split())
    if _DECIMAL.fullmatch(plain):
        return Fraction(plain)
    mixed = _MIXED.fullmatch(plain)
    if mixed is None or int(mixed["bottom"]) == 0:
        raise ValueError(f"{text!r} is neither a decimal nor a fraction")
    value = int(mixed["whole"] or 0) + Fraction(int(mixed["top"]), int(mixed["bottom"]))
    return -value if mixed["sign"] else value


def agree(one: tuple[str, str], other: tuple[str, str]) -> bool:
    """Whether two sizes, each a value and its unit, differ by no more than both were read to.

    A decimal is read to its last place and a fraction to its denominator: each half a step either way.
    Sizes in units of different sorts never agree.
    """
    (value, unit), (value_2, unit_2) = one, other
    if unit == unit_2:
        scale = scale_2 = Fraction(1)
    elif unit in MM_OF and unit_2 in MM_OF:
        scale, scale_2 = MM_OF[unit], MM_OF[unit_2]
    else:
        return False
    apart = step(value) * scale + step(value_2) * scale_2
    return abs(read(value) * scale - read(value_2) * scale_2) <= apart / 2


def step(value: str) -> Fraction:
    """The smallest difference that a value as written tells: 0.001 of `0.875`, 1/8 of `3 1/8`."""
    if "/" in value:
        return Fraction(1, int(value.rpartition("/")[2]))
    return Fraction(1, 10 ** len(value.partition(".")[2]))


def both_ways(value: str, unit: str) -> str:
    """A size in its own unit as it was written and, where there is one, in the other system's."""
    told = f"{value} {unit}"
    if unit not in _OTHER:
        return told
    other, factor = _OTHER[unit]
    return f"{told} ({converted(value, factor)} {other})"


def converted(value: str, factor: Fraction) -> str:
    """A value in another unit, with as many digits as those that were written bear out.

    As many significant digits as were written, and one more where the first of them becomes smaller: 8 to
    230, but 66 to 106 (NIST Special Publication 1038, 2006, section on rounding; from memory). One digit
    alone is told with two, so that 1 thou is 0.025 mm.
    """
    converted = read(value) * factor
    if not converted:
        return "0"
    if not _DECIMAL.fullmatch(value.strip()):
        return _rounded(converted, _PLACES_OF_EXACT).rstrip("0").rstrip(".")
    written = value.strip().lstrip("-0.").replace(".", "")
    more = _first_digit(converted) < int(written[0])
    digits = max(_FEWEST_DIGITS, len(written) + more)
    return _rounded(converted, digits - _magnitude(converted))


def _magnitude(value: Fraction) -> int:
    """How many digits stand before the point; below 0.1 as many zeros less stand after it."""
    size = abs(value)
    digits = len(str(int(size))) if size >= 1 else 0
    while size and size * 10 ** (1 - digits) < 1:
        digits -= 1
    return digits


def _first_digit(value: Fraction) -> int:
    return int(abs(value) * Fraction(10) ** (1 - _magnitude(value)))


def _rounded(value: Fraction, places: int) -> str:
    """To so many places; with fewer than none, to tens or hundreds."""
    scaled = round(abs(value) * Fraction(10) ** places)
    whole, part = divmod(scaled, 10 ** max(0, places))
    sign = "−" if value < 0 and scaled else ""
    return f"{sign}{whole}.{part:0{places}d}" if places > 0 else f"{sign}{scaled * 10**-places}"


def _plain(text: str) -> str:
    """Fractions of one character opened: `1½` to `1 1/2`."""
    opened = (
        f" {unicodedata.normalize('NFKC', c)} "
        if unicodedata.decomposition(c).startswith("<fraction>")
        else c
        for c in text
    )
    return "".join(opened).replace("\u2044", "/").strip()
