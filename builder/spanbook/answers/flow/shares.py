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
    rounds as there are places settle it."""
    into: dict[str, list[Piece]] = {}
    for piece in pieces:
        if flows[piece.id]:
            into.setdefault(_outlet(piece, flows), []).append(piece)
    clean: dict[str, float] = {}
    for _ in range(len(into) + 1):
        for place, coming in into.items():
            if place in open_places:
                continue
            brought = sum(
                abs(flows[piece.id]) * (1.0 if piece.id in cleaners else clean.get(_inlet(piece, flows), 0.0))
                for piece in coming
            )
            clean[place] = brought / sum(abs(flows[piece.id]) for piece in coming)
    return clean
