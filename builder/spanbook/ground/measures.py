"""Sizes as they are read off a rule or a page, exactly, and told in both systems (`units` has the units)."""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction
from typing import NamedTuple

from spanbook.ground.units import UNITS, Quantity, factor, unit_told

# How many millimetres make one of each unit of length.
MM_OF = {unit.name: unit.size for unit in UNITS.values() if unit.of is Quantity.LENGTH}

# A fraction is exact: its value in the other system is given to a millionth of the unit, where 1/64 in ends.
_PLACES_OF_EXACT = 6
_FEWEST_DIGITS = 2
_UCUM_DIGITS = 12

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


class Written(NamedTuple):
    """A size as it was written: a value, or one from it `to` another, in a unit."""

    value: str
    unit: str
    to: str | None = None


def agree(one: Written, other: Written) -> bool:
    """Whether two sizes differ by no more than both were read to.

    Of a size from one value to another any may be meant. A decimal is read to its last place and a fraction
    to its denominator: each half a step either way. Sizes in units of different sorts never agree.
    """
    if UNITS[one.unit].of is not UNITS[other.unit].of:
        return False
    (low, high), (low_2, high_2) = _extent(one), _extent(other)
    return low <= high_2 and low_2 <= high


def _extent(size: Written) -> tuple[Fraction, Fraction]:
    """The least and the most that a size may be, in the base of its sort."""
    last = size.to or size.value
    scale = UNITS[size.unit].size
    return (read(size.value) - step(size.value) / 2) * scale, (read(last) + step(last) / 2) * scale


def ucum(value: str, unit: str) -> str | None:
    """A size as programs read it, with its UCUM code: `3.125 [in_i]`; None where the unit does not say which.

    A fraction without an end is rounded to twelve digits.
    """
    code = UNITS[unit].ucum
    return f"{float(read(value)):.{_UCUM_DIGITS}g} {code}" if code else None


def step(value: str) -> Fraction:
    """The smallest difference that a value as written tells: 0.001 of `0.875`, 1/8 of `3 1/8`."""
    if "/" in value:
        return Fraction(1, int(value.rpartition("/")[2]))
    return Fraction(1, 10 ** len(value.partition(".")[2]))


def both_ways(value: str, unit: str) -> str:
    """A size in its own unit as it was written and, where there is one, in the other system's."""
    told = f"{value} {unit_told(unit)}"
    known = UNITS[unit]
    if known.told_in is None:
        return told
    times = factor(known, UNITS[known.told_in])
    there = converted(value, times) if known.of is Quantity.LENGTH else _as_read(value, times)
    return f"{told} ({there} {unit_told(known.told_in)})"


def _as_read(value: str, factor: Fraction) -> str:
    """A value in another unit where a fraction is no name, as 5/16 in is, but how finely it was read."""
    if _DECIMAL.fullmatch(value.strip()):
        return converted(value, factor)
    size = read(value) * factor
    fine = _magnitude(step(value) * factor / 2) - 1
    return _rounded(size, max(-fine, _FEWEST_DIGITS - _magnitude(size)))


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
