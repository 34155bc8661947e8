"""How much goes through a way for the pressure lost in it.

Each law is continuous and never falls as the drop rises: that is why a network has one answer. `flow` is
positive from the way's first end to its second; a negative drop drives it backwards where the way lets it.

Sources, each held to a published library in the tests: Hagen and Poiseuille for a round pipe up to a
Reynolds number of 2040 (K. Avila and others, "The onset of turbulence in pipe flow", Science 333, 2011),
Prandtl's law for smooth pipes beyond it; the sharp-edged orifice of ISO 5167; the flat slot by Poiseuille.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Protocol

# Where a pipe stops to be laminar.
_TURBULENT = 2040.0
# Below this drop (1 Pa) a jet is taken as a straight line: a root has no slope to work with at nothing.
_STRAIGHT = 1.0


class Law(Protocol):
    """What every way obeys."""

    def flow(self, drop: float) -> tuple[float, float]:
        """What flows at this drop, and how much more for each unit of it more."""
        ...


@dataclass(frozen=True, slots=True)
class Straight:
    """In proportion to the drop: a clearance, an element, a resistor. `gives` is the flow for one unit of
    drop.
    """

    gives: float

    def flow(self, drop: float) -> tuple[float, float]:
        return self.gives * drop, self.gives


@dataclass(frozen=True, slots=True)
class Pipe:
    """A round smooth pipe. Between laminar and turbulent flow a higher drop gives no more."""

    bore: float
    length: float
    viscosity: float
    density: float

    def flow(self, drop: float) -> tuple[float, float]:
        easy = math.pi * self.bore**4 / (128 * self.viscosity * self.length)
        of_number = (
            math.pi * self.bore * self.viscosity / (4 * self.density)
        )  # flow at a Reynolds number of 1
        size = abs(drop)
        if easy * size <= _TURBULENT * of_number:
            return easy * drop, easy
        rough = math.sqrt(2 * size * self.bore**3 * self.density / (self.length * self.viscosity**2))
        smooth = 2 * math.log10(rough) - 0.8
        number = rough * smooth
        if number <= _TURBULENT:
            return math.copysign(_TURBULENT * of_number, drop), 0.0
        slope = (smooth + 2 / math.log(10)) * rough / (2 * size)
        return math.copysign(number * of_number, drop), slope * of_number


@dataclass(frozen=True, slots=True)
class Jet:
    """A sharp-edged hole: `coefficient` is what passes of what an ideal hole would pass.

    `line` is the bore of what it is screwed into, when the oil's own speed there counts.
    """

    bore: float
    coefficient: float
    density: float
    line: float | None = None

    def flow(self, drop: float) -> tuple[float, float]:
        area = math.pi * self.bore**2 / 4
        ahead = math.sqrt(1 - (self.bore / self.line) ** 4) if self.line else 1.0
        factor = self.coefficient * area * math.sqrt(2 / self.density) / ahead
        if abs(drop) <= _STRAIGHT:
            return factor * drop / math.sqrt(_STRAIGHT), factor / math.sqrt(_STRAIGHT)
        root = math.sqrt(abs(drop))
        return math.copysign(factor * root, drop), factor / (2 * root)


@dataclass(frozen=True, slots=True)
class Slots:
    """Flat slots side by side: `gap` is how far their walls are apart, `depth` the way through them."""

    count: float
    width: float
    gap: float
    depth: float
    viscosity: float

    def flow(self, drop: float) -> tuple[float, float]:
        gives = self.count * self.width * self.gap**3 / (12 * self.viscosity * self.depth)
        return gives * drop, gives


@dataclass(frozen=True, slots=True)
class Relief:
    """Shut up to the drop at which it opens, then in proportion to what is above that; never backwards."""

    opens: float
    gives: float

    def flow(self, drop: float) -> tuple[float, float]:
        above = drop - self.opens
        return (self.gives * above, self.gives) if above > 0 else (0.0, 0.0)


def pull(law: Law, drop: float) -> float:
    """What flows or, of a valve that is shut, how far it is from opening, as less than nothing: what is flat
    as a flow still tells which way to turn."""
    return law.gives * (drop - law.opens) if isinstance(law, Relief) else law.flow(drop)[0]


@dataclass(frozen=True, slots=True)
class Cell:
    """A battery: it raises its second end above its first, less what it loses in itself."""

    lifts: float
    gives: float

    def flow(self, drop: float) -> tuple[float, float]:
        return self.gives * (drop + self.lifts), self.gives


@dataclass(frozen=True, slots=True)
class Shut:
    """Nothing passes."""

    def flow(self, drop: float) -> tuple[float, float]:
        return 0.0, 0.0


@dataclass(frozen=True, slots=True)
class Given:
    """So much, whatever the pressure: a pump that displaces it."""

    moves: float

    def flow(self, drop: float) -> tuple[float, float]:
        return self.moves, 0.0
