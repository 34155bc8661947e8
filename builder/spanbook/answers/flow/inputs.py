"""What is known of each way as numbers between two ends, and what is taken for granted where nobody said.

Sizes come in the units that they were written in and are SI from here on. What is assumed is our own guess:
it is listed with every figure that rests on it, before all that somebody recorded.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import IntEnum

from spanbook.answers.flow.pieces import Piece
from spanbook.ground.flow import laws, oils
from spanbook.ground.flow.bounds import Unknown
from spanbook.ground.flow.si import si
from spanbook.ground.measures import read, step
from spanbook.reading.records import Circuit, CircuitState, Evidence, Source, WaySize

# Of what nobody recorded. A hole is a jet of this coefficient: sharp-edged 0.6 (ISO 5167), well rounded
# 0.9. Oil has this density, in kg/m³, and an index of before additives. "Warm" in a book is this. A valve
# that opens is fully open by so many times the pressure at which it opens. What is not there to resist
# loses so much.
COEFFICIENT = (0.6, 0.9)
DENSITY = (860.0, 900.0)
WATER = (970.0, 1000.0)
WATER_VISCOSITY = (0.00035, 0.0012)
INDEX = (0.0, 95.0)
WARM = (60.0, 80.0)
FULLY_OPEN = (1.1, 1.5)
LITTLE = (0.01 * si("psi"), 1.0 * si("psi"))
# Of a hole that stands open where a thing was left out and nobody measured it: a quarter to half an inch.
HOLE = (0.25 * si("in"), 0.5 * si("in"))


class Weight(IntEnum):
    """On what an input rests, the weakest first."""

    ASSUMED = 0
    UNBACKED = 1
    RECALLED = 2
    RECORDED = 3


@dataclass(frozen=True, slots=True, eq=False)
class Input:
    """One number that goes into a figure, in SI between two ends. `piece` is None for the medium itself."""

    piece: Piece | None
    what: str
    low: float
    high: float
    weight: Weight
    size: WaySize | None = None

    @property
    def name(self) -> str:
        return f"{self.piece.id if self.piece else 'medium'}:{self.what}"

    @property
    def unknown(self) -> Unknown:
        return Unknown(self.name, self.low, self.high)


# The value of each input, by its name.
Values = Mapping[str, float]
MakeLaw = Callable[[Values], laws.Law]


@dataclass(frozen=True, slots=True, eq=False)
class Known:
    """A piece's law and what it needs; where something is `missing`, by its `what`, there is no law."""

    inputs: tuple[Input, ...]
    missing: tuple[str, ...]
    law: MakeLaw


def between(size: WaySize) -> tuple[float, float]:
    """Its two ends in SI. A decimal is read to its last place; all else is taken as it stands."""
    unit, ends = si(size.unit), (size.value, size.to or size.value)
    low, high = (float(read(end)) for end in ends)
    either = [float(step(end)) / 2 if "." in end else 0.0 for end in ends]
    return (low - either[0]) * unit, (high + either[1]) * unit


def size_of(piece: Piece, what: str) -> WaySize | None:
    return next((size for size in piece.way.sizes if size.what == what), None)


@dataclass(frozen=True, slots=True)
class Weigher:
    """What sizes rest on."""

    sources: Mapping[str, Source]

    def of(self, evidence: tuple[Evidence, ...]) -> Weight:
        named = [one.source or "" for one in evidence if not one.against]
        if not named:
            return Weight.UNBACKED
        return Weight.RECALLED if all(map(self._recollection, named)) else Weight.RECORDED

    def _recollection(self, id_: str) -> bool:
        source = self.sources.get(id_)
        return source is not None and source.sort == "recollection"


@dataclass(frozen=True, slots=True, eq=False)
class Found:
    """A piece's sizes as inputs, and those that were wanted and are not there."""

    piece: Piece
    weigher: Weigher

    def input(self, what: str, assumed: tuple[float, float] | None = None) -> Input | None:
        """A size as it was recorded, or what is assumed in its place."""
        size = size_of(self.piece, what)
        if size is not None:
            return Input(self.piece, what, *between(size), self.weigher.of(self.piece.way.evidence), size)
        return Input(self.piece, what, *assumed, Weight.ASSUMED) if assumed else None

    def missing(self, *what: str) -> tuple[str, ...]:
        return tuple(one for one in what if size_of(self.piece, one) is None)


def medium_inputs(circuit: Circuit, weigher: Weigher) -> tuple[Input, ...]:
    """How thick and how heavy the medium is; nothing of current."""
    match circuit.medium:
        case "oil":
            at_hundred = oils.GRADES.get(circuit.grade or "")
            said = weigher.of(circuit.evidence)
            thick = [Input(None, "at-hundred", *at_hundred, said)] if at_hundred else []
            return (
                *thick,
                Input(None, "index", *INDEX, Weight.ASSUMED),
                Input(None, "density", *DENSITY, Weight.ASSUMED),
            )
        case "current":
            return ()
        case _:
            return (
                Input(None, "viscosity", *WATER_VISCOSITY, Weight.ASSUMED),
                Input(None, "density", *WATER, Weight.ASSUMED),
            )


def medium_missing(circuit: Circuit, state: CircuitState) -> tuple[str, ...]:
    """What must be said of the medium before there are figures."""
    if circuit.medium != "oil":
        return ()
    return tuple(
        what for what, there in (("grade", circuit.grade), ("warmth", state.warmth is not None)) if not there
    )


def viscosity(values: Values, celsius: float) -> float:
    """Of the medium, in Pa s. Water's is taken as it is; oil's follows from its warmth."""
    if (plain := values.get("medium:viscosity")) is not None:
        return plain
    found = oils.kinematic(values["medium:at-hundred"], values["medium:index"], celsius)
    return found * 1e-6 * values["medium:density"]
