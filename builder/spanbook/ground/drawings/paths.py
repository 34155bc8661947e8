"""Path data (W3C SVG 2, chapter 9) as lines and cubic curves with all their points in full."""

from __future__ import annotations

from math import atan2, ceil, cos, hypot, pi, radians, sin, sqrt, tan

from spanbook.ground.drawings.numbers import NoNumber, Numbers

Point = tuple[float, float]
# M and L with a point, C with two handles and a point, Z with nothing.
Step = tuple[str, tuple[Point, ...]]
_TAKES = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2}


def path(data: str, most: int) -> list[Step]:
    """The steps of path data, but for what is more than `most`. Raises NoNumber for what is no path data."""
    walk = _Walk()
    numbers = Numbers(data)
    command = ""
    while numbers and len(walk.steps) <= most:
        letter = numbers.letter()
        if letter:
            command = letter
        elif command in ("", "z", "Z"):
            raise NoNumber(data[:20])
        else:  # the same once more; a second point of M is one of L
            command = {"M": "L", "m": "l"}.get(command, command)
        if not walk.steps and command not in ("M", "m"):
            raise NoNumber(data[:20])
        _step(walk, command, numbers)
    return walk.steps


def _step(walk: _Walk, command: str, numbers: Numbers) -> None:
    upper, base = command.upper(), (walk.at if command.islower() else (0.0, 0.0))
    if upper == "Z":
        walk.close()
    elif upper == "A":
        across, along, turn = numbers.next(), numbers.next(), numbers.next()
        large, sweep = numbers.flag(), numbers.flag()
        end = (numbers.next() + base[0], numbers.next() + base[1])
        walk.arc(abs(across), abs(along), turn, end, large=large, sweep=sweep)
    elif upper in _TAKES:
        given = [numbers.next() for _ in range(_TAKES[upper])]
        if upper == "H":
            walk.line((given[0] + base[0], walk.at[1]))
        elif upper == "V":
            walk.line((walk.at[0], given[0] + base[1]))
        else:
            points = [(x + base[0], y + base[1]) for x, y in zip(given[::2], given[1::2], strict=True)]
            walk.go(upper, points)
    else:
        raise NoNumber(command)


class _Walk:
    """Where the pen is, where it began, and which handle the next smooth curve mirrors."""

    def __init__(self) -> None:
        self.steps: list[Step] = []
        self.at: Point = (0.0, 0.0)
        self.start: Point = (0.0, 0.0)
        self._handle: tuple[str, Point] = ("", (0.0, 0.0))

    def go(self, command: str, points: list[Point]) -> None:
        match command, points:
            case "M", [point]:
                self.steps.append(("M", (point,)))
                self.at = self.start = point
                self._handle = ("", point)
            case "L", [point]:
                self.line(point)
            case "C", [first, second, end]:
                self._curve(first, second, end)
            case "S", [second, end]:
                self._curve(self._mirrored("C"), second, end)
            case "Q", [handle, end]:
                self._quadratic(handle, end)
            case "T", [end]:
                self._quadratic(self._mirrored("Q"), end)

    def line(self, point: Point) -> None:
        self.steps.append(("L", (point,)))
        self.at = point
        self._handle = ("", point)

    def close(self) -> None:
        self.steps.append(("Z", ()))
        self.at = self.start
        self._handle = ("", self.at)

    def arc(self, rx: float, ry: float, turn: float, end: Point, *, large: bool, sweep: bool) -> None:
        if rx == 0 or ry == 0:
            self.line(end)
        elif end != self.at:
            for first, second, stop in arc(self.at, rx, ry, turn, end, large=large, sweep=sweep):
                self._curve(first, second, stop)
            self._handle = ("", self.at)

    def _curve(self, first: Point, second: Point, end: Point) -> None:
        self.steps.append(("C", (first, second, end)))
        self.at = end
        self._handle = ("C", second)

    def _quadratic(self, handle: Point, end: Point) -> None:
        first, second = (_between(point, handle) for point in (self.at, end))
        self._curve(first, second, end)
        self._handle = ("Q", handle)

    def _mirrored(self, sort: str) -> Point:
        """The last handle of the same sort of curve on the other side; without one, the place itself."""
        known, (x, y) = self._handle
        return (2 * self.at[0] - x, 2 * self.at[1] - y) if known == sort else self.at


def _between(end: Point, handle: Point) -> Point:
    """The handle of a cubic curve that is this quadratic one."""
    return end[0] + 2 / 3 * (handle[0] - end[0]), end[1] + 2 / 3 * (handle[1] - end[1])


def arc(
    start: Point, rx: float, ry: float, turn: float, end: Point, *, large: bool, sweep: bool
) -> list[tuple[Point, Point, Point]]:
    """An elliptical arc as curves of a quarter or less (W3C SVG 2, B.2.4 and B.2.5)."""
    cos_t, sin_t = cos(radians(turn)), sin(radians(turn))
    half_x, half_y = (start[0] - end[0]) / 2, (start[1] - end[1]) / 2
    x, y = cos_t * half_x + sin_t * half_y, cos_t * half_y - sin_t * half_x
    # Radii that do not reach are made just long enough.
    grown = max(1.0, hypot(x / rx, y / ry))
    rx, ry = rx * grown, ry * grown
    ux, uy = x / rx, y / ry
    square = ux * ux + uy * uy
    if not square:
        return [(start, end, end)]
    off = sqrt(max(0.0, 1 / square - 1)) * (-1 if large == sweep else 1)
    cx, cy = off * uy, -off * ux  # the middle, in radii
    begin = atan2(uy - cy, ux - cx)
    swept = atan2(-uy - cy, -ux - cx) - begin
    if sweep and swept < 0:
        swept += 2 * pi
    elif not sweep and swept > 0:
        swept -= 2 * pi
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)

    def place(u: float, v: float) -> Point:
        px, py = (u + cx) * rx, (v + cy) * ry
        return cos_t * px - sin_t * py + middle[0], sin_t * px + cos_t * py + middle[1]

    pieces = max(1, ceil(abs(swept) / (pi / 2) - 1e-9))
    step = swept / pieces
    reach = 4 / 3 * tan(step / 4)
    curves = []
    for piece in range(pieces):
        one, two = begin + piece * step, begin + (piece + 1) * step
        first = place(cos(one) - reach * sin(one), sin(one) + reach * cos(one))
        second = place(cos(two) + reach * sin(two), sin(two) - reach * cos(two))
        stop = end if piece == pieces - 1 else place(cos(two), sin(two))
        curves.append((first, second, stop))
    return curves
