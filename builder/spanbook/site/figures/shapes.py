"""The shapes of parts as line drawings: each a few strokes in a box of its own, seen a little from above.

A stroke is a path of SVG (moves, lines, arcs); what is filled hides what lies behind it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from spanbook.reading.records import Shape

_TILT = 0.14  # how high an ellipse is for its width


@dataclass(frozen=True, slots=True)
class Stroke:
    """A path, and whether it is the outline of something solid."""

    d: str
    solid: bool = False


@dataclass(frozen=True, slots=True)
class Box:
    """Where a shape goes: its middle, its top, its width and its height."""

    x: float
    top: float
    width: float
    height: float

    @property
    def left(self) -> float:
        return self.x - self.width / 2

    @property
    def right(self) -> float:
        return self.x + self.width / 2

    @property
    def foot(self) -> float:
        return self.top + self.height

    @property
    def tilt(self) -> float:
        """Half the height of the ellipse at either end."""
        return min(self.width * _TILT, self.height * 0.4)

    def part(self, top: float, height: float, width: float = 1.0) -> Box:
        """A box inside this one, by shares of its height and width."""
        return Box(self.x, self.top + self.height * top, self.width * width, self.height * height)


# How wide and high a shape is, of the widest, where nobody has measured it.
USUAL: Mapping[Shape, tuple[float, float]] = {
    "bolt": (0.28, 0.8),
    "stud": (0.12, 0.6),
    "nut": (0.24, 0.18),
    "washer": (0.3, 0.08),
    "ring": (0.8, 0.14),
    "circlip": (0.5, 0.1),
    "disc": (0.8, 0.1),
    "plug": (0.3, 0.24),
    "ball": (0.18, 0.18),
    "spring": (0.3, 0.5),
    "cylinder": (0.6, 0.6),
    "pleated": (0.8, 1.0),
    "bowl": (1.0, 0.9),
    "lid": (1.0, 0.25),
    "body": (1.0, 0.6),
    "gear": (0.6, 0.3),
    "shaft": (0.16, 1.0),
    "tube": (0.3, 0.8),
    "key": (0.1, 0.3),
    "bearing": (0.6, 0.2),
}


def strokes(shape: Shape, box: Box) -> tuple[Stroke, ...]:
    """A shape drawn into its box."""
    return tuple(_DRAWN[shape](box))


def _n(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")


def _ellipse(x: float, y: float, rx: float, ry: float) -> str:
    a, b, w = _n(rx), _n(ry), _n(2 * rx)
    return f"M{_n(x - rx)} {_n(y)}a{a} {b} 0 1 0 {w} 0a{a} {b} 0 1 0 -{w} 0Z"


def _rectangle(box: Box) -> str:
    return f"M{_n(box.left)} {_n(box.top)}h{_n(box.width)}v{_n(box.height)}h-{_n(box.width)}Z"


def _can(box: Box) -> Iterator[Stroke]:
    """A round thing on its end: its side, then its top."""
    tilt, half, side = box.tilt, _n(box.width / 2), _n(box.height - 2 * box.tilt)
    yield Stroke(
        f"M{_n(box.left)} {_n(box.top + tilt)}v{side}a{half} {_n(tilt)} 0 0 0 {_n(box.width)} 0v-{side}Z",
        solid=True,
    )
    yield Stroke(_ellipse(box.x, box.top + tilt, box.width / 2, tilt), solid=True)


def _hole(box: Box, share: float) -> Stroke:
    return Stroke(_ellipse(box.x, box.top + box.tilt, box.width * share / 2, box.tilt * share))


def _with_hole(share: float) -> Callable[[Box], Iterator[Stroke]]:
    def draw(box: Box) -> Iterator[Stroke]:
        yield from _can(box)
        yield _hole(box, share)

    return draw


def _lines(box: Box, count: int) -> Stroke:
    """Upright lines down the side, closer towards the edges as on anything round."""
    places = [box.x + box.width / 2 * (2 * k / (count + 1) - 1) for k in range(1, count + 1)]
    drop = box.height - 2 * box.tilt
    return Stroke(
        "".join(f"M{_n(at)} {_n(box.top + box.tilt + _bulge(box, at))}v{_n(drop)}" for at in places)
    )


def _bulge(box: Box, at: float) -> float:
    """How far the rim at a place comes down over its middle."""
    off = (at - box.x) / (box.width / 2)
    return float(box.tilt * (1 - off * off) ** 0.5)


def _pleated(box: Box) -> Iterator[Stroke]:
    yield from _can(box)
    yield _lines(box, 9)
    yield _hole(box, 0.3)


def _gear(box: Box) -> Iterator[Stroke]:
    yield from _can(box)
    yield _lines(box, 13)
    yield _hole(box, 0.35)


def _hexagon(box: Box) -> Iterator[Stroke]:
    """A hexagon's side: three flats, the middle one the widest."""
    edge = box.width / 4
    yield Stroke(_rectangle(box), solid=True)
    yield Stroke(
        "".join(f"M{_n(at)} {_n(box.top)}v{_n(box.height)}" for at in (box.left + edge, box.right - edge))
    )


def _thread(box: Box) -> Stroke:
    """Slanting lines across a shank."""
    rows = max(2, int(box.height / 5))
    step = box.height / (rows + 1)
    return Stroke(
        "".join(
            f"M{_n(box.left)} {_n(box.top + step * k)}l{_n(box.width)} {_n(step / 2)}"
            for k in range(1, rows + 1)
        )
    )


def _shank(box: Box) -> Iterator[Stroke]:
    yield Stroke(
        f"M{_n(box.left)} {_n(box.top)}v{_n(box.height)}h{_n(box.width)}v-{_n(box.height)}Z", solid=True
    )


def _bolt(box: Box) -> Iterator[Stroke]:
    yield from _shank(box.part(0.16, 0.84, 0.45))
    yield _thread(box.part(0.7, 0.28, 0.45))
    yield from _hexagon(box.part(0, 0.16))


def _plug(box: Box) -> Iterator[Stroke]:
    yield from _shank(box.part(0.5, 0.5, 0.7))
    yield _thread(box.part(0.55, 0.42, 0.7))
    yield from _hexagon(box.part(0, 0.5))


def _stud(box: Box) -> Iterator[Stroke]:
    yield from _shank(box)
    yield _thread(box.part(0.02, 0.25))
    yield _thread(box.part(0.72, 0.25))


def _nut(box: Box) -> Iterator[Stroke]:
    yield from _hexagon(box)


def _ball(box: Box) -> Iterator[Stroke]:
    radius = min(box.width, box.height) / 2
    yield Stroke(_ellipse(box.x, box.top + radius, radius, radius), solid=True)
    yield Stroke(_ellipse(box.x - radius / 3, box.top + radius * 0.65, radius / 5, radius / 5))


def _spring(box: Box) -> Iterator[Stroke]:
    turns = max(3, int(box.height / 9))
    step = box.height / turns
    path = f"M{_n(box.left)} {_n(box.top)}"
    for _ in range(turns):
        path += f"l{_n(box.width)} {_n(step / 2)}l-{_n(box.width)} {_n(step / 2)}"
    yield Stroke(path)


def _bowl(box: Box) -> Iterator[Stroke]:
    """Its mouth upwards and its foot round."""
    tilt, round_ = box.tilt, min(box.width / 4, box.height / 3)
    side = box.height - tilt - round_
    yield Stroke(
        f"M{_n(box.left)} {_n(box.top + tilt)}v{_n(side)}q0 {_n(round_)} {_n(round_)} {_n(round_)}"
        f"h{_n(box.width - 2 * round_)}q{_n(round_)} 0 {_n(round_)} -{_n(round_)}v-{_n(side)}Z",
        solid=True,
    )
    yield Stroke(_ellipse(box.x, box.top + tilt, box.width / 2, tilt), solid=True)
    yield Stroke(_ellipse(box.x, box.top + tilt, box.width * 0.43, tilt * 0.8))


def _lid(box: Box) -> Iterator[Stroke]:
    yield from _can(box.part(0.35, 0.65))
    yield from _can(box.part(0, 0.6, 0.3))


def _body(box: Box) -> Iterator[Stroke]:
    yield from _can(box)
    yield _hole(box, 0.45)
    port = min(box.width, box.height) * 0.13
    yield Stroke(_ellipse(box.x - box.width * 0.22, box.foot - box.tilt - 2 * port, port, port))


def _shaft(box: Box) -> Iterator[Stroke]:
    yield from _can(box)
    slot = box.part(0.1, 0.25, 0.3)
    yield Stroke(_rectangle(slot))


def _circlip(box: Box) -> Iterator[Stroke]:
    rx, ry = box.width / 2, max(box.tilt, 4)
    for share in (1.0, 0.78):
        a, b = rx * share, ry * share
        yield Stroke(
            f"M{_n(box.x - a * 0.3)} {_n(box.top + ry + b * 0.95)}"
            f"A{_n(a)} {_n(b)} 0 1 1 {_n(box.x + a * 0.3)} {_n(box.top + ry + b * 0.95)}"
        )


_DRAWN: Mapping[Shape, Callable[[Box], Iterator[Stroke]]] = {
    "bolt": _bolt,
    "stud": _stud,
    "nut": _nut,
    "washer": _with_hole(0.5),
    "ring": _with_hole(0.6),
    "circlip": _circlip,
    "disc": _can,
    "plug": _plug,
    "ball": _ball,
    "spring": _spring,
    "cylinder": _can,
    "pleated": _pleated,
    "bowl": _bowl,
    "lid": _lid,
    "body": _body,
    "gear": _gear,
    "shaft": _shaft,
    "tube": _with_hole(0.7),
    "key": _shank,
    "bearing": _with_hole(0.45),
}
