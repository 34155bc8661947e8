"""A plate: pieces in their places, drawn as one picture with a point for each number."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Protocol

import numpy as np
from scipy.ndimage import distance_transform_edt

from plates import curves
from plates.hiding import FINE, NOBODY, Nearest, nearest, runs
from plates.view import Floats, View

# The longer of the picture's width and two thirds of its height, in units; the stroke is as thick everywhere.
LARGE = 900
STROKE = 2
EDGE = 14
# How densely lines are asked whether they are seen, in units.
STEP = 0.5
# A chain line, in units: long, gap, short, gap.
CHAIN = (26, 7, 7, 7)


class Shape(Protocol):
    """What can be drawn: its triangles hide, and its lines are seen."""

    @property
    def triangles(self) -> Floats: ...

    @property
    def cuts(self) -> tuple[object, ...]:
        """The planes at which it was cut open."""
        ...

    def lines(self, view: View) -> list[Floats]:
        """Lines that only other pieces may hide."""
        ...

    @property
    def close(self) -> float:
        """How far behind its own surface a loose line is still seen, in millimetres."""
        ...

    def loose(self, view: View, unit: float) -> list[Floats]:
        """Lines that the shape itself may hide as well; a unit of the picture in millimetres."""
        ...


@dataclass(frozen=True)
class Piece:
    """One thing with a number of the parts list, moved to where it is drawn."""

    number: str
    shape: Shape
    at: tuple[float, float, float] = (0, 0, 0)

    def moved(self, by: Floats) -> Piece:
        x, y, z = (float(value) for value in np.array(self.at) + by)
        return Piece(self.number, self.shape, (x, y, z))

    @property
    def triangles(self) -> Floats:
        return np.asarray(self.shape.triangles + np.array(self.at))


Group = tuple[Piece, ...]
Line = tuple[tuple[float, float, float], tuple[float, float, float]]


@dataclass(frozen=True)
class Plate:
    """The pieces of an assembly taken apart, and the chain lines along which they go together."""

    assembly: str
    pieces: Group
    axes: tuple[Line, ...] = ()
    view: View = field(default_factory=View)


@dataclass(frozen=True)
class Point:
    """Where a number's piece is best seen, in thousandths of the picture."""

    x: int
    y: int
    number: str


@dataclass(frozen=True)
class Drawn:
    """A plate as a picture, in units from its upper left corner."""

    width: float
    height: float
    curves: list[list[Floats]]
    points: list[Point]

    def svg(self) -> str:
        """The picture as a file: one group of paths in one stroke."""
        data = "".join(curves.path(curve) for curve in self.curves)
        size = f"{self.width:.0f} {self.height:.0f}"
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {size}">\n'
            f'<path fill="none" stroke="#000" stroke-width="{STROKE}" stroke-linecap="round" '
            f'stroke-linejoin="round" d="{_broken(data)}"/>\n</svg>\n'
        )


def _broken(data: str) -> str:
    """A line a stretch, so that a change shows as lines."""
    return data.replace("M", "\nM").lstrip()


def draw(plate: Plate) -> Drawn:
    frame = _Frame.round(plate)
    found = nearest([frame.flat(piece.triangles) for piece in plate.pieces], (frame.width, frame.height))
    lines = [curve for curve in _seen(plate, frame, found) if _length(curve) > STROKE / 2]
    pieces = [curves.segments(line) for line in lines]
    return Drawn(frame.width, frame.height, curves.joined(pieces), _points(plate, found, frame))


@dataclass(frozen=True)
class _Frame:
    """The view, moved and enlarged so that all of the plate is in the picture."""

    view: View
    scale: float
    corner: Floats
    width: float
    height: float

    @classmethod
    def round(cls, plate: Plate) -> _Frame:
        every = np.concatenate([piece.triangles.reshape(-1, 3) for piece in plate.pieces])
        ends = np.array(plate.axes).reshape(-1, 3)
        flat = plate.view.flat(np.concatenate([every, ends]))
        low, high = flat.min(axis=0), flat.max(axis=0)
        width, height, _ = high - low
        scale = LARGE / max(width, height * 2 / 3)
        corner = low * scale - np.array([EDGE, EDGE, 0])
        return cls(plate.view, scale, corner, width * scale + 2 * EDGE, height * scale + 2 * EDGE)

    def flat(self, points: Floats) -> Floats:
        """Points or triangles of space, in units of the picture."""
        flat = self.view.flat(points.reshape(-1, 3)) * self.scale - self.corner
        return flat.reshape(points.shape)


def _seen(plate: Plate, frame: _Frame, found: Nearest) -> Iterator[Floats]:
    for owner, piece in enumerate(plate.pieces):
        shape = piece.shape
        for lines, own in (
            (shape.lines(plate.view), np.inf),
            (shape.loose(plate.view, 1 / frame.scale), shape.close * frame.scale),
        ):
            for line in lines:
                yield from _shown(frame.flat(line + np.array(piece.at)), found, owner, own)
    for axis in plate.axes:
        for dash in _chain(frame.flat(np.array(axis))):
            yield from _shown(dash, found, NOBODY, np.inf)


def _shown(line: Floats, found: Nearest, owner: int, own: float) -> Iterator[Floats]:
    dense = _dense(line)
    for run in runs(dense, found.seen(dense, owner, own)):
        yield run[:, :2]


def _dense(line: Floats) -> Floats:
    """As many points as the picture can tell apart, between those that were sampled."""
    parts = len(line) - 1
    each = max(1, int(np.ceil(_length(line[:, :2]) / STEP / parts)))
    at = np.linspace(0, parts, parts * each + 1)
    return np.stack([np.interp(at, np.arange(parts + 1), line[:, axis]) for axis in range(3)], axis=1)


def _length(line: Floats) -> float:
    return float(np.hypot(*np.diff(line[:, :2], axis=0).T).sum())


def _chain(ends: Floats) -> Iterator[Floats]:
    length, at, part = _length(ends), 0.0, 0
    while at < length:
        drawn, gap = CHAIN[part : part + 2]
        share = np.array([[at / length], [min(at + drawn, length) / length]])
        yield ends[0] * (1 - share) + ends[1] * share
        at, part = at + drawn + gap, 2 - part


def _points(plate: Plate, found: Nearest, frame: _Frame) -> list[Point]:
    """For each number the inmost place of what is seen of it: the pin's leader ends there."""
    coarse = found.owner[:: 2 * FINE, :: 2 * FINE]
    best: dict[str, tuple[float, Point]] = {}
    for owner, piece in enumerate(plate.pieces):
        inside = np.pad(coarse == owner, 1)
        depth = distance_transform_edt(inside)
        row, column = np.unravel_index(int(depth.argmax()), depth.shape)
        if not inside[row, column]:
            continue
        x = round(1000 * (int(column) - 1) * 2 / frame.width)
        y = round(1000 * (int(row) - 1) * 2 / frame.height)
        if piece.number not in best or depth.max() > best[piece.number][0]:
            best[piece.number] = (float(depth.max()), Point(x, y, piece.number))
    return [point for _, point in best.values()]
