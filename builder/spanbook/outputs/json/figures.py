"""Photographs and drawings with the points in them, as JSON objects."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from spanbook.answers.pictured import Pictured
from spanbook.reading.files import DRAWING, DRAWINGS, PHOTOGRAPHS
from spanbook.reading.records import Point
from spanbook.register.model import Register

Object = dict[str, Any]


def figure_objects(register: Register, found: Iterable[Pictured]) -> list[Object]:
    """Each figure, its file below the folder of the records; points in thousandths of the upright picture."""
    return [
        {
            "file": f"{DRAWINGS if one.figure.file.endswith(DRAWING) else PHOTOGRAPHS}{one.figure.file}",
            "of": {"kind": one.record.kind, "id": one.record.id},
            "shows": one.figure.shows,
            "made-by": one.made_by,
            "licence": one.licence,
            "points": [_point(register, one, point) for point in one.figure.points],
        }
        for one in found
    ]


def _point(register: Register, one: Pictured, point: Point) -> Object:
    key = register.key_of(one.record, point.part) if point.part else None
    return {
        "x": point.x,
        "y": point.y,
        "number": register.parts[key].number if key else None,
        "by": key.by if key else None,
        "sign": point.sign,
        "shows": point.shows,
    }
