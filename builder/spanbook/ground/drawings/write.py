"""Drawings in our own form: path data, as few letters as it takes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby

from spanbook.ground.drawings.drawing import Drawing, Pen, Segment

# Shapes of these pens cover nothing, so that neighbours may be one path.
_COVERS_NOTHING = (Pen.LINE, Pen.DASHED)


def paths(drawing: Drawing) -> Iterator[tuple[Pen, bool, str]]:
    """The pen, whether filled evenodd, and the path data of each path, in the order of drawing."""
    for (pen, odd), strokes in groupby(drawing.strokes, lambda stroke: (stroke.pen, stroke.odd)):
        if pen in _COVERS_NOTHING:
            yield pen, False, "".join(data(stroke.segments) for stroke in strokes)
        else:
            yield from ((pen, odd, data(stroke.segments)) for stroke in strokes)


def data(segments: Iterable[Segment]) -> str:
    """Path data, each point from where the one before ended; a letter that goes on is not said again."""
    made = ""
    at = start = (0, 0)
    before = ""
    for letter, flat in segments:
        if letter == "Z":
            made += "z"
            at = start
        elif letter == "M":
            made += f"M{flat[0]} {flat[1]}"
            at = start = (flat[0], flat[1])
        else:
            made += "" if letter == before else letter.lower()
            for i, value in enumerate(flat):
                moved = value - at[i % 2]
                # A sign parts two numbers as well as a space does.
                made += str(moved) if moved < 0 or made[-1].isalpha() else f" {moved}"
            at = (flat[-2], flat[-1])
        before = letter
    return made
