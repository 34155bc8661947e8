"""Water pumps, coolers and the thermostat."""

from __future__ import annotations

from math import cos, radians, sin

from build123d import Box, Part, Pos, Rot, Torus

from plates.coils import cable
from plates.laying import circle, one, row
from plates.plate import Plate
from plates.shapes import (
    ball_bearing,
    gear,
    holes,
    lying,
    obround,
    open_front,
    pipe,
    plate,
    prism,
    ring,
    rod,
    round_about,
    threaded,
    turned,
)
from plates.solids import Solid
from plates.view import View

VIEW = View(-62, 24)
LYING = View(-60, 32, 62)


def plunger_water_pump() -> Plate:
    """A long plunger through its gland; two valve chests with hexagon caps."""
    body = turned((0, 0), (20, 0), (22, 4), (22, 104), (26, 104), (26, 116), (0, 116)) - Pos(0, 0, 12) * rod(
        12.4, 200
    )
    body += [Pos(0, 0, 40) * Rot(0, 0, turn) * _chest() for turn in (28, 208)]
    plunger = rod(12, 130) + Pos(0, 0, 130) * rod(7, 12) + Pos(0, 0, 142) * plate(9, 20, 22)
    plunger -= Pos(-30, 0, 153) * lying(rod(4, 60))
    packing = Solid(
        Pos(0, 0, 5) * Torus(15.5, 3.2) + Pos(0, 0, 11) * Torus(15.5, 3.2) + Pos(0, 0, 17) * Torus(15.5, 3.2)
    )
    laid = row(
        one("WH-1502", Solid(plunger)),
        one("WH-1504", packing),
        one("WH-1501", Solid(body)),
        gap=[12, 14],
    )
    valve = turned((0, 0), (9, 0), (11, 2), (11, 5), (3, 6), (3, 20), (0, 20))
    cap = prism(6, 30, 9) + Pos(0, 0, 9) * rod(9, 3) + Pos(0, 0, -9) * threaded(12, 9, 1.8)
    sides = []
    for turn in (28, 208):
        x, y = 40 * cos(radians(turn)), 40 * sin(radians(turn))
        bottom = laid.axes[0][1][2]
        sides.append(
            row(one("WH-1505", Solid(cap)), one("WH-1503", Solid(valve)), start=(x, y, bottom + 150), gap=9)
        )
    return Plate(
        "plunger-water-pump",
        laid.pieces + sides[0].pieces + sides[1].pieces,
        laid.axes + sides[0].axes + sides[1].axes,
        VIEW,
    )


def _chest() -> Part:
    """A valve chest, open above, with its pipe below."""
    return Pos(40, 0, -22) * (rod(16, 50) + Pos(0, 0, -18) * rod(9, 18) - Pos(0, 0, 14) * rod(12, 60)) + Pos(
        16, 0, -12
    ) * plate(34, 18, 20)


def _screw(radius: float, length: float) -> Part:
    head = turned((0, 0), (radius * 1.9, 0), (radius * 1.6, 3.2), (0, 4)) - Pos(0, 0, 3.4) * plate(40, 1.2, 3)
    return head + Pos(0, 0, -length) * threaded(radius, length, 1.4)


def rubber_impeller_pump() -> Plate:
    """Six small screws, the cover, the rubber wheel, the body and its shaft."""
    body = (
        rod(44, 34)
        - Pos(0, 0, 6) * rod(36, 60)
        + Pos(14, 0, 6) * (rod(22, 24) & Pos(24, 0, 0) * plate(16, 60, 24))
    )
    body += Pos(0, 0, -34) * turned((0, 0), (15, 0), (18, 34), (0, 34))
    body += [pipe(13, 9, 26, turn, 20, 40) for turn in (100, 190)]
    body = holes(body, 6, 40, 1.9, 0) - Pos(0, 0, -60) * rod(7, 120)
    vane = Pos(17, 0, 0) * plate(24, 4, 24) + Pos(29, 0, 0) * rod(3.4, 24)
    impeller = rod(13, 24) + round_about(vane, 6, 3, 10) - Pos(0, 0, -1) * rod(6.5, 40)
    shaft = rod(6.4, 120) - Pos(0, 7, 96) * Box(40, 3, 26)
    laid = row(
        circle("WH-1524", Solid(_screw(2, 12)), 6, 40, 0),
        one("WH-1523", Solid(holes(rod(44, 4), 6, 40, 2.3, 0))),
        one("R6", Solid(impeller)),
        one("WH-1521", Solid(body)),
        one("WH-1513", Solid(Rot(180, 0, 0) * shaft)),
        gap=[18, 34, 36, 24],
    )
    return Plate("rubber-impeller-pump", laid.pieces, laid.axes, LYING)


def gear_water_pump() -> Plate:
    """A flat round body with a greaser on top; two bronze gears, one on the shaft."""
    apart = 15
    body = rod(46, 32) - [Pos(0, side * apart, 8) * rod(16.6, 60) for side in (-1, 1)]
    body += [pipe(12, 8, 22, turn, 16, 42) for turn in (0, 180)]
    body += pipe(8, 4, 12, -90, 18, 42)
    body = holes(body, 6, 40, 2.6, 30) - Pos(0, -apart, -10) * rod(6.6, 100)
    joint = holes(rod(46, 1.2), 6, 40, 2.6, 30) - [
        Pos(0, side * apart, -1) * rod(16.6, 6) for side in (-1, 1)
    ]
    toothed = Solid(gear(10, 16, 22, 6.4))
    shaft = rod(6.4, 110) - Pos(0, 7, 86) * Box(40, 3, 26)
    greaser = (
        rod(5, 12)
        + Pos(0, 0, 12) * prism(6, 14, 5)
        + Pos(0, 0, 17) * turned((0, 0), (12, 0), (12, 16), (9, 20), (0, 20))
    )
    greaser += Pos(0, 0, 37) * (obround(34, 8, 5))
    laid = row(
        one("WH-1513", Solid(shaft), (0, -apart, 0)),
        one("WH-1515", Solid(joint)),
        one("WH-1512", toothed, (0, -apart, 0)) + one("WH-1512", toothed, (0, apart, 0)),
        one("WH-1511", Solid(body)),
        gap=[16, 34, 40],
    )
    z = laid.axes[0][1][2] + 18
    top = row(one("G4", Solid(Rot(90, 0, 0) * greaser)), along=(0, -1, 0), start=(0, -66, z))
    second = max(piece.at[2] for piece in laid.pieces if piece.at[1] > 0) + 40
    (_, (_, _, low)), *_ = laid.axes
    axes = (
        ((0, -apart, 0), (0, -apart, low)),
        ((0, apart, second), (0, apart, low)),
        ((0, -46, z), (0, -110, z)),
    )
    return Plate("gear-water-pump", laid.pieces + top.pieces, axes, LYING)


def d_centrifugal_pump() -> Plate:
    """A snail-shaped volute, its joint, the rotor, the carbon ring and two bearings."""
    snail = rod(46, 36) + Pos(5, 4, 0) * rod(48, 36) + Pos(10, 10, 0) * rod(47, 36)
    snail += Pos(38, 50, 18) * Rot(-90, 0, 0) * ring(17, 12, 34) + Pos(38, 84, 18) * Rot(-90, 0, 0) * ring(
        24, 12, 6
    )
    snail += Pos(38, 30, 6) * plate(34, 44, 24)
    snail = snail - Pos(0, 0, 8) * rod(38, 60) - Pos(38, 40, 18) * Rot(-90, 0, 0) * rod(12, 80)
    snail += Pos(0, 0, -12) * ring(20, 14, 20)
    snail = holes(snail - Pos(0, 0, -20) * rod(14, 60), 6, 42, 2.6, 10)
    joint = holes(ring(46, 38, 1.2), 6, 42, 2.6, 10)
    vane = Pos(20, 0, 5) * Rot(0, 0, 35) * plate(26, 3, 16)
    rotor = rod(35, 5) + rod(11, 30) + round_about(vane, 6, 0, 0) - Pos(0, 0, -1) * rod(6.5, 60)
    bearing = Solid(ball_bearing(20, 8.5, 12))
    laid = row(
        one("A203", bearing),
        one("A203", bearing),
        one("WD-554", Solid(ring(15, 8, 9) + ring(18, 8, 3))),
        one("WD-552", Solid(Rot(180, 0, 0) * rotor)),
        one("WD-555", Solid(joint)),
        one("WD-551", Solid(snail)),
        gap=[12, 16, 18, 26, 34],
    )
    return Plate("d-centrifugal-pump", laid.pieces, laid.axes, LYING)


def tube_cooler() -> Plate:
    """The drum is cut open: the nest of tubes slides into it between two joints."""
    drum = ring(38, 35, 150) + [Pos(0, 0, z) * ring(46, 35, 6) for z in (0, 144)]
    drum += [pipe(10, 7, 24, turn, z, 34) for turn, z in ((150, 26), (150, 124))]
    cut, planes = open_front(drum, LYING.round + 25, 110)
    tubes = [Pos(x, y, 0) * rod(3.2, 176) for x, y in _nest(8.6, 27)]
    ends = [Pos(0, 0, z) * rod(32, 5) for z in (4, 86, 167)]
    joint = Solid(ring(46, 35, 2))
    laid = row(
        one("WH-1533", joint),
        one("WH-1532", Solid(ends[0] + ends[1:] + tubes)),
        one("WH-1531", Solid(cut, planes)),
        one("WH-1533", joint),
        gap=[30, 22, 30],
    )
    return Plate("tube-cooler", laid.pieces, laid.axes, LYING)


def _nest(apart: float, radius: float) -> list[tuple[float, float]]:
    grid = [(x * apart + (y % 2) * apart / 2, y * apart * 0.87) for x in range(-4, 5) for y in range(-4, 5)]
    return [(x, y) for x, y in grid if x * x + y * y < radius * radius]


def plate_cooler() -> Plate:
    """A stack of plates between two bars, with a strap round it."""
    sheet = [Pos(0, 0, at * 4) * plate(120, 70, 2.6) for at in range(14)]
    stack = sheet[0] + sheet[1:] + plate(112, 62, 54)
    stack += [Pos(x, 0, 54) * ring(10, 7, 14) for x in (-40, 40)]
    bar = plate(20, 104, 10) - [Pos(0, y, -1) * rod(4.4, 40) for y in (-44, 44)]
    strap = Box(136, 16, 96) - Box(131, 40, 91)
    strap -= Pos(0, 0, 48) * Box(24, 40, 12)
    strap += [Pos(side * 14, 0, 54) * Box(2.5, 16, 14) for side in (-1, 1)]
    laid = row(
        one("WH-1542", Solid(bar)),
        one("WH-1541", Solid(stack)),
        one("WH-1542", Solid(bar)),
        gap=[14, 16],
    )
    beside = one("WH-1543", Solid(strap), (0, -120, -70))
    return Plate("plate-cooler", laid.pieces + beside, laid.axes, View(-52, 26))


def bellows_thermostat() -> Plate:
    """A dome over the outlet, its joint, the bellows, and the wire of the lead seal."""
    dome = turned((0, 0), (36, 0), (36, 6), (27, 6), (27, 26), (20, 38), (12, 42), (12, 60), (0, 60))
    dome -= turned((0, -1), (24, -1), (24, 25), (17, 34), (8, 40), (8, 80), (0, 80))
    cut, planes = open_front(holes(dome, 3, 31.5, 2.6, VIEW.round + 160), VIEW.round + 25, 110)
    folds = [(4.0, 0.0)]
    for at in range(8):
        folds += [(17, 2 + at * 5), (17, 4 + at * 5), (11, 5.5 + at * 5), (11, 6 + at * 5)]
    bellows = turned(*folds, (6, 44), (6, 47), (16, 47), (20, 51), (4, 51))
    bellows += rod(4, 62) + Pos(0, 0, -8) * rod(20, 4) + Pos(0, 0, -4) * rod(4, 6)
    loop = [
        (34.0, -6.0, 0.0),
        (30.0, -20.0, 4.0),
        (38.0, -34.0, 0.0),
        (50.0, -26.0, -3.0),
        (46.0, -8.0, 0.0),
        (34.0, -4.0, 3.0),
    ]
    wire = cable(loop, 1.6)
    laid = row(
        one("WH-1552", Solid(cut, planes)),
        one("WH-1553", Solid(holes(ring(36, 24, 1.6), 3, 31.5, 2.6, VIEW.round + 160))),
        one("T61", Solid(bellows)),
        gap=[14, 12],
    )
    seal = one("WH-1505", wire, (26, -4, -40))
    return Plate("bellows-thermostat", laid.pieces + seal, laid.axes, VIEW)
