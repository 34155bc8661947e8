"""Which sizes are worth measuring: what all figures wait for, or what narrows them most."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from spanbook.answers.flow.figures import Worked
from spanbook.answers.flow.pieces import Piece
from spanbook.answers.flow.sized import MEASURES
from spanbook.reading.records import Assembly, Circuit, Way

MOST = 3
# What is read in one go with a size: whoever measures that tells it as well.
_GOES_WITH = {"at-drop": "passes", "at-warmth": "passes", "at-speed": "gives"}
# What may be recorded, and no owner measures.
_NOT_BY_HAND = frozenset({"coefficient"})


@dataclass(frozen=True, slots=True)
class Measure:
    """Sizes of one way, by their `what`; `lacking`: there are no figures without them."""

    circuit: Circuit
    of: Assembly | Circuit
    way: Way
    what: tuple[str, ...]
    lacking: bool


def to_measure(worked: Worked) -> Iterator[tuple[Measure, float]]:
    """The sizes with the share, from 0 to 1, by which figures move with each: 1 of what lacks.

    Where sizes of several ways lack no single answer would bring a figure, and nothing is told.
    """
    if not (worked.driven and worked.arranged.whole):
        return
    pieces = list(dict.fromkeys(one.piece for one in worked.missing))
    if len(pieces) == 1 and pieces[0]:
        yield _measure(worked, pieces[0], tuple(one.what for one in worked.missing), lacking=True), 1.0
    moved: dict[tuple[Piece, str], float] = {}
    for one in worked.widest:
        what = _GOES_WITH.get(one.what, one.what)
        if one.piece and what in MEASURES and what not in _NOT_BY_HAND:
            key = one.piece, what
            moved[key] = min(1.0, moved.get(key, 0.0) + worked.moved[one.name])
    for piece, what in sorted(moved, key=lambda key: -moved[key])[:MOST]:
        yield _measure(worked, piece, (what,), lacking=False), moved[piece, what]


def _measure(worked: Worked, piece: Piece, what: tuple[str, ...], *, lacking: bool) -> Measure:
    return Measure(worked.arranged.circuit, piece.of, piece.way, what, lacking)
