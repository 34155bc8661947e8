"""A curve that was sampled, as few straight lines and cubic Béziers: `M`, `l` and `c` of an SVG path."""

from __future__ import annotations

import numpy as np

from plates.view import Floats

# How far a drawn curve may lie from its samples, in units of the picture.
NEAR = 0.12
# Ends nearer than this are one point.
SAME = 0.25


def segments(points: Floats) -> list[Floats]:
    """Samples (n, 2), even in the curve's own parameter, as pieces of two points (lines) or four (cubics)."""
    if _straight(points):
        return [points[[0, -1]]]
    slopes = np.gradient(points, axis=0, edge_order=2 if len(points) > 2 else 1)
    return _cubics(points, slopes)


def _straight(points: Floats) -> bool:
    way = points[-1] - points[0]
    length = float(np.hypot(*way))
    if length < SAME:
        return len(points) < 4
    off = np.abs((points - points[0]) @ np.array([-way[1], way[0]])) / length
    return bool(off.max() < NEAR)


def _cubics(points: Floats, slopes: Floats) -> list[Floats]:
    """Hermite's cubic from end to end, or else of each half."""
    last = len(points) - 1
    ends = np.stack(
        [points[0], points[0] + slopes[0] * last / 3, points[-1] - slopes[-1] * last / 3, points[-1]]
    )
    t = np.linspace(0, 1, len(points))[:, None]
    drawn = (
        ends[0] * (1 - t) ** 3
        + 3 * ends[1] * t * (1 - t) ** 2
        + 3 * ends[2] * t**2 * (1 - t)
        + ends[3] * t**3
    )
    if last < 3 or np.abs(drawn - points).max() < NEAR:
        return [ends]
    half = len(points) // 2
    return _cubics(points[: half + 1], slopes[: half + 1]) + _cubics(points[half:], slopes[half:])


def joined(curves: list[list[Floats]]) -> list[list[Floats]]:
    """Curves that meet at their ends, as one; each is turned round where it must be."""
    ends = _Ends(curves)
    found = []
    for at, curve in enumerate(curves):
        if ends.take(at):
            chain = curve
            for _ in ("onward", "and before its beginning"):
                while (after := ends.after(chain[-1][-1])) is not None:
                    chain = chain + after
                chain = _turned(chain)
            found.append(chain)
    return found


class _Ends:
    """Which curves begin or end at a place, as long as nobody took them."""

    def __init__(self, curves: list[list[Floats]]) -> None:
        self._curves = dict(enumerate(curves))
        self._at: dict[tuple[int, int], list[int]] = {}
        for at, curve in self._curves.items():
            for end in (curve[0][0], curve[-1][-1]):
                self._at.setdefault(_cell(end), []).append(at)

    def take(self, at: int) -> bool:
        return self._curves.pop(at, None) is not None

    def after(self, end: Floats) -> list[Floats] | None:
        """A curve that goes on from here, begun from this end, and taken."""
        column, row = _cell(end)
        for cell in ((column + x, row + y) for x in (-1, 0, 1) for y in (-1, 0, 1)):
            for at in self._at.get(cell, ()):
                for run in (curve, _turned(curve)) if (curve := self._curves.get(at)) else ():
                    if np.abs(run[0][0] - end).max() < SAME:
                        del self._curves[at]
                        return run
        return None


def _cell(end: Floats) -> tuple[int, int]:
    return int(end[0] // SAME), int(end[1] // SAME)


def _turned(curve: list[Floats]) -> list[Floats]:
    return [piece[::-1] for piece in reversed(curve)]


def path(curve: list[Floats]) -> str:
    """Pieces that follow one another as the data of an SVG path, to a tenth of a unit, relative and short."""
    here = curve[0][0].round(1)
    found = ["M" + _numbers([here])]
    for piece in curve:
        steps = [point.round(1) - here for point in piece[1:]]
        if any(np.abs(step).max() > 0.04 for step in steps):
            found.append(("l" if len(piece) == 2 else "c") + _numbers(steps))
        here = piece[-1].round(1)
    return "".join(found)


def _numbers(points: list[Floats]) -> str:
    written = ""
    for value in np.concatenate(points):
        text = f"{value:.1f}".removesuffix(".0").replace("-0.", "-.")
        text = "0" if text in ("-0", "0") else text.removeprefix("0")
        written += text if not written or text.startswith("-") else " " + text
    return written
