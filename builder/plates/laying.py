"""Laying pieces out: one thing, several round an axis, a row of groups along the line they go together on."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians, sin

import numpy as np

from plates.plate import Group, Line, Piece, Shape
from plates.view import Floats

UP = (0.0, 0.0, 1.0)
Vec = tuple[float, float, float]


def one(number: str, shape: Shape, at: Vec = (0, 0, 0)) -> Group:
    return (Piece(number, shape, at),)


def circle(number: str, shape: Shape, count: int, radius: float, first: float = 45) -> Group:
    """So many of one shape on a circle round the vertical, the first at this many degrees."""
    turns = [radians(first + 360 * at / count) for at in range(count)]
    return tuple(Piece(number, shape, (radius * cos(turn), radius * sin(turn), 0)) for turn in turns)


@dataclass(frozen=True)
class Row:
    """Groups one after another along a direction, with the chain line through them."""

    pieces: Group
    axes: tuple[Line, ...]


def row(
    *groups: Group, along: Vec = (0, 0, -1), start: Vec = (0, 0, 0), gap: float | list[float] = 12
) -> Row:
    """Each group begins a gap after the end of the one before; a gap below nothing overlaps."""
    way, at, placed = np.array(along, float), 0.0, []
    gaps = gap if isinstance(gap, list) else [gap] * (len(groups) - 1)
    for group, after in zip(groups, [*gaps, 0.0], strict=True):
        low, high = _extent(group, way)
        placed += [piece.moved(np.array(start) + way * (at - low)) for piece in group]
        at += high - low + after
    end = np.array(start) + way * at
    return Row(tuple(placed), ((start, (float(end[0]), float(end[1]), float(end[2]))),))


def _extent(group: Group, way: Floats) -> tuple[float, float]:
    reach = np.concatenate([piece.triangles.reshape(-1, 3) @ way for piece in group])
    return float(reach.min()), float(reach.max())
