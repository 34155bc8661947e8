"""Breathers and inspection doors."""

from __future__ import annotations

from math import cos, radians, sin

import numpy as np
from build123d import Box, Part, Pos, Rot, Torus

from plates.coils import Tube
from plates.laying import circle, one, row
from plates.plate import Group, Piece, Plate, Shape
from plates.shapes import (
    holes,
    lying,
    nut,
    obround,
    open_front,
    plate,
    ring,
    rod,
    round_about,
    turned,
)
from plates.solids import Solid
from plates.view import View

VIEW = View(-62, 24)
LYING = View(-66, 34, 62)


def mushroom_breather() -> Plate:
    """A brass mushroom with three holes under the rim; horsehair inside."""
    cap = turned((0, 22), (16, 20), (36, 10), (40, 0), (40, -9), (37, -9), (37, 0), (14, 16), (0, 18))
    body = turned((0, 0), (30, 0), (30, 7), (18, 10), (18, 30), (23, 36), (23, 66), (0, 66))
    body -= Pos(0, 0, 40) * rod(20, 60) + Pos(0, 0, -1) * rod(13, 90)
    body -= round_about(Pos(-20, 0, 54) * lying(rod(4, 40)), 3, 20, VIEW.round + 12)
    body = holes(body, 3, 26.5, 2.4, 20)
    laid = row(
        one("WH-1301", Solid(cap)),
        one("WH-1303", _horsehair(19, 16)),
        one("WH-1302", Solid(body)),
        gap=[14, 16],
    )
    return Plate("mushroom-breather", laid.pieces, laid.axes, VIEW)


def _horsehair(radius: float, tall: float) -> Tube:
    """A pad of curled hair: one strand laid round and round, up and down."""
    t = np.linspace(0, 2 * np.pi * 7, 900)
    r = radius * (0.72 + 0.28 * np.sin(t * 2.71))
    return Tube(np.stack([r * np.cos(t), r * np.sin(t), tall / 2 * (1 + np.sin(t * 3.3))], axis=1), 2.6)


def _bent_pipe(radius: float, bore: float, tall: float, bend: float, end: float, towards: float) -> Part:
    """Upright, then a quarter of a bend, then level for so far."""
    quarter = Pos(-500, 0, 500) * Box(1000, 1000, 1000)
    tube = Rot(90, 0, 0) * (Torus(bend, radius) - Torus(bend, bore))
    bent = Pos(bend, 0, tall) * (tube & quarter)
    level = Pos(bend, 0, tall + bend) * lying(ring(radius, bore, end))
    return Rot(0, 0, towards) * (ring(radius, bore, tall) + bent + level)


def _flange() -> Part:
    return holes(turned((19.4, 0), (44, 0), (44, 6), (25, 6), (25, 16), (19.4, 16)), 6, 35, 3.6, 0)


def _flange_gasket() -> Part:
    return holes(ring(44, 19, 1.4), 6, 35, 3.6, 0)


def baffle_breather() -> Plate:
    """The pipe is cut open below: three baffles, each open on the other side."""
    tall = 132
    upright = ring(19, 16.5, tall)
    baffles = [
        Pos(0, 0, 26 + 30 * at) * (rod(17, 2) - Pos(side * 17, 0, -1) * plate(22, 60, 6))
        for at, side in enumerate((1, -1, 1))
    ]
    cut, planes = open_front(upright + [Rot(0, 0, 28) * each for each in baffles], VIEW.round + 25, 110)
    closed = Pos(0, 0, tall) * _bent_pipe(19, 16.5, 6, 30, 26, 2)
    laid = row(
        circle("WH-32", Solid(nut(11, 6, 6)), 6, 35, 0),
        one("WH-1312", Solid(_flange())),
        one("WH-1313", Solid(_flange_gasket())),
        start=(0, 0, -tall - 20),
        gap=[12, 12],
    )
    pipe = one("WH-1311", Solid(cut + closed, planes), (0, 0, -tall - 6))
    return Plate("baffle-breather", pipe + laid.pieces, laid.axes, VIEW)


def closed_breather() -> Plate:
    """A pipe from the crankcase to the carburettor's elbow, with a flap valve between."""
    pipe = _bent_pipe(17, 14, 96, 34, 70, 4) + Pos(0, 0, 8) * ring(20, 14, 5)
    elbow = _bent_pipe(20, 16, 30, 30, 14, 205) + holes(obround(74, 44, 6), 2, 29, 3.2, 0) - rod(16, 30)
    laid = row(
        one("WH-1321", Solid(pipe)),
        one("WH-1322", Solid(ring(24, 14, 4) + Pos(0, 0, 4) * _flap())),
        one("WH-1312", Solid(_flange())),
        one("WH-1313", Solid(_flange_gasket())),
        gap=[14, 14, 12],
    )
    x, y = cos(radians(4)), sin(radians(4))
    out = one("WH-1324", Solid(Rot(0, 0, 4) * Rot(0, 90, 0) * elbow), (x * 130, y * 130, -58))
    axis = ((x * 100, y * 100, -17 - 47.0), (x * 160, y * 160, -17 - 47.0))
    return Plate("closed-breather", laid.pieces + out, (*laid.axes, axis), VIEW)


def _flap() -> Part:
    """A hinged disc, half open."""
    hinge = Pos(-17, -9, 3) * Rot(-90, 0, 0) * rod(2.4, 18)
    return Pos(-17, 0, 3) * Rot(0, -35, 0) * Pos(17, 0, 0) * rod(15, 2) + hinge


def _door(long: float, wide: float, thick: float) -> Part:
    return obround(long, wide, thick) + Pos(0, 0, thick) * (
        obround(long - 26, wide - 26, 5) - obround(long - 34, wide - 34, 20)
    )


def _studs(number: str, shape: Shape, places: list[tuple[float, float]]) -> Group:
    return tuple(Piece(number, shape, (x, y, 0)) for x, y in places)


def two_nut_door() -> Plate:
    """A bar across the door, with a nut at each end."""
    door = obround(150, 104, 7) + Pos(0, 0, 7) * plate(20, 30, 6)
    bar = plate(26, 150, 12) + Pos(0, 0, 6) * rod(17, 12) - [Pos(0, y, -1) * rod(5.4, 40) for y in (-64, 64)]
    gasket = obround(150, 104, 2) - Pos(0, 0, -1) * obround(118, 72, 9)
    places = [(0.0, -64.0), (0.0, 64.0)]
    laid = row(
        _studs("WH-33", Solid(nut(17, 9, 9.5)), places),
        one("WH-1332", Solid(bar)),
        one("WH-1331", Solid(door)),
        one("WH-1333", Solid(gasket)),
        gap=[14, 22, 20],
    )
    return Plate("two-nut-door", laid.pieces, laid.axes, LYING)


def _six() -> list[tuple[float, float]]:
    return [(x, y) for x in (-44.0, 44.0) for y in (-44.0, 44.0)] + [(-68.0, 0.0), (68.0, 0.0)]


def _drilled(part: Part, places: list[tuple[float, float]], radius: float) -> Part:
    return part - [Pos(x, y, -50) * rod(radius, 200) for x, y in places]


def six_nut_door() -> Plate:
    """Six nuts on spring washers round the edge, and no bar."""
    places = _six()
    door = _drilled(obround(158, 108, 7), places, 4.3) + Pos(0, 0, 7) * obround(84, 50, 5)
    gasket = _drilled(obround(158, 108, 2) - Pos(0, 0, -1) * obround(112, 68, 9), places, 4.3)
    washer = ring(8, 4.4, 2.2) - Pos(6, 0, -1) * Rot(0, 0, 20) * plate(9, 1.1, 9)
    laid = row(
        _studs("WH-31", Solid(nut(13, 7, 7.4)), places),
        _studs("WH-35", Solid(washer), places),
        one("WH-1341", Solid(door)),
        one("WH-1343", Solid(gasket)),
        gap=[12, 14, 20],
    )
    return Plate("six-nut-door", laid.pieces, laid.axes, LYING)


def d_plated_door() -> Plate:
    """A cast number plate in the middle, eight nuts."""
    places = [(x, y) for x in (-82.0, -28.0, 28.0, 82.0) for y in (-44.0, 44.0)]
    edge = plate(190, 112, 8)
    door = _drilled(edge, places, 5) + Pos(0, 0, 8) * (plate(78, 42, 4) - Pos(0, 0, 2) * plate(70, 34, 9))
    gasket = _drilled(plate(190, 112, 2) - Pos(0, 0, -1) * plate(146, 66, 9), places, 5)
    laid = row(
        _studs("WH-33", Solid(nut(16, 8, 9)), places),
        one("WD-471", Solid(door)),
        one("WD-472", Solid(gasket)),
        gap=[18, 22],
    )
    return Plate("d-plated-door", laid.pieces, laid.axes, LYING)
