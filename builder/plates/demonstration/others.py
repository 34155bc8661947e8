"""Breathers, pumps and pipes of which there is one of a kind."""

from __future__ import annotations

from build123d import Pos, Rot

from plates.demonstration.governing import skew_gear
from plates.demonstration.ignition import magneto
from plates.laying import one, row
from plates.plate import Plate
from plates.shapes import (
    ball_bearing,
    holes,
    lying,
    open_front,
    pipe,
    plate,
    ring,
    rod,
    threaded,
    turned,
)
from plates.solids import Solid
from plates.view import View

VIEW = View(-62, 24)


def d_breather() -> Plate:
    """One breather for each end of the crankcase, alike but for the side on which it is open."""
    joint = Solid(holes(ring(32, 16, 1.6), 3, 26, 2.6, 20))
    rows = []
    for number, x, turn in (("WD-461", -52.0, 190), ("WD-462", 52.0, 10)):
        body = turned((0, 0), (32, 0), (32, 7), (18, 10), (18, 40), (23, 46), (23, 78), (17, 85), (0, 87))
        body = holes(body - Pos(0, 0, -1) * rod(14, 60), 3, 26, 2.6, 20) + pipe(12, 9, 22, turn, 62, 19)
        rows.append(row(one(number, Solid(body)), one("WD-463", joint), start=(x, 0, 0), gap=16))
    pieces = rows[0].pieces + rows[1].pieces
    return Plate("d-breather", pieces, rows[0].axes + rows[1].axes, VIEW)


def b_plunger_pump() -> Plate:
    """A plunger and the long barrel that it works in, cut open."""
    barrel = turned((0, 0), (18, 0), (18, 150), (26, 150), (26, 160), (0, 160)) + pipe(9, 5, 26, 8, 24, 16)
    barrel += pipe(9, 5, 26, 188, 24, 16) - Pos(0, 0, 12) * rod(12.4, 200)
    cut, planes = open_front(barrel - Pos(0, 0, 12) * rod(12.4, 200), VIEW.round + 25, 110)
    plunger = rod(12, 130) + Pos(0, 0, 130) * rod(7, 10) + Pos(0, 0, 140) * plate(9, 20, 24)
    plunger -= Pos(-30, 0, 152) * lying(rod(4, 60))
    laid = row(one("6B-312", Solid(plunger)), one("6B-311", Solid(cut, planes)), gap=16)
    return Plate("b-plunger-pump", laid.pieces, laid.axes, View(-62, 26, 64))


def d_hull_cooler() -> Plate:
    """For each of two places in the planking: the pipe, its flange and a gasket."""
    hull_pipe = threaded(13, 30, 3) + Pos(0, 0, 30) * ring(12.5, 10, 110)
    flange = holes(turned((13.4, 0), (44, 0), (44, 8), (22, 10), (22, 24), (13.4, 24)), 4, 35, 3.6, 20)
    gasket = holes(ring(44, 14, 3), 4, 35, 3.6, 20)
    rows = [
        row(
            one("WD-561", Solid(hull_pipe)),
            one("WD-562", Solid(flange)),
            one("WD-563", Solid(gasket)),
            start=(x, 0, 0),
            gap=14,
        )
        for x in (-54.0, 54.0)
    ]
    return Plate("d-hull-cooler", rows[0].pieces + rows[1].pieces, rows[0].axes + rows[1].axes, VIEW)


def d_twin_magneto() -> Plate:
    """Two magnetos, their driving ends to one cross shaft, which two bearings carry and skew gears drive."""
    standing = Solid(Rot(90, 0, 0) * magneto())
    shaft = Solid(lying(rod(8, 250)) + Pos(12, 0, 0) * lying(rod(12, 8)) + Pos(230, 0, 0) * lying(rod(12, 8)))
    bearing, skew = Solid(lying(ball_bearing(20, 8.5, 12))), Solid(lying(skew_gear()))
    pieces = one("M4", standing, (30, 0, 0)) + one("M4", standing, (220, 0, 0))
    pieces += one("WD-602", shaft, (0, -30, -130))
    pieces += one("A203", bearing, (-46, -30, -130)) + one("A203", bearing, (282, -30, -130))
    pieces += one("WD-603", skew, (312, -30, -130)) + one("WD-603", Solid(skew_gear()), (326, -30, -212))
    return Plate("d-twin-magneto", pieces, (((-60, -30, -130), (350, -30, -130)),), View(-62, 26))


def d_gearbox() -> Plate:
    """The case with its round sight glass, the ahead drum and the lined astern band."""
    case = plate(150, 110, 100) - Pos(0, 0, 8) * plate(134, 94, 120)
    case += Pos(0, 0, 92) * (plate(172, 132, 8) - plate(134, 94, 30))
    case += Pos(30, -55, 50) * Rot(90, 0, 0) * ring(26, 18, 10)
    case -= Pos(30, 0, 50) * Rot(90, 0, 0) * rod(18, 120)
    drum = lying(rod(40, 46) - Pos(0, 0, 6) * rod(34, 60) + rod(12, 70) - Pos(0, 0, -1) * rod(8, 90))
    band = ring(48, 43, 30) - Pos(44, 0, -1) * plate(30, 9, 60)
    band += [Pos(53, side * 8, 0) * plate(16, 5, 30) for side in (-1, 1)]
    glass = turned((0, 0), (22, 0), (22, 5), (0, 5))
    laid = row(
        one("WD-803", Solid(lying(Rot(0, 0, 180) * band)), (-70, 0, 0))
        + one("WD-802", Solid(drum), (6, 0, 0)),
        one("WD-801", Solid(case)),
        gap=18,
    )
    middle = laid.pieces[-1].at[2] + 50
    glazed = one("WD-804", Solid(Rot(90, 0, 0) * glass), (30, -110, middle))
    axis = ((30.0, -66.0, middle), (30.0, -110.0, middle))
    return Plate("d-gearbox", laid.pieces + glazed, (*laid.axes, axis), View(-58, 26))
