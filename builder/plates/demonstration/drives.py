"""Clutches and magneto couplings."""

from __future__ import annotations

from build123d import Part, Pos, Rot

from plates.coils import spring
from plates.laying import circle, one, row
from plates.plate import Plate
from plates.shapes import (
    ball_bearing,
    gear,
    hexagon_bolt,
    holes,
    lying,
    obround,
    plate,
    ring,
    rod,
    round_about,
    spiral,
    turned,
)
from plates.solids import Solid
from plates.view import View

LYING = View(-62, 32, 64)


def _fork(reach: float) -> Part:
    """A yoke round the sleeve, and its stem."""
    yoke = ring(reach, reach - 11, 12) - Pos(0, -100, -1) * plate(200, 200, 40)
    pads = [Pos(side * (reach - 5), -8, 0) * plate(11, 18, 12) for side in (-1, 1)]
    return (
        yoke
        + pads
        + Pos(0, reach + 26, 0) * plate(18, 58, 12)
        + Pos(0, reach + 58, 6) * Pos(-14, 0, 0) * lying(rod(10, 28))
    )


def cone_clutch() -> Plate:
    """Fork, spring, the cone and its leather."""
    cone = turned((46, 0), (78, 44), (70, 44), (40, 6), (16, 6), (16, 40), (12, 40), (12, 0))
    cone -= round_about(Pos(0, 0, -10) * rod(7, 30), 6, 30, 0)
    leather = turned((48.5, 0), (80.5, 44), (84, 44), (52, 0))
    laid = row(
        one("WH-2004", Solid(_fork(38))),
        one("WH-2003", spring(24, 5, 74, 6)),
        one("WH-2001", Solid(Rot(180, 0, 0) * cone)),
        one("WH-2002", Solid(Rot(180, 0, 0) * leather)),
        gap=[16, 24, 36],
    )
    return Plate("cone-clutch", laid.pieces, laid.axes, LYING)


def plate_clutch() -> Plate:
    """Fork, bearing and race; six springs round the pressure plate; the lined plate."""
    lined = ring(84, 50, 3) + Pos(0, 0, 3) * ring(64, 16, 3) + Pos(0, 0, 6) * ring(84, 50, 3)
    hub = Pos(0, 0, 3) * ring(18, 9, 18)
    lined = holes(lined + hub, 6, 57, 2, 0) - Pos(0, 0, -20) * gear(10, 13, 80, 1, 2.4)
    pressure = ring(86, 42, 10) + [Pos(0, 0, 10) * each for each in round_about(ring(15, 12, 5), 6, 64, 0)]
    race = ring(30, 15, 14) + Pos(0, 0, 14) * ring(24, 15, 10) - Pos(0, 0, 4) * (ring(40, 27, 5))
    laid = row(
        one("WH-2004", Solid(_fork(40))),
        one("WH-2014", Solid(race)),
        one("A203", Solid(ball_bearing(20, 8.5, 12))),
        circle("WH-2013", spring(9, 2.6, 42, 6), 6, 64, 0),
        one("WH-2012", Solid(pressure)),
        one("WH-2011", Solid(lined)),
        gap=[18, 14, 10, 20, 44],
    )
    return Plate("plate-clutch", laid.pieces, laid.axes, LYING)


def plain_coupling() -> Plate:
    """A plain tongue and a slot."""
    half = turned((0, 0), (30, 0), (30, 16), (17, 16), (17, 40), (0, 40)) - rod(9, 90)
    half -= Pos(13, 0, 28) * Rot(0, 90, 0) * rod(3, 40)
    driving = half - Pos(0, 0, -1) * plate(100, 13, 9)
    driven = Rot(180, 0, 0) * (
        half
        + (Pos(0, 0, -8) * plate(58, 12.6, 8) & Pos(0, 0, -20) * rod(30, 40))
        - rod(9, 90)
        - Pos(0, 0, -20) * rod(9, 90)
    )
    laid = row(one("WH-1631", Solid(driving)), one("WH-1632", Solid(driven)), gap=34)
    return Plate("plain-coupling", laid.pieces, laid.axes, LYING)


def ratchet_coupling() -> Plate:
    """The body with two pawls on its face, the spring that winds up, and the driven half."""
    body = rod(40, 10) + Pos(0, 0, 10) * ring(40, 34, 22) + rod(12, 24) - Pos(0, 0, -1) * rod(8, 60)
    body += Pos(0, 0, -8) * Pos(22, 0, 0) * rod(3, 8) + Pos(0, 0, -8) * Pos(-22, 0, 0) * rod(3, 8)
    body -= Pos(0, 0, 24) * plate(14, 120, 20)
    pawl = obround(34, 13, 6) - Pos(9, 0, -1) * rod(3.2, 20) + Pos(-15, 5, 0) * plate(8, 14, 6)
    half = (
        turned((0, 0), (30, 0), (30, 14), (17, 14), (17, 36), (0, 36))
        + Pos(0, 0, -8) * plate(58, 12.6, 8)
        - Pos(0, 0, -20) * rod(9, 90)
    )
    laid = row(
        one("WH-1632", Solid(half)),
        one("WH-1642", Solid(spiral(11, 3.6, 6.2, 13))),
        one("WH-1641", Solid(body)),
        one("WH-1643", Solid(pawl), (20, 0, 0)) + one("WH-1643", Solid(Rot(0, 0, 180) * pawl), (-20, 0, 0)),
        gap=[26, 30, 20],
    )
    return Plate("ratchet-coupling", laid.pieces, laid.axes, LYING)


def d_coupling() -> Plate:
    """Two toothed discs, of 19 and of 20 teeth, and two bolts."""
    slots = round_about(Pos(0, 0, -10) * Rot(0, 0, 90) * obround(26, 9, 40), 2, 26, 0)
    first = gear(19, 46, 12, 9, 6) - slots + Pos(0, 0, 12) * ring(17, 9, 18)
    second = gear(20, 46, 12, 9, 6) - round_about(Pos(0, 0, -10) * rod(4.4, 60), 2, 26, 0)
    second += Pos(0, 0, -18) * ring(17, 9, 18)
    bolt = Solid(hexagon_bolt(15, 6, 8, 46))
    laid = row(
        circle("WD-623", bolt, 2, 26, 0),
        one("WD-621", Solid(first)),
        one("WD-622", Solid(second)),
        gap=[12, 30],
    )
    return Plate("d-coupling", laid.pieces, laid.axes, LYING)
