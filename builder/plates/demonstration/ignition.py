"""Magnetos."""

from __future__ import annotations

from build123d import Box, Part, Pos, Rot

from plates.coils import cable
from plates.laying import one, row
from plates.plate import Plate, Shape
from plates.shapes import gear, holes, lying, plate, prism, ring, rod, turned
from plates.solids import Solid
from plates.view import View

VIEW = View(-56, 24)
LYING = View(-60, 30, 62)


def magneto(terminals: tuple[float, ...] = (-20.0, 20.0)) -> Part:
    """Standing on its driving end: the bow of the magnet, the body, the end plate, terminals at these x."""
    bow = Pos(0, 8, 20) * (plate(84, 70, 70) & _arch(42, 70))
    bow -= Pos(0, 8, 10) * (plate(52, 60, 100) & _arch(26, 100))
    body = Pos(0, -22, 6) * plate(84, 26, 98) + rod(27, 112)
    end = Pos(0, 0, 112) * turned((0, 0), (31, 0), (31, 16), (26, 20), (0, 20)) + Pos(0, 0, 132) * rod(10, 5)
    tower = Rot(-90, 0, 0) * turned((0, 0), (8, 0), (6, 16), (0, 16))
    return bow + body + end + [Pos(x, 30, 120) * tower for x in terminals]


def _arch(radius: float, tall: float) -> Part:
    return rod(radius, tall) + Pos(0, -30, 0) * plate(2 * radius, 60, tall)


def _lead(side: float) -> Shape:
    """Away from a terminal, and round to the plugs."""
    points = [(0, 0, 0), (2, 16, 2), (8, 34, 22), (12, 44, 58), (22, 40, 100)]
    return cable([(x * side, y, z) for x, y, z in points], 8)


def flange_magneto() -> Plate:
    """Three holes in its flange, a joint, and the tongue that drives it; two high-tension leads."""
    three = holes(turned((0, 0), (50, 0), (50, 9), (0, 9)) - Pos(0, 0, -1) * rod(20, 30), 3, 43, 4.4, 30)
    shaft = Pos(0, 0, -18) * rod(9, 30)
    whole = three + Pos(0, 0, 3) * magneto() + shaft
    joint = holes(ring(50, 24, 1.4), 3, 43, 4.4, 30)
    tongue = rod(24, 10) + Pos(0, 0, -9) * plate(48, 12, 9) - Pos(0, 0, -20) * rod(9, 60)
    tongue = tongue & Pos(0, 0, -30) * rod(24, 80)
    laid = row(
        one("M4", Solid(whole)),
        one("WH-1612", Solid(joint)),
        one("WH-1613", Solid(tongue)),
        gap=[28, 20],
    )
    leads = one("WH-1614", _lead(-1), (-24, 62, -8)) + one("WH-1614", _lead(1), (24, 62, -8))
    return Plate("flange-magneto", laid.pieces + leads, laid.axes, LYING)


def low_tension_magneto() -> Plate:
    """Under its strap, without a terminal; for each cylinder an igniter plug with its trip rod."""
    standing = Rot(90, 0, 0) * magneto(())
    band = Rot(90, 0, 0) * _strap()
    plug = _igniter()
    pieces = one("M1", Solid(standing), (0, 0, 0)) + one("WH-1604", Solid(band), (0, -40, 62))
    for at in (0, 1):
        pieces += one("WH-1603", Solid(plug), (150 + 54 * at, -30 + 20 * at, 10))
        pieces += one("WH-1602", Solid(_trip_rod()), (150 + 54 * at, -30 + 20 * at, 96))
    axes = tuple(
        ((150.0 + 54 * at, -30.0 + 20 * at, -40.0), (150.0 + 54 * at, -30.0 + 20 * at, 190.0))
        for at in (0, 1)
    )
    return Plate("low-tension-magneto", pieces, axes, VIEW)


def _strap() -> Part:
    """A band over the magnet, with a foot on each side."""
    band = _arch(46, 18) - Pos(0, 0, -1) * _arch(43, 40)
    band &= Pos(0, 20, -1) * Box(200, 110, 60)
    return band + [Pos(side * 54, -33, 9) * Box(22, 4, 18) for side in (-1, 1)]


def _igniter() -> Part:
    plug = prism(6, 32, 12) + Pos(0, 0, -34) * rod(12, 34) + Pos(0, 0, 12) * rod(7, 18)
    plug += Pos(6, 0, -46) * rod(2, 14) + Pos(-6, 0, -46) * rod(2, 14)
    return plug + Pos(0, 0, 20) * lying(rod(3, 26), -70)


def _trip_rod() -> Part:
    return (
        rod(3.4, 84)
        + Pos(0, 0, 84) * plate(14, 7, 9)
        + Pos(0, 0, -4) * ring(7, 3, 5)
        + Pos(0, 0, 20) * ring(6, 3.4, 4)
    )


def base_magneto() -> Plate:
    """On its platform under the strap, with the vernier coupling and two leads."""
    standing = Rot(90, 0, 0) * magneto()
    platform = plate(120, 150, 9) + [Pos(side * 50, 0, -22) * plate(10, 150, 22) for side in (-1, 1)]
    platform -= [Pos(x, y, -1) * rod(4, 30) for x in (-54, 54) for y in (-20, 20)]
    band = Rot(90, 0, 0) * _strap()
    vernier = gear(19, 26, 8, 8, 3) + Pos(0, 0, 12) * gear(20, 26, 8, 8, 3) + ring(14, 8, 30)
    pieces = (
        *one("M6", Solid(standing), (0, 66, 0)),
        *one("WH-1604", Solid(band), (0, 26, 70)),
        *one("WH-1622", Solid(platform), (0, 0, -100)),
        *one("WH-1625", Solid(Rot(-90, 0, 0) * vernier), (0, 96, 0)),
    )
    pieces += one("WH-1614", cable(_hanging(-1), 7), (-26, -86, 44)) + one(
        "WH-1614", cable(_hanging(1), 7), (26, -86, 44)
    )
    return Plate("base-magneto", pieces, (((0, 66, 110), (0, 0, -100)),), View(-50, 24))


def _hanging(side: float) -> list[tuple[float, float, float]]:
    return [(0, 0, 0), (2 * side, -10, 22), (14 * side, -34, 30), (26 * side, -60, 4), (24 * side, -78, -44)]
