"""A line drawing: strokes in whole numbers on a sheet whose longer side is `LONG`."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

LONG = 5000


class Pen(StrEnum):
    """How a stroke is drawn.

    line: its outline. dashed: the same in dashes. solid: its outline, and it hides what lies below. blank: it
    only hides. ink: filled.
    """

    LINE = "line"
    DASHED = "dashed"
    SOLID = "solid"
    BLANK = "blank"
    INK = "ink"


# M and L with a point, C with two handles and a point, Z with nothing.
Segment = tuple[str, tuple[int, ...]]


@dataclass(frozen=True, slots=True)
class Stroke:
    """One shape. `odd` where what it encloses twice is outside again (SVG's evenodd)."""

    pen: Pen
    odd: bool
    segments: tuple[Segment, ...]


@dataclass(frozen=True, slots=True)
class Drawing:
    """Strokes in the order in which they were drawn; `left` names what was in the file and is not taken."""

    width: int
    height: int
    strokes: tuple[Stroke, ...]
    left: tuple[str, ...]
