"""A drawing as a small picture of points: its lines dark, all else clear, to be turned light on dark."""

from __future__ import annotations

import io
from collections.abc import Iterator

from PIL import Image, ImageChops, ImageDraw

from spanbook.ground.drawings.drawing import LONG, Drawing, Pen, Segment, Stroke

_FINER = 3  # times as many points each way while it is drawn
_INK = (29, 36, 38)
_PIECES = 8  # straight pieces of a curve
_Points = list[tuple[float, float]]


def raster(drawing: Drawing, side: int) -> bytes:
    """A WebP whose longer side has that many points."""
    scale = side * _FINER / LONG
    size = size_at(drawing, side)
    fine = (size[0] * _FINER, size[1] * _FINER)
    ink = Image.new("L", fine)
    pen = ImageDraw.Draw(ink)
    for stroke in drawing.strokes:
        lines = [[(x * scale, y * scale) for x, y in line] for line in _lines(stroke)]
        if stroke.pen is Pen.INK:
            ink.paste(255, mask=_filled(fine, lines))
            continue
        for line in lines:
            if stroke.pen in (Pen.SOLID, Pen.BLANK) and len(line) > 2:
                pen.polygon(line, fill=0)
        for line in lines:
            if stroke.pen is not Pen.BLANK:
                pen.line(line, fill=255, width=_FINER, joint="curve")
    small = ink.resize(size, Image.Resampling.BOX)
    made = Image.new("RGB", small.size, _INK)
    made.putalpha(small)
    out = io.BytesIO()
    made.save(out, "WEBP", quality=60, alpha_quality=70, method=4)
    return out.getvalue()


def size_at(drawing: Drawing, side: int) -> tuple[int, int]:
    """Width and height of the picture whose longer side has that many points."""
    return max(1, round(drawing.width * side / LONG)), max(1, round(drawing.height * side / LONG))


def _filled(size: tuple[int, int], lines: list[_Points]) -> Image.Image:
    """What the lines enclose; what they enclose twice is outside again."""
    whole = Image.new("1", size)
    for line in lines:
        one = Image.new("1", size)
        if len(line) > 2:
            ImageDraw.Draw(one).polygon(line, fill=1)
        whole = ImageChops.logical_xor(whole, one)
    return whole


def _lines(stroke: Stroke) -> Iterator[_Points]:
    """The stroke in straight pieces, a list for each time that the pen is set down."""
    line: _Points = []
    for letter, flat in stroke.segments:
        if letter == "M":
            if len(line) > 1:
                yield line
            line = [(flat[0], flat[1])]
        elif letter == "Z":
            line.append(line[0])
            yield line
            line = [line[0]]
        else:
            line.extend(_pieces(line[-1], (letter, flat)))
    if len(line) > 1:
        yield line


def _pieces(start: tuple[float, float], segment: Segment) -> Iterator[tuple[float, float]]:
    letter, flat = segment
    if letter == "L":
        yield flat[0], flat[1]
        return
    points = [start, *zip(flat[::2], flat[1::2], strict=True)]
    for n in range(1, _PIECES + 1):
        t = n / _PIECES
        weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
        yield (
            sum(weight * x for weight, (x, _) in zip(weights, points, strict=True)),
            sum(weight * y for weight, (_, y) in zip(weights, points, strict=True)),
        )
