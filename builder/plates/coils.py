"""Springs, wires and cables: round stuff along a line, whose outline follows from the line itself.

A kernel's hidden-line removal takes most of a minute for one spring; the outline of a tube under parallel
light is known: it lies beside the middle line, at right angles to it and to the view.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

import numpy as np

from plates.view import Floats, View

SIDES = 12


@dataclass(frozen=True, eq=False)
class Tube:
    """A wire of this thickness along a line of points (n, 3), evenly spaced in its parameter."""

    middle: Floats
    thick: float
    cuts: tuple[()] = ()

    @property
    def triangles(self) -> Floats:
        along = _unit(np.gradient(self.middle, axis=0))
        across = _unit(np.cross(along, _never_along(along)))
        over = np.cross(along, across)
        turn = np.linspace(0, 2 * pi, SIDES, endpoint=False)[:, None, None]
        rings = self.middle + self.thick / 2 * (np.cos(turn) * across + np.sin(turn) * over)
        a, b = rings[:, :-1], rings[:, 1:]
        c, d = np.roll(a, -1, axis=0), np.roll(b, -1, axis=0)
        walls = np.stack([np.stack([a, b, c], 2), np.stack([b, d, c], 2)]).reshape(-1, 3, 3)
        lids = [
            np.array([self.middle[end], rings[side, end], rings[(side + 1) % SIDES, end]])
            for end in (0, -1)
            for side in range(SIDES)
        ]
        return np.concatenate([walls, np.array(lids)])

    def lines(self, view: View) -> list[Floats]:
        return []

    @property
    def close(self) -> float:
        return self.thick * 0.55

    def loose(self, view: View, unit: float) -> list[Floats]:
        """Both sides of the outline and the two ends: the tube itself may hide any of them."""
        along = _unit(np.gradient(self.middle, axis=0, edge_order=2))
        beside = _unit(np.cross(view.towards, along)) * self.thick / 2
        return [self.middle + beside, self.middle - beside, self._end(0), self._end(-1)]

    def _end(self, at: int) -> Floats:
        along = _unit(np.gradient(self.middle, axis=0))[[at]]
        across = _unit(np.cross(along, _never_along(along)))
        turn = np.linspace(0, 2 * pi, 49)[:, None]
        over = np.cross(along, across)
        return np.asarray(self.middle[at] + self.thick / 2 * (np.cos(turn) * across + np.sin(turn) * over))


def _unit(vectors: Floats) -> Floats:
    lengths = np.linalg.norm(vectors, axis=1, keepdims=True)
    return np.asarray(vectors / np.maximum(lengths, 1e-9))


def _never_along(along: Floats) -> Floats:
    steep = np.abs(along[:, [2]]).max() > 0.9
    return np.tile([1.0, 0.31, 0.0] if steep else [0.0, 0.0, 1.0], (len(along), 1))


def spring(radius: float, thick: float, length: float, turns: float) -> Tube:
    """A coil spring standing on z = 0, its ends closed as they are ground."""
    t = np.linspace(0, turns, int(turns * 48) + 1)
    rise = np.clip(t - 0.75, 0, turns - 1.5) / (turns - 1.5)
    # The dead turns at both ends still climb by the thickness of the wire.
    dead = np.clip(t, 0, 0.75) + np.clip(t - (turns - 0.75), 0, 0.75)
    z = thick / 2 + dead * thick + rise * (length - thick - 1.5 * thick)
    turn = 2 * pi * t
    return Tube(np.stack([radius * np.cos(turn), radius * np.sin(turn), z], axis=1), thick)


def cable(points: list[tuple[float, float, float]], thick: float) -> Tube:
    """A cable or a wire laid smoothly through the points."""
    corners = np.array(points, float)
    padded = np.concatenate([[2 * corners[0] - corners[1]], corners, [2 * corners[-1] - corners[-2]]])
    found = []
    t = np.linspace(0, 1, 33)[:, None]
    for a, b, c, d in zip(padded, padded[1:], padded[2:], padded[3:], strict=False):
        found.append(
            0.5 * (2 * b + (c - a) * t + (2 * a - 5 * b + 4 * c - d) * t**2 + (3 * b - a - 3 * c + d) * t**3)
        )
    return Tube(np.concatenate([found[0], *(piece[1:] for piece in found[1:])]), thick)
