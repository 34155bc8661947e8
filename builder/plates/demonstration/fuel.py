"""Fuel filters and fuel pumps."""

from __future__ import annotations

from build123d import Box, Part, Pos, Rot, Torus

from plates.coils import cable, spring
from plates.laying import one, row
from plates.plate import Plate
from plates.shapes import (
    holes,
    lying,
    obround,
    open_front,
    pipe,
    plate,
    prism,
    ring,
    rod,
    threaded,
    turned,
)
from plates.solids import Solid
from plates.view import View

VIEW = View(-62, 22)


def _glass() -> Part:
    """A bowl of glass: thick in the rim, round in the floor."""
    outside = turned((0, 0), (22, 0), (32, 6), (35, 16), (35, 54), (37, 54), (37, 60), (0, 60))
    return outside - Pos(0, 0, 6) * turned((0, 0), (20, 0), (29, 5), (32, 14), (32, 80), (0, 80))


def bowl_fuel_filter() -> Plate:
    """A glass bowl that a wire stirrup holds against the top, with a gauze and a cork washer between."""
    top = turned((0, 0), (39, 0), (39, 8), (24, 14), (20, 20), (0, 20)) + [
        pipe(9, 4, 24, turn, 10, 22) for turn in (8, 188)
    ]
    top += [Pos(side * 38, 0, 0) * plate(14, 12, 8) for side in (-1, 1)]
    mesh = [Pos(at * 5.2, 0, 0.4) * Box(0.8, 56, 0.8) for at in range(-5, 6)]
    mesh += [Pos(0, at * 5.2, 0.4) * Box(56, 0.8, 0.8) for at in range(-5, 6)]
    gauze = ring(32, 28, 2) + [bar & rod(29, 4) for bar in mesh]
    wire = cable(
        [
            (42, 0, 92),
            (43, 0, 80),
            (42, 0, 30),
            (39, 0, 4),
            (22, 0, -6),
            (0, 0, -8),
            (-22, 0, -6),
            (-39, 0, 4),
            (-42, 0, 30),
            (-43, 0, 80),
            (-42, 0, 92),
        ],
        4,
    )
    screw = (
        Pos(0, 0, -26) * threaded(4, 26, 1.8)
        + Pos(0, 0, 0) * rod(14, 3)
        + Pos(0, 0, -34) * turned((0, 0), (12, 0), (12, 8), (0, 8))
    )
    laid = row(
        one("WH-1431", Solid(top)),
        one("WH-1433", Solid(gauze)),
        one("WH-1415", Solid(ring(37, 30, 4))),
        one("WH-1414", Solid(_glass())),
        one("WH-1435", wire) + one("WH-1435", Solid(screw), (0, 0, -14)),
        gap=[12, 12, 14, -50],
    )
    return Plate("bowl-fuel-filter", laid.pieces, laid.axes, VIEW)


def felt_fuel_filter() -> Plate:
    """A brass pot, cut open, with a felt inside and a drain cock below."""
    pot = turned((0, 0), (30, 0), (38, 8), (38, 84), (46, 84), (46, 92), (0, 92)) - Pos(0, 0, 6) * turned(
        (0, 0), (28, 0), (35, 8), (35, 200), (0, 200)
    )
    pot += Pos(0, 0, -10) * rod(12, 10) - Pos(0, 0, -20) * rod(6, 40)
    cut, planes = open_front(pot, VIEW.round + 25, 110)
    felt = ring(28, 9, 70) + [Pos(0, 0, z) * ring(30, 9, 4) for z in (0, 33, 66)]
    cock = (
        Pos(0, 0, 18) * threaded(6, 16, 1.8)
        + turned((0, 0), (9, 0), (9, 18), (0, 18))
        - Pos(-40, 0, 9) * lying(rod(5, 80), 28)
    )
    cock += Pos(0, 0, 9) * lying(Pos(0, 0, -16) * turned((0, 0), (4, 0), (6, 30), (0, 30)), -14)
    cock += Pos(0, 0, -16) * ring(5, 3, 18) + Pos(0, 0, 9) * Rot(0, 0, -14) * Pos(18, 0, -3) * obround(
        30, 8, 6
    )
    laid = row(
        one("WH-1444", Solid(ring(46, 36, 2))),
        one("WH-1442", Solid(felt)),
        one("WH-1441", Solid(cut, planes)),
        one("F12", Solid(cock)),
        gap=[12, 14, 12],
    )
    return Plate("felt-fuel-filter", laid.pieces, laid.axes, VIEW)


def d_settling_pot() -> Plate:
    """A deep iron pot with a plug at the bottom; a washer above and a washer below."""
    pot = turned((0, 0), (26, 0), (42, 10), (46, 20), (46, 120), (30, 134), (18, 136), (18, 150), (0, 150))
    inside = turned((0, 0), (22, 0), (36, 9), (40, 18), (40, -14), (26, 130), (10, 132), (10, 200), (0, 200))
    pot = pot - Pos(0, 0, 6) * inside - Pos(0, 0, -10) * rod(10, 40) + pipe(9, 5, 22, 6, 98, 43)
    cut, planes = open_front(pot, VIEW.round + 25, 110)
    plug = Pos(0, 0, 13) * threaded(9, 18, 2) + Pos(0, 0, 11) * rod(15, 3) + prism(6, 24, 11)
    washer = Solid(ring(16, 9.4, 2.4))
    laid = row(
        one("WH-50", washer),
        one("WD-521", Solid(cut, planes)),
        one("WH-50", washer),
        one("WD-522", Solid(plug)),
        gap=[12, 14, 12],
    )
    return Plate("d-settling-pot", laid.pieces, laid.axes, VIEW)


def _diaphragm(deep: float) -> Part:
    """Cloth between two dished plates, with its pull rod below."""
    cloth = holes(rod(42, 2.4), 6, 37, 2.4, 0)
    return (
        cloth
        + Pos(0, 0, 2.4) * turned((0, 0), (26, 0), (23, 3), (0, 4))
        + Pos(0, 0, -deep) * rod(4, deep)
        + Pos(0, 0, -3) * rod(26, 3)
    )


def _rocker() -> Part:
    """The arm from its pin to the cam, bent, with a fork for the pull rod."""
    arm = Pos(10, 0, 6) * Rot(0, 18, 0) * plate(64, 13, 8) + Pos(44, 0, -9) * obround(40, 15, 9)
    fork = [Pos(-26, side * 5.5, 4) * plate(22, 4, 12) for side in (-1, 1)]
    return (
        arm
        + fork
        + Pos(-8, -8, 10) * Rot(-90, 0, 0) * ring(9, 4, 16)
        - Pos(-8, -30, 10) * Rot(-90, 0, 0) * rod(4, 60)
    )


def _pump_top(wide: float) -> Part:
    top = turned((0, 0), (42, 0), (42, 7), (34, 12), (30, 30), (34, 34), (34, 38), (0, 38)) - Pos(
        0, 0, 34
    ) * rod(30, 20)
    top += [pipe(9, 4, wide, turn, 20, 26) for turn in (10, 190)]
    return holes(top - turned((0, -1), (26, -1), (20, 8), (0, 8)), 6, 38, 2.6, 0)


def diaphragm_pump() -> Plate:
    """Bowl, washer, top, diaphragm, spring and rocker arm."""
    bowl = Rot(180, 0, 0) * _glass()
    laid = row(
        one("WH-1414", Solid(bowl)),
        one("WH-1415", Solid(ring(37, 30, 4))),
        one("WH-1411", Solid(_pump_top(24))),
        one("WH-1412", Solid(_diaphragm(34))),
        one("WH-1416", spring(15, 3, 44, 5.5)),
        one("WH-1413", Solid(Rot(0, 0, 28) * _rocker())),
        gap=[10, 10, 12, -24, 12],
    )
    return Plate("diaphragm-pump", laid.pieces, laid.axes, VIEW)


def twin_diaphragm_pump() -> Plate:
    """Two diaphragms one above the other; the ring between them has a weep hole."""
    between = ring(42, 34, 16) - Pos(0, 0, 8) * Rot(0, 0, VIEW.round + 8) * lying(rod(2.6, 90))
    top = _pump_top(24) + Pos(0, 0, 30) * turned((0, 0), (34, 0), (34, 8), (20, 16), (0, 18))
    membrane = Solid(_diaphragm(26))
    laid = row(
        one("WH-1421", Solid(top)),
        one("WH-1412", membrane),
        one("WH-1423", Solid(holes(between, 6, 38, 2.4, 0))),
        one("WH-1412", membrane),
        one("WH-1416", spring(15, 3, 44, 5.5)),
        one("WH-1413", Solid(Rot(0, 0, 28) * _rocker())),
        gap=[12, 2, 12, -16, 12],
    )
    return Plate("twin-diaphragm-pump", laid.pieces, laid.axes, VIEW)


def d_diaphragm_pump() -> Plate:
    """A top with two inlet pipes."""
    top = (
        _pump_top(22)
        + pipe(9, 4, 22, -62, 20, 26)
        + Pos(0, 0, 30) * turned((0, 0), (34, 0), (34, 6), (0, 12))
    )
    laid = row(
        one("WD-511", Solid(top)),
        one("WD-512", Solid(_diaphragm(34))),
        one("WD-514", spring(17, 3, 40, 5)),
        one("WH-1413", Solid(Rot(0, 0, 28) * _rocker())),
        gap=[14, -22, 12],
    )
    return Plate("d-diaphragm-pump", laid.pieces, laid.axes, VIEW)


def d_plunger_fuel_pump() -> Plate:
    """Gland nut, packing, plunger and a body that is cut open."""
    body = turned((0, 0), (16, 0), (22, 6), (22, 70), (17, 74), (17, 92), (0, 92)) + [
        pipe(9, 4, 24, turn, 20, 18) for turn in (60, 205)
    ]
    body -= Pos(0, 0, 12) * rod(9, 200) + Pos(0, 0, 70) * rod(12.5, 60)
    cut, planes = open_front(body, VIEW.round + 25, 110)
    nut = prism(6, 42, 22) - Pos(0, 0, -1) * rod(17, 18) - rod(9.2, 60)
    plunger = rod(8.8, 104) + Pos(0, 0, 104) * rod(5, 8) + Pos(0, 0, 112) * rod(11, 8)
    packing = Torus(12, 3) + [Pos(0, 0, z) * Torus(12, 3) for z in (5.6, 11.2)]
    laid = row(
        one("WD-502", Solid(plunger)),
        one("WD-504", Solid(nut)),
        one("WD-503", Solid(packing)),
        one("WD-501", Solid(cut, planes)),
        gap=[12, 12, 14],
    )
    return Plate("d-plunger-fuel-pump", laid.pieces, laid.axes, VIEW)
