"""Governors."""

from __future__ import annotations

from math import cos, radians, sin

from build123d import Box, Part, Pos, Rot, Sphere, loft

from plates.coils import spring
from plates.laying import one, row
from plates.plate import Piece, Plate
from plates.shapes import (
    ball_bearing,
    gear_outline,
    holes,
    knurled,
    lying,
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
LYING = View(-62, 30, 64)


def _link(long: float) -> Part:
    """A rod with an eye at either end."""
    eyes = [Pos(x, 0, 0) * (rod(9, 7) - Pos(0, 0, -1) * rod(4, 20)) for x in (0, long)]
    return Pos(8, 0, 3.5) * lying(rod(3.4, long - 16)) + eyes


def _weighted_arm(weight: Part) -> Part:
    """A weight at the end of its arm, the arm's eye at the origin."""
    arm = Pos(22, 0, 0) * Box(44, 6, 5) + Pos(44, 0, 0) * weight
    return arm + Rot(90, 0, 0) * Pos(0, 0, -5) * rod(6, 10) - Rot(90, 0, 0) * Pos(0, 0, -20) * rod(2.6, 40)


def flyball_governor() -> Plate:
    """Two brass balls, the spindle with its spring, and the link to the throttle."""
    spindle = rod(7, 150) + Pos(0, 0, 12) * turned((0, 0), (22, 0), (22, 5), (12, 10), (12, 18), (0, 18))
    head = Pos(0, 0, 118) * Box(44, 16, 16) - Pos(0, 0, 118) * Box(60, 7, 30)
    spindle += head + Pos(0, 0, 118) * rod(10, 22)
    ball = _weighted_arm(Pos(8, 0, 0) * Sphere(21))
    turn = 28
    x, y = cos(radians(turn)), sin(radians(turn))
    laid = row(
        one("WH-1702", Solid(Rot(0, 0, turn) * spindle)),
        one("WH-1703", spring(13, 3, 56, 7)),
        gap=14,
    )
    height = laid.axes[0][1][2] + 118 + 70
    balls = tuple(
        Piece(
            "WH-1701",
            Solid(Rot(0, 0, turn + side) * Rot(0, 28, 0) * ball),
            (sign * x * 46, sign * y * 46, height),
        )
        for side, sign in ((0, 1), (180, -1))
    )
    link = one("WH-1704", Solid(Rot(0, 0, 18) * _link(120)), (40, -30, laid.axes[0][1][2] + 18))
    return Plate("flyball-governor", laid.pieces + balls + link, laid.axes, VIEW)


def cam_governor() -> Plate:
    """Link, thrust bearing, sleeve and three weights on the carrier: no housing."""
    weight = (
        obround(44, 24, 16)
        - Pos(-14, 0, -1) * rod(4, 40)
        + Pos(-14, 0, 0) * Rot(0, 0, 55) * Pos(-10, 0, 4) * obround(30, 10, 8)
    )
    weight -= Pos(-14, 0, -1) * rod(4, 40)
    carrier = (
        rod(56, 8) + rod(12, 34) + [Pos(0, 0, 8) * each for each in round_about(rod(3.8, 20), 3, 34, 90)]
    )
    carrier = holes(carrier - Pos(0, 0, -1) * rod(7, 90), 3, 34, 9, 30)
    sleeve = turned((0, 0), (16, 0), (16, 26), (26, 26), (26, 32), (0, 32)) - Pos(0, 0, -1) * rod(12.3, 60)
    bearing = ball_bearing(26, 13, 10)
    weights = tuple(
        Piece(
            "WH-1722",
            Solid(Rot(0, 0, turn + 70) * weight),
            (40 * cos(radians(turn)), 40 * sin(radians(turn)), 0),
        )
        for turn in (90, 210, 330)
    )
    laid = row(
        one("WH-1725", Solid(_link(150)), (-60, 0, 0)),
        one("A201", Solid(bearing)),
        one("WH-1723", Solid(sleeve)),
        weights,
        one("WH-1721", Solid(carrier)),
        gap=[22, 14, 24, 24],
    )
    return Plate("cam-governor", laid.pieces, laid.axes, LYING)


def enclosed_governor() -> Plate:
    """A round tin cover with a filler screw; gasket, weights, spring and the link."""
    cover = turned((0, 0), (58, 0), (58, 4), (50, 4), (50, 46), (44, 52), (0, 52)) - turned(
        (0, -1), (48, -1), (48, 44), (43, 50), (0, 50)
    )
    cover = holes(cover, 4, 54, 2.6, 10) + Pos(24, -14, 52) * (rod(9, 5) + Pos(0, 0, 5) * knurled(7, 8, 16))
    gasket = holes(ring(58, 48, 1.6), 4, 54, 2.6, 10)
    weight = turned((0, 0), (17, 0), (17, 26), (0, 26))
    bob = _weighted_arm(Pos(6, 0, -13) * weight)
    laid = row(
        one("WH-1711", Solid(cover)),
        one("WH-1714", Solid(gasket)),
        one("WH-1712", Solid(Rot(0, 0, 28) * bob), (14, 8, 0))
        + one("WH-1712", Solid(Rot(0, 0, 208) * bob), (-14, -8, 0)),
        one("WH-1703", spring(13, 3, 56, 7)),
        one("WH-1704", Solid(Rot(0, 0, 18) * _link(120)), (-54, -18, 0)),
        gap=[14, 18, 12, 14],
    )
    return Plate("enclosed-governor", laid.pieces, laid.axes, VIEW)


def d_governor() -> Plate:
    """A tall cylinder, cut open, with three weights and a spring; a pair of skew gears drives it."""
    cylinder = turned((0, 0), (48, 0), (48, 6), (36, 6), (36, 116), (30, 126), (16, 128), (16, 140), (0, 140))
    cylinder -= turned((0, -1), (32, -1), (32, 113), (27, 122), (0, 122)) + Pos(0, 0, 100) * rod(8, 60)
    cut, planes = open_front(cylinder, VIEW.round + 25, 110)
    weight = (
        plate(14, 20, 40)
        - Pos(-5, 0, 30) * Rot(90, 0, 0) * Pos(0, 0, -20) * rod(2.6, 60)
        + Pos(-9, 0, 0) * plate(20, 8, 7)
    )
    weights = tuple(
        Piece(
            "WD-652", Solid(Rot(0, 0, turn) * weight), (24 * cos(radians(turn)), 24 * sin(radians(turn)), 0)
        )
        for turn in (-70, 50, 170)
    )
    skew = Solid(skew_gear())
    laid = row(
        one("WD-651", Solid(cut, planes)),
        one("WD-654", spring(14, 3, 62, 8)),
        weights,
        one("WD-603", skew),
        gap=[12, 10, 14],
    )
    low = laid.axes[0][1][2] + 10
    mate = one("WD-603", Solid(Rot(0, 0, 28) * Rot(0, 90, 0) * skew_gear()), (30, -56, low))
    return Plate("d-governor", laid.pieces + mate, laid.axes, VIEW)


def skew_gear() -> Part:
    """Teeth that lean: each wall is drawn from one face of the gear to the other, turned a little."""
    low, high = (
        gear_outline(14, 24, 4).moved(Pos(0, 0, z) * Rot(0, 0, turn)) for z, turn in ((0, 0), (20, 12))
    )
    return loft([low, high], ruled=True) + ring(13, 7, 28) - rod(7, 60)
