"""The one state in which a network is at rest: at each place as much comes in as goes out.

No law falls as its drop rises, so the pressures make one convex sum least (its slope at a place is what
goes out there less what comes in). Newton's steps find it; a step is shortened until the slope along it has
gone.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from spanbook.ground.flow.laws import Given, Law, Shut, pull

# So that a place behind shut ways has a pressure at all: 0.000006 litre a minute for each bar.
_LEAK = 1e-15
# When the leaks carry this share of the flow, they are its only way out.
_NO_WAY_OUT = 0.05
_CLOSE = 1e-9
# What a computer loses of a number.
_ROUNDING = 1e-14
_STEPS = 400
_HALVINGS = 60
# A step is taken when the sum rises at its end by no more than this beside how it fell at its beginning.
_RISES = 0.5


class NoRest(ValueError):  # noqa: N818 - what it is, not that it is wrong
    """No state at rest was found."""


class NoWayOut(NoRest):
    """What is pumped has no way out, and something would give way."""


@dataclass(frozen=True, slots=True)
class Way:
    """One way from a place to a place."""

    id: str
    start: str
    end: str
    law: Law


@dataclass(frozen=True, slots=True)
class Network:
    """Ways between places; `open` are the places at the pressure of the air, which is 0.

    `leak` is what passes anywhere for one unit of drop; it only has to be far below everything else.
    """

    ways: tuple[Way, ...]
    open: frozenset[str]
    leak: float = _LEAK

    @property
    def inner(self) -> tuple[str, ...]:
        """The places whose pressure is to be found, in the order in which the ways name them."""
        places = (place for way in self.ways for place in (way.start, way.end))
        return tuple(dict.fromkeys(place for place in places if place not in self.open))


@dataclass(frozen=True, slots=True)
class Rest:
    """The state at rest: pressure at each place, flow, pull (`laws.pull`) and drop of each way."""

    pressures: Mapping[str, float]
    flows: Mapping[str, float]
    pulls: Mapping[str, float]
    drops: Mapping[str, float]


def rest(network: Network, near: Rest | None = None) -> Rest:
    """The state at rest, sooner found from one of a network that is nearly the same. Raises NoRest."""
    at = {place: index for index, place in enumerate(network.inner)}
    placed = [
        (way.law, at.get(way.start), at.get(way.end)) for way in network.ways if not isinstance(way.law, Shut)
    ]
    solving = _Solving(placed, len(at), network.leak)
    found = solving.pressures([near.pressures[place] if near else 0.0 for place in at])
    pressures = {**dict.fromkeys(network.open, 0.0), **dict(zip(at, found, strict=True))}
    drops = {way.id: pressures[way.start] - pressures[way.end] for way in network.ways}
    return Rest(
        pressures=pressures,
        flows={way.id: way.law.flow(drops[way.id])[0] for way in network.ways},
        pulls={way.id: pull(way.law, drops[way.id]) for way in network.ways},
        drops=drops,
    )


def _drop(start: int | None, end: int | None, pressures: Sequence[float]) -> float:
    return (0.0 if start is None else pressures[start]) - (0.0 if end is None else pressures[end])


# What goes out of each place less what comes in, how that changes with each pressure, and the largest flow.
_Slope = tuple[list[float], list[list[float]], float]


@dataclass(frozen=True, slots=True)
class _Solving:
    """A network by numbers: each way with the places that it leads from and to, None for what is open."""

    ways: Sequence[tuple[Law, int | None, int | None]]
    places: int
    leak: float

    def pressures(self, pressures: list[float]) -> list[float]:
        """The pressures at rest, from any to begin with."""
        found = self._slope(pressures)
        for _ in range(_STEPS):
            slope, matrix, most = found
            steepest = max((matrix[index][index] for index in range(self.places)), default=0.0)
            rounding = _ROUNDING * steepest * max(map(abs, pressures), default=0.0)
            enough = _CLOSE * most + rounding
            if all(-enough <= value <= enough for value in slope):
                pumped = any(isinstance(law, Given) for law, _, _ in self.ways)
                if pumped and self.leak * sum(map(abs, pressures)) > _NO_WAY_OUT * most:
                    raise NoWayOut
                return pressures
            pressures, found = self._after(pressures, _solved(matrix, slope), slope)
        raise NoRest

    def _after(
        self, pressures: list[float], back: list[float], slope: list[float]
    ) -> tuple[list[float], _Slope]:
        """As far along a step as the sum still falls, or rises but little beside how it began to fall."""
        most_back = -_RISES * sum(value * by for value, by in zip(slope, back, strict=True))
        share = 1.0
        for _ in range(_HALVINGS):
            there = [value - share * by for value, by in zip(pressures, back, strict=True)]
            found = self._slope(there)
            if sum(value * by for value, by in zip(found[0], back, strict=True)) >= most_back:
                break
            share /= 2
        return there, found

    def _slope(self, pressures: Sequence[float]) -> _Slope:
        """What goes out less what comes in, how that changes with each pressure, and the largest flow."""
        over = [self.leak * pressure for pressure in pressures]
        matrix = [[0.0] * self.places for _ in range(self.places)]
        for index in range(self.places):
            matrix[index][index] = self.leak
        most = 0.0
        for law, start, end in self.ways:
            flow, more = law.flow(_drop(start, end, pressures))
            most = max(most, abs(flow))
            if start is not None:
                over[start] += flow
                matrix[start][start] += more
                if end is not None:
                    matrix[start][end] -= more
                    matrix[end][start] -= more
            if end is not None:
                over[end] -= flow
                matrix[end][end] += more
        return over, matrix, most


def _solved(matrix: Sequence[Sequence[float]], right: Sequence[float]) -> list[float]:
    """A linear system by elimination. The matrix is symmetric and positive: no row has to change places."""
    rows = [[*row, value] for row, value in zip(matrix, right, strict=True)]
    size = len(rows)
    for pivot in range(size):
        for row in range(pivot + 1, size):
            factor = rows[row][pivot] / rows[pivot][pivot]
            if factor:
                rows[row] = [a - factor * b for a, b in zip(rows[row], rows[pivot], strict=True)]
    found = [0.0] * size
    for index in reversed(range(size)):
        known = sum(rows[index][other] * found[other] for other in range(index + 1, size))
        found[index] = (rows[index][size] - known) / rows[index][index]
    return found
