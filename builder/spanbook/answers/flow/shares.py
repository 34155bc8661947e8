"""What becomes of what is cleaned: how much of all, and how much of what reaches the bearings.

The two are different numbers: a filter beside the main way cleans a tenth of the oil, and nothing of what the
bearings get. At each place what comes in is taken to mix.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from spanbook.answers.flow.pieces import Piece


@dataclass(frozen=True, slots=True)
class Shares:
    """`cleaned` of what is pumped passes something fine; `served` of what is served was cleaned since the
    pump.
    """

    cleaned: float
    served: float


def shares(
    pieces: Sequence[Piece], flows: Mapping[str, float], open_places: frozenset[str], cleaners: frozenset[str]
) -> Shares:
    """`cleaners` are the ids of the pieces that clean finely now; nothing pumped or served gives a share of
    0.
    """
    clean = _mixed(pieces, flows, open_places, cleaners)
    pumped = sum(flows[piece.id] for piece in pieces if piece.way.through == "pump")
    first = sum(
        abs(flows[piece.id]) * (1 - clean.get(_inlet(piece, flows), 0.0))
        for piece in pieces
        if piece.id in cleaners
    )
    reached = [(abs(flows[piece.id]), _inlet(piece, flows)) for piece in pieces if piece.way.serves]
    served = sum(flow for flow, _ in reached)
    return Shares(
        first / pumped if pumped else 0.0,
        sum(flow * clean.get(place, 0.0) for flow, place in reached) / served if served else 0.0,
    )


def _inlet(piece: Piece, flows: Mapping[str, float]) -> str:
    return piece.start if flows[piece.id] >= 0 else piece.end


def _outlet(piece: Piece, flows: Mapping[str, float]) -> str:
    return piece.end if flows[piece.id] >= 0 else piece.start


def _mixed(
    pieces: Sequence[Piece], flows: Mapping[str, float], open_places: frozenset[str], cleaners: frozenset[str]
) -> dict[str, float]:
    """The cleaned share at each place. What runs falls in pressure from a pump to the open, so that as many
    rounds as there are places settle it; where the ways stand in that order one does."""
    into: dict[str, list[tuple[float, str | None]]] = {}  # how much, and whence unless it is clean anyway
    for piece in pieces:
        flow, place = abs(flows[piece.id]), _outlet(piece, flows)
        if flow and place not in open_places:
            whence = None if piece.id in cleaners else _inlet(piece, flows)
            into.setdefault(place, []).append((flow, whence))
    clean: dict[str, float] = {}
    for _ in range(len(into) + 1):
        before = dict(clean)
        for place, coming in into.items():
            brought = [flow * (1.0 if whence is None else clean.get(whence, 0.0)) for flow, whence in coming]
            clean[place] = sum(brought) / sum([flow for flow, _ in coming])
        if clean == before:
            break
    return clean
