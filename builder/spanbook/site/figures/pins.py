"""Where the pins of a figure stand: in the margins beside the picture, none on another, each with a leader.

Everything is laid out for the narrowest telephone, where a pin takes the most room, and then given in
hundredths of the whole, so that a larger picture has its pins farther apart and never nearer.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

MOST = 60  # points of a figure, as its schema says
NARROW = 288  # pixels for a figure on a telephone 320 wide
PIN = 24  # the least that a finger meets (W3C WCAG 2.2, 2.5.8)
APART = PIN + 3
MARGIN = 32
TALLEST = 560  # pixels of a picture on a telephone
_WIDEST, _HIGHEST = 640, 760  # pixels of a figure where there is room
_MIDDLE = (0.4, 0.6)  # what lies between may go to either side


@dataclass(frozen=True, slots=True)
class Spot:
    """A place in a picture, in shares of its width and height, and the line of the list that it is for."""

    line: int
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Pin:
    """From the spot at (x, y) to the pin at (at_x, at_y), in hundredths of the sheet."""

    line: int
    x: float
    y: float
    at_x: float
    at_y: float


@dataclass(frozen=True, slots=True)
class Sheet:
    """A picture with its margins, in pixels where there is room.

    `box` is where the picture is on it: from the left and from above, its width and its height.
    """

    width: int
    height: int
    box: tuple[int, ...]
    pins: tuple[Pin, ...]


def sheet(width: int, height: int, spots: Iterable[Spot]) -> Sheet:
    """A picture of that width and height with its pins."""
    left, right = _sides(list(spots))
    margins = MARGIN * (bool(left) + bool(right))
    across = min(NARROW - margins, TALLEST * width / height)
    along = across * height / width
    most = max(len(left), len(right))
    whole = max(along, most * APART)
    top = (whole - along) / 2
    wide = across + margins
    begins = MARGIN if left else 0
    pins = [
        Pin(
            spot.line,
            100 * (begins + spot.x * across) / wide,
            100 * (top + spot.y * along) / whole,
            100 * at_x / wide,
            100 * at_y / whole,
        )
        for side, at_x in ((left, PIN / 2 + 1), (right, wide - PIN / 2 - 1))
        for spot, at_y in _spread(side, [top + spot.y * along for spot in side], whole)
    ]
    scale = max(1.0, min(_WIDEST / wide, _HIGHEST / whole))
    box = (round(scale * length) for length in (begins, top, across, along))
    return Sheet(round(scale * wide), round(scale * whole), tuple(box), tuple(pins))


def _sides(spots: list[Spot]) -> tuple[list[Spot], list[Spot]]:
    """What is pinned on the left and on the right, each from above down."""
    left = [spot for spot in spots if spot.x < _MIDDLE[0]]
    right = [spot for spot in spots if spot.x > _MIDDLE[1]]
    either = [spot for spot in spots if _MIDDLE[0] <= spot.x <= _MIDDLE[1]]
    for spot in sorted(either, key=lambda spot: spot.y):
        (left if len(left) < len(right) else right).append(spot)
    # A side that has many more gives away what lies nearest to the other.
    while abs(len(left) - len(right)) > max(2, len(spots) // 3):
        if len(left) > len(right):
            right.append(left.pop(left.index(max(left, key=lambda spot: spot.x))))
        else:
            left.append(right.pop(right.index(min(right, key=lambda spot: spot.x))))
    return sorted(left, key=_down), sorted(right, key=_down)


def _down(spot: Spot) -> tuple[float, float]:
    return spot.y, spot.x


def _spread(spots: list[Spot], wanted: list[float], whole: float) -> list[tuple[Spot, float]]:
    """Each spot's pin beside it where there is room, else as near as the others leave."""
    at: list[float] = []
    for place in wanted:
        at.append(max(place, PIN / 2, at[-1] + APART if at else 0))
    foot = whole - PIN / 2
    for i in reversed(range(len(at))):
        at[i] = min(at[i], foot)
        foot = at[i] - APART
    return list(zip(spots, at, strict=True))
