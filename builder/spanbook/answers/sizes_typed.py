"""Sizes typed where anything may be: `5/16 18`, `M8x1.25`, `17x40x12`, `6203` (twin: `sizes.js`).

What is found is every standard size that it may be, used or new, in the order of the tables: nothing is
weighed here. A thread is a diameter and threads to the inch, or a pitch; three sizes are a bearing, two an
O-ring or a metric thread. Sizes side by side are millimetres, unless one is a fraction or has a unit.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from math import floor

from spanbook.answers.sizing import TAKEN, Wear
from spanbook.ground.punctuation import undecimals
from spanbook.ground.standards import Dimension, Sort, Standard, standards

# What is measured of each sort that can be typed, in the order in which people write it.
MEASURED: Mapping[Sort, tuple[Dimension, ...]] = {
    Sort.THREAD: (Dimension.DIAMETER, Dimension.PITCH),
    Sort.BEARING: (Dimension.INSIDE, Dimension.OUTSIDE, Dimension.WIDTH),
    Sort.O_RING: (Dimension.INSIDE, Dimension.SECTION),
}
_MICRONS = 1000
_INCH = 25_400  # µm
_COUNTED = 0.02  # as a share: threads are counted, and none of the tables has two counts so near
_BENCH = 50  # µm: what a caliper and a hand may be off
_NUMBER = r"(?:[0-9]{1,4}[ -])?[0-9]{1,4}/[0-9]{1,4}|[0-9]{0,4}\.?[0-9]{1,6}"
_UNIT = r"(?:\s?(\"|inch|in|mm))?"
_THREAD = re.compile(rf"({_NUMBER}){_UNIT}(?: ?[x-] ?| )([0-9]{{1,2}}(?:\.5)?)(\s?(?:tpi|per\sinch))?")
_METRIC = re.compile(r"m ?([0-9]{1,4}(?:\.[0-9]{1,6})?)(?: ?x ?([0-9]{1,4}(?:\.[0-9]{1,6})?))?")
_WHITWORTH = re.compile(r"whit(?:worth)?\.?$")
# What the names of these sizes look like: only then are the tables looked into.
_NAMED = re.compile(r"(?:m ?[0-9].*|as\s?568.*|.*(?:un[cf]|bs[wfp]|npt|ba)|6[0-9]{2,3})")
_SIDE_BY_SIDE = re.compile(rf"({_NUMBER}) ?x ?({_NUMBER})(?: ?x ?({_NUMBER}))?{_UNIT}")

Zones = tuple[tuple[int, int], ...]  # of each dimension, in µm


@dataclass(frozen=True, slots=True)
class Typed:
    """Sizes of one sort of thing, each from low to high in µm; what was not typed is open.

    `size` is what a thread is called, which for a pipe's is not its diameter.
    """

    sort: Sort
    ranges: tuple[tuple[int, int] | None, ...]
    size: str = ""


def plainly(text: str) -> str:
    """A text as sizes are looked for in it: small letters, one sign for inches and one for times."""
    signs = {"″": '"', "”": '"', "''": '"', "×": "x", "*": "x", "–": "-"}
    made = undecimals(text).lower()
    for sign, plain in signs.items():
        made = made.replace(sign, plain)
    return _WHITWORTH.sub("bsw", " ".join(made.split()))


def typed(text: str) -> tuple[Typed, ...]:
    """What sizes a text may be; nothing where it is none."""
    plain = plainly(text)
    return tuple(one for read in (_inch_thread, _metric_thread, _side_by_side) for one in read(plain))


def _inch_thread(text: str) -> Iterator[Typed]:
    match = _THREAD.fullmatch(text)
    if match is None:
        return
    size, unit, count, said = match.groups()
    if unit == "mm" or float(count) < 2 or not ("/" in size or "." in size or unit or said):
        return
    pitch = _INCH / float(count)
    share = pitch * _COUNTED
    yield Typed(Sort.THREAD, (_range(size, _INCH), (_whole(pitch - share), _whole(pitch + share))), size)


def _metric_thread(text: str) -> Iterator[Typed]:
    match = _METRIC.fullmatch(text)
    if match:
        size, pitch = match.groups()
        yield Typed(Sort.THREAD, (_range(size, _MICRONS), _pitch(pitch) if pitch else None))


def _side_by_side(text: str) -> Iterator[Typed]:
    match = _SIDE_BY_SIDE.fullmatch(text)
    if match is None:
        return
    *numbers, unit = match.groups()
    sizes = [one for one in numbers if one]
    inches = unit not in (None, "mm") or (unit is None and any("/" in one for one in sizes))
    ranges = tuple(_range(one, _INCH if inches else _MICRONS) for one in sizes)
    yield Typed(Sort.BEARING if len(sizes) == 3 else Sort.O_RING, ranges)
    if len(sizes) == 2 and not inches:
        yield Typed(Sort.THREAD, (ranges[0], _pitch(sizes[1])))


def _pitch(text: str) -> tuple[int, int]:
    pitch = _value(text) * _MICRONS
    return _whole(pitch * (1 - _COUNTED)), _whole(pitch * (1 + _COUNTED))


def _range(text: str, unit: int) -> tuple[int, int]:
    """A decimal is read to its last place, a fraction is a name: both by a caliper besides."""
    decimals = len(text.split(".")[1]) if "." in text and "/" not in text else None
    half = 0.5 * unit / 10**decimals if decimals else 0
    value = _value(text) * unit
    return _whole(value - half - _BENCH), _whole(value + half + _BENCH)


def _whole(value: float) -> int:
    return floor(value + 0.5)  # as the script does it


def _value(text: str) -> float:
    *whole, last = text.replace("-", " ").split()
    top, _, bottom = last.partition("/")
    below = float(bottom) if bottom else 1.0
    return (float(whole[0]) if whole else 0.0) + (float(top) / below if below else 0.0)


def zones(standard: Standard) -> Zones:
    """What each of its dimensions may be, new or used, in µm, in the order of `MEASURED`."""
    taken = TAKEN[Wear.USED]
    found = []
    for dimension in MEASURED[standard.sort]:
        zone = standard.zone(dimension)
        assert zone is not None, "a standard has what is measured of its sort"
        low, high = zone.low - taken * (zone.wear < 0), zone.high + taken * (zone.wear > 0)
        found.append((_whole(low * _MICRONS), _whole(high * _MICRONS)))
    return tuple(found)


@cache
def typeable() -> tuple[Standard, ...]:
    """The standard sizes that can be typed, in the order of their tables."""
    return tuple(one for one in standards() if one.sort in MEASURED)


def standards_typed(text: str) -> list[Standard]:
    """Every standard size that a text may be: by its name, or by its sizes."""
    if _NAMED.fullmatch(plainly(text)):
        named = _by_name().get(folded(text))
        if named:
            return list(named)
    asked = typed(text)
    return [one for one, each in _zoned() if any(_may_be(one, each, size) for size in asked)] if asked else []


@cache
def _by_name() -> Mapping[str, list[Standard]]:
    found: dict[str, list[Standard]] = {}
    for standard in typeable():
        found.setdefault(folded(standard.name), []).append(standard)
    return found


@cache
def _zoned() -> tuple[tuple[Standard, Zones], ...]:
    return tuple((standard, zones(standard)) for standard in typeable())


def folded(text: str) -> str:
    """A standard's name without spaces and dashes."""
    return plainly(text).replace(" ", "").replace("-", "")


def _may_be(standard: Standard, zoned: Zones, asked: Typed) -> bool:
    if standard.sort is not asked.sort:
        return False
    called = asked.size != "" and folded(standard.size) == folded(asked.size)
    each = zip(zoned, asked.ranges, strict=True)
    fit = [read is None or (read[0] <= high and low <= read[1]) for (low, high), read in each]
    return all(fit) or (called and all(fit[1:]))
