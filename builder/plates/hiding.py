"""What is hidden by what: which piece is nearest the eye, and the runs of a line that are seen."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from plates.view import Floats

NOBODY = -1
# Pixels for a unit of the picture: a line ends at most half a pixel from the edge that hides it.
FINE = 2
# How much nearer a surface must be to hide a line, in units: things that touch do not hide one another.
TOUCH = 1.0


@dataclass(frozen=True)
class Nearest:
    """For each pixel the piece that is nearest the eye, and how near that is."""

    owner: NDArray[np.int32]
    depth: Floats

    def seen(self, points: Floats, owner: int, own: float) -> NDArray[np.bool_]:
        """Which points (n, 3) of a piece's line are seen: not behind another, nor this far behind its own."""
        rows, columns = self.owner.shape
        x = np.clip((points[:, 0] * FINE).astype(int), 0, columns - 1)
        y = np.clip((points[:, 1] * FINE).astype(int), 0, rows - 1)
        behind = self.depth[y, x] - points[:, 2]
        return np.asarray(behind <= np.where(self.owner[y, x] == owner, own, TOUCH))


def nearest(meshes: list[Floats], size: tuple[float, float]) -> Nearest:
    """From each piece's triangles (n, 3, 3), projected, to what is seen in a picture of this size."""
    shape = (int(size[1] * FINE) + 2, int(size[0] * FINE) + 2)
    found = Nearest(np.full(shape, NOBODY, np.int32), np.full(shape, -np.inf))
    for owner, triangles in enumerate(meshes):
        for triangle in triangles:
            _fill(found, triangle * np.array([FINE, FINE, 1]), owner)
    return found


def _fill(found: Nearest, corners: Floats, owner: int) -> None:
    (ax, ay, az), (bx, by, bz), (cx, cy, cz) = corners.tolist()
    area = (bx - ax) * (cy - ay) - (cx - ax) * (by - ay)
    if abs(area) < 1e-9:
        return
    left, right = max(int(min(ax, bx, cx) - 0.5), 0), int(max(ax, bx, cx) + 1.5)
    top, bottom = max(int(min(ay, by, cy) - 0.5), 0), int(max(ay, by, cy) + 1.5)
    depth = found.depth[top:bottom, left:right]
    x = np.arange(left, left + depth.shape[1]) + 0.5
    y = (np.arange(top, top + depth.shape[0]) + 0.5)[:, None]
    b = ((x - ax) * (cy - ay) - (cx - ax) * (y - ay)) / area
    c = ((bx - ax) * (y - ay) - (x - ax) * (by - ay)) / area
    near = az + b * (bz - az) + c * (cz - az)
    inside = (b >= -1e-6) & (c >= -1e-6) & (b + c <= 1 + 1e-6) & (near > depth)
    depth[inside] = near[inside]
    found.owner[top:bottom, left:right][inside] = owner


def runs(points: Floats, seen: NDArray[np.bool_]) -> Iterator[Floats]:
    """The stretches of a sampled line that are seen, each of two points or more."""
    edges = np.flatnonzero(np.diff(np.concatenate([[False], seen, [False]]).astype(int)))
    for start, end in zip(edges[::2], edges[1::2], strict=True):
        if end - start > 1:
            yield points[start:end]
