"""Sizes as people write them: `1-1/2"`, `.003 in`, `3 thou`, `10 micron`, `12 to 13 mm`, `17x40x12`."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction

from spanbook.ground.measures import read, step

# What people call each unit, and how many millimetres make one.
_UNITS = {
    ("in", "inch", "inches", '"', "″", "”", "''"): Fraction(254, 10),
    ("thou", "thous", "mil", "mils"): Fraction(254, 10_000),
    ("mm", "millimetre", "millimetres", "millimeter", "millimeters"): Fraction(1),
    ("cm",): Fraction(10),
    ("μm", "um", "micron", "microns", "mics", "mic"): Fraction(1, 1000),
}
_MM = {name: factor for names, factor in _UNITS.items() for name in names}
_BETWEEN = re.compile(r"\s*(?:\bto\b|\.\.|–)\s*")
_TIMES = re.compile(r"\s*(?:×|x|\bby\b|\*)\s*", re.IGNORECASE)
_FINEST = Fraction(1, 32)


@dataclass(frozen=True, slots=True)
class Written:
    """A size as written, in mm: it lies in low..high, and was written to the nearest `step`."""

    low: Fraction
    high: Fraction
    step: Fraction


def written(text: str) -> tuple[Written, ...]:
    """Every size of a text, in order; a unit at the end holds for those before it that have none.

    Raises ValueError, saying what was read, for what is no size or has no unit.
    """
    ends = [[_end(end, text) for end in _BETWEEN.split(size)] for size in _TIMES.split(_plain(text))]
    unit = next((unit for size in reversed(ends) for _, unit in reversed(size) if unit), None)
    if unit is None:
        raise ValueError(f"{text!r} has no unit; write one of in, thou, mm, cm, µm behind it")
    return tuple(_written(size, unit, text) for size in ends)


def _plain(text: str) -> str:
    """Fractions in one character stay for `read`; Unicode's two micro signs become one."""
    return unicodedata.normalize("NFC", text).replace("µ", "μ").replace("\u2044", "/").strip()


def _end(text: str, whole: str) -> tuple[str, Fraction | None]:
    """A value as written, and its unit if it names one."""
    match = re.fullmatch(r"(?P<value>.*?[\d¼-¾⅐-⅞])\s*(?P<unit>[^\d¼-¾⅐-⅞]*)", text)
    if match is None:
        raise ValueError(f"{whole!r} is no size; write a number and its unit, as 5/16 in or 7.9 mm")
    name = match["unit"].strip().rstrip(".").lower()
    if name and name not in _MM:
        raise ValueError(f"{match['unit'].strip()!r} is no unit of length; write one of in, thou, mm, cm, µm")
    value = match["value"].strip()
    value = f"0{value}" if value.startswith(".") else value
    try:
        read(value)
    except ValueError:
        raise ValueError(f"{value!r} is no size; write a decimal or a fraction, as 0.31 or 1 1/8") from None
    return value, _MM[name] if name else None


def _written(ends: list[tuple[str, Fraction | None]], unit: Fraction, whole: str) -> Written:
    if len(ends) > 2:
        raise ValueError(f"{whole!r} has more than two ends; write the lowest and the highest")
    last = next((factor for _, factor in reversed(ends) if factor), unit)
    sizes = [read(value) * (factor or last) for value, factor in ends]
    if sizes != sorted(sizes) or sizes[0] <= 0:
        raise ValueError(f"{whole!r} has to rise from above nothing; write the lower size first")
    return Written(sizes[0], sizes[-1], max(_step(value, factor or last) for value, factor in ends))


def _step(value: str, unit: Fraction) -> Fraction:
    """A decimal is read to its last place; nobody who writes 1 1/2 in means to the nearest half."""
    if value.isdecimal() or ("." in value and "/" not in value):
        return step(value) * unit
    return min(step(value) if "/" in value else _FINEST, _FINEST) * unit
