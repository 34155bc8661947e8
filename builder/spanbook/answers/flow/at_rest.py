"""Every figure of an arrangement at rest, when each of its sizes has one value."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from spanbook.answers.flow.faults import Fault, left_out
from spanbook.answers.flow.inputs import Input, Known, Values
from spanbook.answers.flow.pieces import Arranged, Piece
from spanbook.answers.flow.shares import shares
from spanbook.ground.flow.bounds import GUIDE
from spanbook.ground.flow.network import Network, Rest, Way, rest
from spanbook.ground.memo import kept

# What the figures are called, beside `flow:WAY` and `at:PLACE`.
SHARES = ("cleaned", "served")
GAUGE = "gauge"
REACH = "reach"


@dataclass(eq=False)
class AtRest:
    """An arrangement with the laws of its ways and one fault or none; `medium` are the inputs of no way.

    Each state at rest is sought from that of all sizes in the middle, so that what was asked before shows in
    no digit, and is kept: of two that are compared one stands still while a size of the other is moved.
    """

    arranged: Arranged
    medium: Sequence[Input]
    known: Sequence[tuple[Piece, Known]]
    fault: Fault | None
    _found: dict[tuple[float, ...], Mapping[str, float]] = field(default_factory=dict)

    @kept
    def inputs(self) -> tuple[Input, ...]:
        """What it depends on, each once."""
        of_pieces = (one for _, known in self.known for one in known.inputs)
        return tuple({one.name: one for one in (*self.medium, *of_pieces)}.values())

    def figures(self, values: Values) -> Mapping[str, float]:
        """Flows, pressures, the gauge, what reaches the served, and the shares. `values` may name more than
        `inputs`. Raises NoRest.
        """
        own = tuple([values[name] for name in self._names])
        if own not in self._found:
            self._found[own] = self._at(values)
        return self._found[own]

    @kept
    def _names(self) -> tuple[str, ...]:
        return tuple(one.name for one in self.inputs)

    @kept
    def _flow_names(self) -> tuple[tuple[str, str], ...]:
        return tuple((piece.id, f"flow:{piece.id}") for piece in self.arranged.pieces)

    @kept
    def _middle(self) -> Rest:
        return rest(self._network({one.name: (one.low + one.high) / 2 for one in self.inputs}))

    def _network(self, values: Values) -> Network:
        ways = [Way(piece.id, piece.start, piece.end, one.law(values)) for piece, one in self.known]
        return Network(tuple(ways), self.arranged.open)

    def _at(self, values: Values) -> Mapping[str, float]:
        found = rest(self._network(values), self._middle)
        figures = {}
        for id_, flow in self._flow_names:
            figures[flow] = found.flows[id_]
            figures[GUIDE + flow] = found.pulls[id_]
        for place, pressure in found.pressures.items():
            figures[f"at:{place}"] = pressure
        if self._gauge in found.pressures:
            figures[GAUGE] = found.pressures[self._gauge]
        if reached := [abs(found.flows[piece.id]) for piece in self.arranged.pieces if piece.way.serves]:
            figures[REACH] = sum(reached)
        return figures | self._shares(found)

    def _shares(self, found: Rest) -> dict[str, float]:
        fine = [piece for piece in self.arranged.pieces if piece.way.cleans == "fine"]
        if not fine:
            return {}
        cleaners = frozenset(piece.id for piece in fine if not left_out(piece, self.fault))
        both = shares(self.arranged.pieces, found.flows, self.arranged.open, cleaners)
        return {"cleaned": both.cleaned, "served": both.served}

    @kept
    def _gauge(self) -> str:
        return next((place.id for place in self.arranged.circuit.places if place.gauge), "")
