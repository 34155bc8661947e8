"""The oil pumps and the strainers in the sump."""

from __future__ import annotations

from math import cos, radians, sin

from build123d import Box, Part, Pos, Rot, Sphere, Torus

from plates.coils import Tube, cable
from plates.laying import Row, one, row
from plates.plate import Line, Plate
from plates.shapes import (
    elbow,
    gear,
    holes,
    lying,
    obround,
    pipe,
    plate,
    prism,
    ring,
    rod,
    round_about,
    turned,
)
from plates.solids import Solid
from plates.view import View

LYING = View(-60, 30, 62)
UPRIGHT = View(-60, 24)
# Half of the distance between the two shafts.
APART = 17


def _two(part: Part) -> list[Part]:
    return [Pos(0, side * APART, 0) * part for side in (-1, 1)]


def _outline(thick: float, rim: float) -> Part:
    """The shape of the cover and the joint: round both gears, with an ear for each of five studs."""
    ears = [Pos(x, y, 0) * rod(8, thick) for x, y in _studs(rim)]
    return Rot(0, 0, 90) * obround(2 * APART + 2 * rim, 2 * rim, thick) + ears


def _studs(rim: float) -> list[tuple[float, float]]:
    return [(rim + 1, -APART), (rim + 1, APART), (-rim - 1, -APART), (-rim - 1, APART), (0, APART + rim + 1)]


def _bored(part: Part, rim: float, radius: float = 3.4) -> Part:
    return part - [Pos(x, y, -100) * rod(radius, 300) for x, y in _studs(rim)]


def _gear_pump(assembly: str, deep: float, numbers: tuple[str, str, str, str], stamped: bool) -> Plate:
    """Body, two gears, the shaft, a paper joint and a cover that five studs hold."""
    body_number, driving, driven, shaft_number = numbers
    body = (
        _outline(deep + 8, 24) + pipe(13, 8, 26, 0, deep / 2 + 4, 22) + pipe(13, 8, 26, 180, deep / 2 + 4, 22)
    )
    body -= [*(Pos(0, 0, 8) * part for part in _two(rod(18.6, deep + 1))), *_two(Pos(0, 0, -1) * rod(6, 20))]
    joint = _bored(_outline(1, 24), 24) - _two(Pos(0, 0, -1) * rod(18.6, 5))
    cover = _bored(_outline(8, 24), 24) + Pos(0, -APART, 8) * turned((0, 0), (15, 0), (13, 12), (0, 12))
    cover -= Pos(0, -APART, -1) * rod(6, 40)
    if stamped:
        cover -= Pos(0, 19, 7.2) * _letter_w()
    toothed = gear(11, 18, deep, 6)
    shaft = rod(5.8, deep + 86) + Pos(0, 0, deep + 70) * Box(3.4, 15, 26)
    laid = row(
        one(shaft_number, Solid(shaft), (0, -APART, 0)),
        one("WH-1224", Solid(cover)),
        one("WH-1225", Solid(joint)),
        one(driving, Solid(toothed), (0, -APART, 0))
        + one(driven, Solid(gear(11, 18, deep, 4.6)), (0, APART, 0)),
        one(body_number, Solid(_bored(body, 24, 2.8))),
        gap=[14, 26, 32, 38],
    )
    return Plate(assembly, laid.pieces, _both_axes(laid), LYING)


def _both_axes(laid: Row) -> tuple[Line, Line]:
    """Through the shaft, and through the driven gear as far as the parts that both go through."""
    ((_, _, low),) = (end for _, end in laid.axes)
    second = max(piece.at[2] for piece in laid.pieces if piece.at[1] > 0) + 30
    return ((0, -APART, 0), (0, -APART, low)), ((0, APART, second), (0, APART, low))


def _letter_w() -> list[Part]:
    strokes = [(-6, -1), (-2, 1), (2, -1), (6, 1)]
    return [Pos(x, 0, 0) * Rot(0, 0, 14 * lean) * Box(1.3, 14, 3) for x, lean in strokes]


def gear_pump_narrow() -> Plate:
    """Body 7/8 in. deep."""
    return _gear_pump("gear-pump-narrow", 22.2, ("WH-1221", "WH-1222", "WH-1223", "WH-1226"), stamped=False)


def gear_pump_wide() -> Plate:
    """Body 1 1/4 in. deep; W stamped on the cover."""
    return _gear_pump("gear-pump-wide", 31.8, ("WH-1231", "WH-1232", "WH-1233", "WH-1236"), stamped=True)


def d_gear_pump() -> Plate:
    """Pressure gears and, beyond a plate, the smaller scavenge gears on the same shaft."""
    deep, small = 26.0, 14.0
    body = _outline(deep + small + 18, 24) + pipe(13, 8, 26, 0, 24, 22) + pipe(13, 8, 26, 180, 24, 22)
    body -= [*(Pos(0, 0, 12) * part for part in _two(rod(18.6, 90))), *_two(Pos(0, 0, -1) * rod(6, 20))]
    between = (Rot(0, 0, 90) * obround(2 * APART + 37, 37, 5)) - _two(Pos(0, 0, -1) * rod(6.4, 10))
    pressure, scavenge = Solid(gear(11, 18, deep, 6)), Solid(gear(11, 18, small, 6))
    shaft = rod(5.8, deep + small + 100) + Pos(0, 0, 60) * rod(7.5, 5) + Pos(0, 0, 132) * Box(3.4, 15, 16)
    laid = row(
        one("WD-435", Solid(shaft), (0, -APART, 0)),
        one("WD-433", scavenge, (0, -APART, 0)) + one("WD-433", scavenge, (0, APART, 0)),
        one("WD-434", Solid(between)),
        one("WD-432", pressure, (0, -APART, 0)) + one("WD-432", pressure, (0, APART, 0)),
        one("WD-431", Solid(_bored(body, 24, 2.8))),
        gap=[16, 32, 34, 44],
    )
    return Plate("d-gear-pump", laid.pieces, _both_axes(laid), LYING)


def plunger_oil_pump() -> Plate:
    """An eccentric rod works a plunger in a brass body with a ball on a seat at either end."""
    strap = ring(36, 26, 14) + Pos(0, -34, 7) * Rot(90, 0, 0) * _eye_rod()
    strap += [Pos(side * 38, 0, 0) * plate(14, 16, 14) for side in (-1, 1)]
    plunger = rod(9, 62) + Pos(0, 0, 62) * plate(9, 16, 20) - Pos(-20, 0, 74) * lying(rod(3, 40))
    plunger -= [Pos(0, 0, z) * ring(10, 8.2, 1.6) for z in (8, 14)]
    body = turned((0, 0), (24, 0), (24, 8), (17, 12), (17, 66), (20, 66), (20, 78), (0, 78)) - Pos(
        0, 0, 14
    ) * rod(9.3, 90)
    body += [Pos(0, 0, 30) * Rot(0, 0, turn) * _chest() for turn in (-15, 165)]
    ball, seat = Solid(Pos(0, 0, 4.8) * Sphere(4.8)), Solid(turned((3, 0), (8, 0), (8, 6), (6, 6), (3, 3)))
    standing = Solid(Rot(0, 0, -25) * Rot(90, 0, 0) * strap)
    pin = _split_pin()
    laid = row(
        one("WH-1213", standing),
        one("WH-1212", Solid(plunger)),
        one("WH-1211", Solid(body)),
        gap=[10, 16],
    )
    out = 26.0
    sides = []
    for turn in (-15, 165):
        x, y = out * cos(radians(turn)), out * sin(radians(turn))
        sides.append(row(one("WH-1214", ball), one("WH-1215", seat), start=(x, y, -205), gap=10))
    pinned = one("WH-40", pin, (26, -14, -112))
    pieces = laid.pieces + sides[0].pieces + sides[1].pieces + pinned
    return Plate("plunger-oil-pump", pieces, laid.axes + sides[0].axes + sides[1].axes, UPRIGHT)


def _eye_rod() -> Part:
    eye = Pos(-5, 0, 52) * lying(rod(9, 10)) - Pos(-20, 0, 52) * lying(rod(3, 40))
    return rod(5.5, 46) + eye


def _chest() -> Part:
    """A valve chest on the side of a body, open at the top."""
    return Pos(26, 0, -16) * (rod(13, 34) - Pos(0, 0, 12) * rod(9, 40)) + Pos(10, 0, -6) * plate(20, 14, 14)


def _split_pin() -> Tube:
    eye = [(-3.0, 0.0, 0.0), (-7.0, 0.0, 3.0), (-11.0, 0.0, 0.0), (-7.0, 0.0, -3.0), (-3.0, 0.0, -1.2)]
    return cable([(24, 0, 1), (10, 0, 0.9), *eye, (10, 0, -1.1), (22, 0, -1.2)], 1.7)


def gauze_sump_strainer() -> Plate:
    """A gauze cap over the end of the suction pipe; a copper washer on each side of its shoulder."""
    cap = ring(36, 33, 8) + Pos(0, 0, 36) * (ring(36, 9, 4))
    cap += round_about(Pos(0, 0, 6) * rod(0.9, 32), 30, 34.5, 0)
    cap += [Pos(0, 0, z) * Torus(34.5, 0.9) for z in (12, 18, 24, 30)]
    suction = rod(8, 60) + Pos(0, 0, 26) * prism(6, 24, 8) - Pos(0, 0, -1) * rod(5.5, 90)
    bend = Pos(0, 0, 60) * Rot(0, 0, 20) * elbow(8, 5.5, 26)
    washer = Solid(ring(14, 8.6, 2))
    laid = row(
        one("WH-1242", Solid(suction + bend)),
        one("WH-51", washer),
        one("WH-1241", Solid(cap)),
        one("WH-51", washer),
        gap=[10, 12, 12],
    )
    return Plate("gauze-sump-strainer", laid.pieces, laid.axes, UPRIGHT)


def d_sump_strainer() -> Plate:
    """A box of gauze with a bar magnet across it, below the suction bend."""
    box = plate(110, 64, 30) - Pos(0, 0, 3) * plate(106, 60, 40)
    windows = [
        Pos(x, -40, 6) * plate(7, 200, 4.4).moved(Pos(0, 0, z))
        for x in range(-44, 45, 11)
        for z in (0, 6.4, 12.8)
    ]
    ends = [
        Pos(0, y, 6) * plate(200, 7, 4.4).moved(Pos(0, 0, z))
        for y in (-22, -11, 0, 11, 22)
        for z in (0, 6.4, 12.8)
    ]
    box = box - windows - ends
    box += Pos(0, 0, 27) * (plate(122, 76, 3) - plate(106, 60, 9))
    magnet = plate(100, 14, 12)
    bend = (
        rod(15, 30)
        - rod(11, 90)
        + Pos(0, 0, 30) * elbow(15, 11, 34)
        + holes(plate(122, 76, 5), 4, 62, 2.6, 29)
        - rod(11, 90)
    )
    laid = row(
        one("WD-443", Solid(bend)),
        one("WD-442", Solid(magnet)),
        one("WD-441", Solid(box)),
        gap=[26, 26],
    )
    return Plate("d-sump-strainer", laid.pieces, laid.axes, UPRIGHT)
