"""Sizes that standards fix: threads, jaws, O-rings, bearings, sieves, drills and tubes, each with its source.

The numbers stand in one table a sort of thing beside this module, a source in every row. "From memory" says
that nobody has held the row against the printed standard yet; tests hold most of them against published
packages. All sizes here are millimetres, flank angles degrees.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from functools import cache
from importlib.resources import files

from spanbook.ground.measures import read
from spanbook.ground.standards.threads import Thread

_INCH = Fraction(254, 10)


class Sort(StrEnum):
    """What sort of thing has a standard size."""

    THREAD = "thread"
    JAW = "jaw"
    O_RING = "o-ring"
    BEARING = "bearing"
    SIEVE = "sieve"
    DRILL = "drill"
    TUBE = "tube"


class Dimension(StrEnum):
    """What can be measured of it. `minor` is the bore of a nut, `angle` that between a thread's flanks."""

    DIAMETER = "diameter"
    MINOR = "minor"
    PITCH = "pitch"
    ANGLE = "angle"
    ACROSS = "across-flats"
    INSIDE = "inside"
    OUTSIDE = "outside"
    SECTION = "section"
    WIDTH = "width"
    GAP = "gap"


@dataclass(frozen=True, slots=True)
class Zone:
    """Where a new one lies, low..high in mm; `wear`: −1 where wear makes it smaller, +1 larger, 0 neither."""

    low: float
    high: float
    wear: int = 0

    @property
    def middle(self) -> float:
        return (self.low + self.high) / 2


@dataclass(frozen=True, slots=True)
class Standard:
    """One standard size: `zones` say what each of its dimensions may be when it is new."""

    sort: Sort
    series: str
    size: str
    zones: tuple[tuple[Dimension, Zone], ...]
    source: str

    @property
    def name(self) -> str:
        """As the trade writes it: `5/16 BSW`, `M8`, `6203`, `No. 100`."""
        match self.sort:
            case Sort.THREAD | Sort.JAW:
                return self.size if self.size.startswith("M") else f"{self.size} {self.series}"
            case _:
                return f"{self.series} {self.size}".strip()

    def zone(self, dimension: Dimension) -> Zone | None:
        return next((zone for known, zone in self.zones if known is dimension), None)


@cache
def threads() -> tuple[Thread, ...]:
    """Every thread of the tables."""
    return tuple(
        Thread(
            row["series"],
            row["size"],
            _mm(row["diameter"], row["unit"]),
            read(row["pitch_mm"]) if row["pitch_mm"] else _INCH / read(row["per_inch"]),
            row["source"],
        )
        for row in _rows("threads")
    )


@cache
def standards() -> tuple[Standard, ...]:
    """Every size of every table."""
    return (
        *(_of_thread(thread) for thread in threads()),
        *(_of_jaw(row) for row in _rows("jaws")),
        *(_of_o_ring(row) for row in _rows("o_rings")),
        *(_of_bearing(row) for row in _rows("bearings")),
        *(_of_sieve(row) for row in _rows("sieves")),
        *(_round(Sort.DRILL, row, "diameter", Dimension.DIAMETER, (0.05, 0)) for row in _rows("drills")),
        *(_round(Sort.TUBE, row, "outside", Dimension.OUTSIDE, (0.1, 0.1)) for row in _rows("tubes")),
    )


def named(text: str) -> Standard | None:
    """The standard size that the trade's words name: `5/16 BSW`, `M8`, `ISO 15 6203`, `AS568-029`."""
    return _by_name().get(_folded(text))


@cache
def _by_name() -> dict[str, Standard]:
    found: dict[str, Standard] = {}
    for one in standards():
        # A number alone names a bearing; a jaw goes by the word, since a thread has its name.
        behind = str(one.sort) if one.sort in (Sort.JAW, Sort.DRILL) else ""
        for before in _BEFORE.get(one.sort, ("",)):
            found.setdefault(_folded(f"{before}{one.name}{behind}"), one)
    return found


# What may stand before a size's own name.
_BEFORE = {Sort.BEARING: ("", "iso15"), Sort.SIEVE: ("", "astme11", "sieve")}


def _folded(text: str) -> str:
    return "".join(text.lower().replace("×", "x").split()).replace("-", "")


def _rows(table: str) -> Iterator[dict[str, str]]:
    text = (files(__name__) / f"{table}.csv").read_text(encoding="utf-8")
    yield from csv.DictReader(text.splitlines())


def _mm(value: str, unit: str) -> Fraction:
    return read(value) * (_INCH if unit == "in" else 1)


def _of_thread(thread: Thread) -> Standard:
    pitch = float(thread.pitch)
    below, above = thread.outside
    zones = (
        (Dimension.DIAMETER, Zone(below, above, -1)),
        (Dimension.MINOR, Zone(float(thread.minor), float(thread.minor) + thread.minor_tolerance, 1)),
        (Dimension.PITCH, Zone(pitch, pitch)),
        (Dimension.ANGLE, Zone(float(thread.angle), float(thread.angle))),
    )
    return Standard(Sort.THREAD, thread.series, thread.size, zones, thread.source)


def _of_jaw(row: dict[str, str]) -> Standard:
    # A head is made a little under its jaw: the jaw is the upper end.
    across = float(_mm(row["across"], row["unit"]))
    zone = Zone(across * 0.985 - 0.05, across, -1)
    return Standard(Sort.JAW, row["series"], row["size"], ((Dimension.ACROSS, zone),), row["source"])


def _of_o_ring(row: dict[str, str]) -> Standard:
    zones = []
    for dimension, wear in ((Dimension.INSIDE, 1), (Dimension.SECTION, -1)):
        middle, either = float(row[f"{dimension}_mm"]), float(row[f"{dimension}_tolerance"])
        zones.append((dimension, Zone(middle - either, middle + either, wear)))
    return Standard(Sort.O_RING, "AS568", f"-{row['dash']}", tuple(zones), row["source"])


def _of_bearing(row: dict[str, str]) -> Standard:
    # ISO 492's normal class is finer than any tool on a bench: bore and outside up to 0.03 under, width 0.2.
    bore, outside, width = (float(row[key]) for key in ("bore_mm", "outside_mm", "width_mm"))
    zones = (
        (Dimension.INSIDE, Zone(bore - 0.03, bore, 1)),
        (Dimension.OUTSIDE, Zone(outside - 0.03, outside, -1)),
        (Dimension.WIDTH, Zone(width - 0.2, width)),
    )
    return Standard(Sort.BEARING, "", row["designation"], zones, row["source"])


def _of_sieve(row: dict[str, str]) -> Standard:
    # ASTM E11 lets the average opening vary by some 3 to 7 in a hundred, the finer the more.
    opening = float(row["opening_um"]) / 1000
    zone = Zone(opening * 0.96, opening * 1.04)
    return Standard(Sort.SIEVE, "No.", row["number"], ((Dimension.GAP, zone),), row["source"])


def _round(
    sort: Sort, row: dict[str, str], column: str, dimension: Dimension, around: tuple[float, float]
) -> Standard:
    size, (below, above) = float(_mm(row[column], row["unit"])), around
    zone = Zone(size - below, size + above, -1)
    return Standard(sort, "", row["size"], ((dimension, zone),), row["source"])
