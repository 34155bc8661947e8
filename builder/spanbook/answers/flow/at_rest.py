"""Every figure of an arrangement at rest, when each of its sizes has one value."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from spanbook.answers.flow.faults import Fault, left_out
from spanbook.answers.flow.inputs import Known, Values
from spanbook.answers.flow.pieces import Arranged, Piece
from spanbook.answers.flow.shares import shares
from spanbook.ground.flow.bounds import GUIDE
from spanbook.ground.flow.network import Network, Rest, Way, rest

# What the figures are called, beside `flow:WAY` and `at:PLACE`.
SHARES = ("cleaned", "served")
GAUGE = "gauge"
REACH = "reach"


@dataclass(eq=False)
class AtRest:
    """An arrangement with the laws of its ways and one fault or none.

    Each state at rest is sought from the last that was found: most differ by one size.
    """

    arranged: Arranged
    known: Sequence[tuple[Piece, Known]]
    fault: Fault | None
    _last: Rest | None = None

    def figures(self, values: Values) -> dict[str, float]:
        """Flows, pressures, the gauge, what reaches the served, and the shares. Raises NoRest."""
        ways = tuple(Way(piece.id, piece.start, piece.end, one.law(values)) for piece, one in self.known)
        found = self._last = rest(Network(ways, self.arranged.open), self._last)
        figures = {f"flow:{id_}": flow for id_, flow in found.flows.items()}
        figures |= {f"{GUIDE}flow:{id_}": value for id_, value in found.pulls.items()}
        figures |= {f"at:{place}": pressure for place, pressure in found.pressures.items()}
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

    @cached_property
    def _gauge(self) -> str:
        return next((place.id for place in self.arranged.circuit.places if place.gauge), "")
