"""Which standard size a worn thing is likely to be: ranked, with what would have to be true of each.

A reading of one dimension is likely under a standard as its zone says, widened by wear on the one side that
wear can take it to, and blurred by the tool; a small floor stands for a misreading. Dimensions are taken as
independent. The prior is how often each series is recorded for the maker, one added to each so that none is
impossible. What wear, tools and misreadings come to is our own guess (no source), in the tables below.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from math import erf, exp, pi, sqrt

from spanbook.ground.standards import Dimension, Sort, Standard, Zone


class Tool(StrEnum):
    """What a size was read with."""

    RULE = "rule"
    CALIPER = "caliper"
    MICROMETER = "micrometer"
    THREAD_GAUGE = "thread-gauge"
    FEELER = "feeler"
    DRILL = "drill"
    PRINTED = "printed"
    EYE = "eye"


class Wear(StrEnum):
    """How worn the thing is."""

    NEW = "new"
    USED = "used"
    WORN = "worn"


# How far off a reading is, one standard deviation in mm.
SCATTER = {
    Tool.RULE: 0.25,
    Tool.CALIPER: 0.03,
    Tool.MICROMETER: 0.008,
    Tool.THREAD_GAUGE: 0.03,
    Tool.FEELER: 0.012,
    Tool.DRILL: 0.03,
    Tool.PRINTED: 0.003,
    Tool.EYE: 0.6,
}
# How far off a pitch is, as a share of itself: threads are counted along a rule, or a leaf is tried.
PITCH_SCATTER = {Tool.THREAD_GAUGE: 0.008, Tool.PRINTED: 0.002}
COUNTED = 0.035
ANGLE_SCATTER = 2.0  # degrees: a leaf laid in the thread against the light
# How much wear takes off at most, in mm.
TAKEN = {Wear.NEW: 0.0, Wear.USED: 0.1, Wear.WORN: 0.4}
MISREAD = 0.02  # how often a reading says nothing, and over how many times the size it may then lie
WORTH_TELLING = 0.01  # a size less likely than that is not listed


@dataclass(frozen=True, slots=True)
class Reading:
    """One dimension as it was read: somewhere in low..high, in mm (an angle in degrees)."""

    what: Dimension
    low: float
    high: float
    tool: Tool
    wear: Wear = Wear.USED

    @property
    def middle(self) -> float:
        return (self.low + self.high) / 2


class Off(StrEnum):
    """What would have to be true of a dimension for the thing to be of a standard size."""

    FITS = "fits"
    WORN = "worn"  # so much worn off
    OVER = "over"  # so much larger than a new one may be
    UNDER = "under"  # so much smaller, and wear does not explain it


@dataclass(frozen=True, slots=True)
class Difference:
    """How a reading stands to a standard's zone: `by` mm (degrees) outside it, 0 where it fits."""

    what: Dimension
    off: Off
    by: float


@dataclass(frozen=True, slots=True)
class Likely:
    """A standard size, how probable it is among all of its sort, and what would have to be true."""

    standard: Standard
    probability: float
    differences: tuple[Difference, ...]


@dataclass(frozen=True, slots=True)
class Measure:
    """What to measure next, with what: how well it parts the first two, from 0 (not at all) to 1."""

    what: Dimension
    tool: Tool
    parts: float


@dataclass(frozen=True, slots=True)
class Sized:
    """The likely sizes, best first; `next` is None where nothing in reach would part the first two.

    `recorded` is what the prior rests on: how many things of each series are recorded.
    """

    sort: Sort
    likely: tuple[Likely, ...]
    next: Measure | None
    recorded: Mapping[str, int]


def size(
    readings: Sequence[Reading], among: Iterable[Standard], recorded: Mapping[str, int] | None = None
) -> Sized | None:
    """What the readings are likely to be among standards of one sort.

    `recorded` counts the things of each series that the maker is recorded to have used. None without
    readings, or where no standard is near in all the dimensions that were read.
    """
    dimensions = {reading.what for reading in readings}
    fitting = [one for one in among if dimensions <= {known for known, _ in one.zones}]
    if not readings:
        return None
    before = recorded or {}
    weights = [(before.get(one.series, 0) + 1) * _likelihood(one, readings) for one in fitting]
    total = sum(weights)
    ranked = sorted(zip(weights, fitting, strict=True), key=lambda w: (-w[0], w[1].series, w[1].size))
    if not any(_near(one, readings) for one in fitting):
        return None
    likely = tuple(
        Likely(one, weight / total, tuple(difference(one, reading) for reading in readings))
        for weight, one in ranked
        if weight >= WORTH_TELLING * total
    )
    return Sized(fitting[0].sort, likely, _next(likely, readings), before)


def _near(standard: Standard, readings: Iterable[Reading]) -> bool:
    """Whether no reading has to be a misreading."""
    return all(
        (1 - MISREAD) * _fitting(standard, reading) > MISREAD * _misread(reading) for reading in readings
    )


def difference(standard: Standard, reading: Reading) -> Difference:
    """How a reading stands to a standard's zone; what the reading leaves open counts in its favour."""
    zone = standard.zone(reading.what)
    assert zone is not None, "only standards with the dimension are asked"
    slack = _step(reading)
    if reading.high + slack < zone.low:
        by = zone.low - reading.high
        return Difference(reading.what, Off.WORN if zone.wear < 0 else Off.UNDER, by)
    if reading.low - slack > zone.high:
        by = reading.low - zone.high
        return Difference(reading.what, Off.WORN if zone.wear > 0 else Off.OVER, by)
    return Difference(reading.what, Off.FITS, 0.0)


def _step(reading: Reading) -> float:
    return 2 * _scatter(reading.what, reading.tool, reading.middle)


def _likelihood(standard: Standard, readings: Iterable[Reading]) -> float:
    product = 1.0
    for reading in readings:
        product *= (1 - MISREAD) * _fitting(standard, reading) + MISREAD * _misread(reading)
    return product


def _misread(reading: Reading) -> float:
    """The density of what says nothing: anywhere up to twice the size."""
    return 1 / (2 * abs(reading.middle) + 1)


def _fitting(standard: Standard, reading: Reading) -> float:
    """How likely a reading is, per mm: as good as new in one half of cases, worn in the other."""
    zone = standard.zone(reading.what)
    assert zone is not None, "only standards with the dimension are asked"
    scatter = _read_to(reading)
    taken = TAKEN[reading.wear]
    worn = replace(
        zone,
        low=zone.low - taken * (zone.wear < 0),
        high=zone.high + taken * (zone.wear > 0),
    )
    return (_blurred(zone, reading.middle, scatter) + _blurred(worn, reading.middle, scatter)) / 2


def _blurred(zone: Zone, at: float, scatter: float) -> float:
    """The density at a place of what is even over a zone and scatters around it."""
    if zone.high - zone.low < scatter / 1000:
        return exp(-(((at - zone.middle) / scatter) ** 2) / 2) / (scatter * sqrt(2 * pi))
    width = zone.high - zone.low
    return (_normal((at - zone.low) / scatter) - _normal((at - zone.high) / scatter)) / width


def _normal(z: float) -> float:
    return (1 + erf(z / sqrt(2))) / 2


def _read_to(reading: Reading) -> float:
    """How far off a reading may be, one standard deviation: by its tool, and by how it was written."""
    written_to = (reading.high - reading.low) / sqrt(12)
    return sqrt(_scatter(reading.what, reading.tool, reading.middle) ** 2 + written_to**2)


def _scatter(what: Dimension, tool: Tool, around: float) -> float:
    if what is Dimension.PITCH:
        return PITCH_SCATTER.get(tool, COUNTED) * around
    return ANGLE_SCATTER if what is Dimension.ANGLE else SCATTER[tool]


# What a bench has at hand for each dimension, the least trouble first.
AT_HAND = {
    Dimension.DIAMETER: (Tool.CALIPER, Tool.MICROMETER),
    Dimension.MINOR: (Tool.CALIPER,),
    Dimension.PITCH: (Tool.THREAD_GAUGE,),
    Dimension.ANGLE: (Tool.THREAD_GAUGE,),
    Dimension.ACROSS: (Tool.CALIPER,),
    Dimension.INSIDE: (Tool.CALIPER,),
    Dimension.OUTSIDE: (Tool.CALIPER, Tool.MICROMETER),
    Dimension.SECTION: (Tool.CALIPER, Tool.MICROMETER),
    Dimension.WIDTH: (Tool.CALIPER,),
    Dimension.GAP: (Tool.FEELER,),
}
PARTS_WELL = 0.5


def _next(likely: Sequence[Likely], readings: Iterable[Reading]) -> Measure | None:
    """The measurement not yet taken so well that parts the first two best."""
    if len(likely) < 2:
        return None
    first, second = (one.standard for one in likely[:2])
    read = {reading.what: reading for reading in readings}
    inside = Dimension.MINOR in read
    found: list[Measure] = []
    for what, zone in first.zones:
        other = second.zone(what)
        if other is None or what is (Dimension.DIAMETER if inside else Dimension.MINOR):
            continue  # a nut's outside diameter cannot be reached, nor a bolt's bore
        for tool in AT_HAND[what]:
            scatter = _scatter(what, tool, zone.middle)
            if what in read and scatter >= _read_to(read[what]):
                continue
            found.append(Measure(what, tool, 1 - _overlap(zone, other, scatter)))
    best = max(found, key=lambda measure: measure.parts, default=None)
    return best if best and best.parts >= PARTS_WELL else None


def _overlap(one: Zone, other: Zone, scatter: float, steps: int = 200) -> float:
    """How much of what would be read of one would be read of the other as well, from 0 to 1."""
    low = min(one.low, other.low) - 4 * scatter
    high = max(one.high, other.high) + 4 * scatter
    step = (high - low) / steps
    places = (low + (i + 0.5) * step for i in range(steps))
    return sum(min(_blurred(one, at, scatter), _blurred(other, at, scatter)) for at in places) * step
