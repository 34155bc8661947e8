"""The one state in which a network is at rest: at each place as much comes in as goes out.

No law falls as its drop rises, so the pressures make one convex sum least (its slope at a place is what
goes out there less what comes in). Newton's steps find it; a step is shortened until the slope along it has
gone.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from spanbook.ground.flow.laws import Given, Law, pull

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
    placed = [(way.law, at.get(way.start), at.get(way.end)) for way in network.ways]
    solving = _Solving(placed, len(at), network.leak)
    pressures = solving.pressures([near.pressures[place] if near else 0.0 for place in at])
    drops = [_drop(start, end, pressures) for _, start, end in placed]
    return Rest(
        pressures={
            **dict.fromkeys(network.open, 0.0),
            **{place: pressures[index] for place, index in at.items()},
        },
        flows={way.id: way.law.flow(drop)[0] for way, drop in zip(network.ways, drops, strict=True)},
        pulls={way.id: pull(way.law, drop) for way, drop in zip(network.ways, drops, strict=True)},
        drops={way.id: drop for way, drop in zip(network.ways, drops, strict=True)},
    )


def _drop(start: int | None, end: int | None, pressures: Sequence[float]) -> float:
    return (0.0 if start is None else pressures[start]) - (0.0 if end is None else pressures[end])


@dataclass(frozen=True, slots=True)
class _Solving:
    """A network by numbers: each way with the places that it leads from and to, None for what is open."""

    ways: Sequence[tuple[Law, int | None, int | None]]
    places: int
    leak: float

    def pressures(self, pressures: list[float]) -> list[float]:
        """The pressures at rest, from any to begin with."""
        for _ in range(_STEPS):
            slope, matrix, most = self._slope(pressures)
            steepest = max((matrix[index][index] for index in range(self.places)), default=0.0)
            rounding = _ROUNDING * steepest * max(map(abs, pressures), default=0.0)
            if all(abs(value) <= _CLOSE * most + rounding for value in slope):
                pumped = any(isinstance(law, Given) for law, _, _ in self.ways)
                if pumped and self.leak * sum(map(abs, pressures)) > _NO_WAY_OUT * most:
                    raise NoWayOut
                return pressures
            step = _solved(matrix, [-value for value in slope])
            pressures = self._after(pressures, step, slope)
        raise NoRest

    def _after(self, pressures: list[float], step: list[float], slope: list[float]) -> list[float]:
        """As far along a step as the sum still falls, or rises but little beside how it began to fall."""
        began = -sum(value * by for value, by in zip(slope, step, strict=True))
        share = 1.0
        for _ in range(_HALVINGS):
            there = [value + share * by for value, by in zip(pressures, step, strict=True)]
            if sum(a * b for a, b in zip(self._over(there), step, strict=True)) <= _RISES * began:
                break
            share /= 2
        return there

    def _over(self, pressures: Sequence[float]) -> list[float]:
        """What goes out of each place less what comes in."""
        over = [self.leak * pressure for pressure in pressures]
        for law, start, end in self.ways:
            flow = law.flow(_drop(start, end, pressures))[0]
            if start is not None:
                over[start] += flow
            if end is not None:
                over[end] -= flow
        return over

    def _slope(self, pressures: Sequence[float]) -> tuple[list[float], list[list[float]], float]:
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
                over[end] -= flow
                matrix[end][end] += more
            if start is not None and end is not None:
                matrix[start][end] -= more
                matrix[end][start] -= more
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
