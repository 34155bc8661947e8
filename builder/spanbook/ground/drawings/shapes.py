"""The shapes of a drawing that are no paths, as steps of one (W3C SVG 2, chapter 10)."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from spanbook.ground.drawings.numbers import NoNumber, Numbers, length
from spanbook.ground.drawings.paths import Point, Step, arc, path

Attributes = Mapping[str, str]


def shape(name: str, given: Attributes, most: int) -> list[Step]:
    """What an element draws: nothing for a shape without extent. Raises NoNumber."""
    if name == "path":
        return path(given.get("d", ""), most)
    return _SHAPES[name](given)


def _line(given: Attributes) -> list[Step]:
    x1, y1, x2, y2 = (length(given.get(key)) for key in ("x1", "y1", "x2", "y2"))
    return [("M", ((x1, y1),)), ("L", ((x2, y2),))]


def _polyline(given: Attributes) -> list[Step]:
    numbers = Numbers(given.get("points", "")).all()
    if len(numbers) % 2:
        raise NoNumber(given["points"][-20:])
    points = list(zip(numbers[::2], numbers[1::2], strict=True))
    return [("L" if i else "M", (point,)) for i, point in enumerate(points)]


def _polygon(given: Attributes) -> list[Step]:
    around = _polyline(given)
    return [*around, ("Z", ())] if around else []


def _rect(given: Attributes) -> list[Step]:
    x, y, width, height = (length(given.get(key)) for key in ("x", "y", "width", "height"))
    if width <= 0 or height <= 0:
        return []
    rx, ry = given.get("rx", given.get("ry")), given.get("ry", given.get("rx"))
    across, along = min(abs(length(rx)), width / 2), min(abs(length(ry)), height / 2)
    right, foot = x + width, y + height
    if not across or not along:
        return [*_through((x, y), (right, y), (right, foot), (x, foot)), ("Z", ())]
    corners = (
        ((right - across, y), (right, y + along)),
        ((right, foot - along), (right - across, foot)),
        ((x + across, foot), (x, foot - along)),
        ((x, y + along), (x + across, y)),
    )
    steps: list[Step] = [("M", ((x + across, y),))]
    for before, after in corners:
        steps.append(("L", (before,)))
        steps.extend(("C", c) for c in arc(before, across, along, 0, after, large=False, sweep=True))
    return [*steps, ("Z", ())]


def _circle(given: Attributes) -> list[Step]:
    radius = length(given.get("r"))
    return _round(given, radius, radius)


def _ellipse(given: Attributes) -> list[Step]:
    return _round(given, length(given.get("rx")), length(given.get("ry")))


def _round(given: Attributes, across: float, along: float) -> list[Step]:
    if across <= 0 or along <= 0:
        return []
    x, y = length(given.get("cx")), length(given.get("cy"))
    left, right = (x - across, y), (x + across, y)
    steps: list[Step] = [("M", (right,))]
    for start, end in ((right, left), (left, right)):
        steps.extend(("C", c) for c in arc(start, across, along, 0, end, large=False, sweep=True))
    return [*steps, ("Z", ())]


def _through(*points: Point) -> list[Step]:
    return [("L" if i else "M", (point,)) for i, point in enumerate(points)]


_SHAPES: Mapping[str, Callable[[Attributes], list[Step]]] = {
    "line": _line,
    "polyline": _polyline,
    "polygon": _polygon,
    "rect": _rect,
    "circle": _circle,
    "ellipse": _ellipse,
}
NAMES = frozenset({"path", *_SHAPES})
