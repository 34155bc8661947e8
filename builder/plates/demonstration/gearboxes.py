"""Gearboxes and what starts an engine by hand."""

from __future__ import annotations

from math import cos, pi, sin

from build123d import Part, Pos, Rot

from plates.laying import one, row
from plates.plate import Plate
from plates.shapes import ball_bearing, gear, lying, obround, plate, ring, rod, round_about, spiral, turned
from plates.solids import Solid
from plates.view import View

LYING = View(-62, 30, 64)


def reduction_box() -> Plate:
    """The shaft leaves lower than it came in: pinion above, a wheel of twice its teeth below."""
    apart = 54.0
    case = rod(70, 60) + Pos(0, -34, 0) * rod(46, 60) + Pos(0, -17, 0) * plate(92, 40, 60)
    case -= Pos(0, 0, 10) * rod(58, 80) + Pos(0, -apart, 10) * rod(31, 80)
    case += ring(80, 68, 8) & Pos(0, 24, -1) * plate(200, 120, 40)
    case -= [Pos(0, 0, -1) * rod(17, 60), Pos(0, -apart, -1) * rod(17, 60)]
    bearing = Solid(ball_bearing(20, 10, 12))
    wheel = gear(32, 54, 22, 12, 5) - round_about(Pos(0, 0, -1) * rod(9, 60), 5, 32, 0)
    pinion = gear(16, 28, 22, 9, 5) + Pos(0, 0, 22) * ring(13, 9, 40)
    laid = row(
        one("A205", bearing) + one("WH-2112", Solid(pinion), (0, -apart, 0)),
        one("A205", bearing, (0, -apart, 0)) + one("WH-2113", Solid(wheel)),
        one("WH-2111", Solid(case)),
        gap=[18, 40],
    )
    (_, (_, _, low)), *_ = laid.axes
    return Plate(
        "reduction-box", laid.pieces, (((0, 0, 0), (0, 0, low)), ((0, -apart, 0), (0, -apart, low))), LYING
    )


def reverse_box() -> Plate:
    """Case, its joint, both gears and the selector with the lever."""
    case = (
        plate(120, 90, 70)
        - Pos(0, 0, 8) * plate(104, 74, 80)
        + Pos(0, 0, 62) * (plate(140, 110, 8) - plate(104, 74, 30))
    )
    case += [Pos(0, 0, 34) * Rot(0, 0, turn) * Pos(58, 0, 0) * lying(ring(22, 14, 12)) for turn in (0, 180)]
    case = case - [Pos(x, y, 0) * rod(3.4, 200) for x in (-62, 0, 62) for y in (-50.5, 50.5)]
    joint = (
        plate(140, 110, 1.6)
        - plate(104, 74, 30)
        - [Pos(x, y, -9) * rod(3.4, 200) for x in (-62, 0, 62) for y in (-50.5, 50.5)]
    )
    forward = lying(gear(22, 34, 16, 12, 5) + Pos(0, 0, 16) * ring(18, 12, 12))
    reverse = lying(gear(22, 34, 16, 12, 5) + Pos(0, 0, -12) * ring(18, 12, 12))
    fork = lying(ring(24, 18, 8) - Pos(-60, 0, -1) * plate(72, 120, 20))
    selector = Pos(-4, 0, 0) * Rot(90, 0, 0) * fork + Pos(0, 0, 22) * rod(6, 70) + Pos(0, 0, 92) * rod(11, 16)
    laid = row(
        one("WH-2104", Solid(selector)),
        one("WH-2102", Solid(forward), (-46, 0, 0)) + one("WH-2103", Solid(reverse), (30, 0, 0)),
        one("WH-2105", Solid(joint)),
        one("WH-2101", Solid(case)),
        gap=[12, 14, 16],
    )
    return Plate("reverse-box", laid.pieces, laid.axes, View(-58, 26))


def _sprocket(teeth: int, radius: float, bore: float) -> Part:
    return gear(teeth, radius, 6, bore, 7) + Pos(0, 0, 6) * ring(bore + 8, bore, 14)


def _chain(long: float, radius: float) -> list[Part]:
    """Links round two half circles, each a small plate with two rollers' ends."""
    links = []
    straight = long / 2
    count = round((2 * long + 2 * pi * radius) / 17)
    whole = 2 * long + 2 * pi * radius
    for at in range(count):
        s = at * whole / count
        if s < long:
            x, y, turn = -straight + s, radius, 0.0
        elif s < long + pi * radius:
            a = (s - long) / radius
            x, y, turn = straight + radius * sin(a), radius * cos(a), -a
        elif s < 2 * long + pi * radius:
            x, y, turn = straight - (s - long - pi * radius), -radius, pi
        else:
            a = (s - 2 * long - pi * radius) / radius
            x, y, turn = -straight - radius * sin(a), -radius * cos(a), pi - a
        links.append(Pos(x, y, 3 * (at % 2)) * Rot(0, 0, turn * 180 / pi) * obround(23, 9, 3))
    return links


def raised_hand_start() -> Plate:
    """Handle, chain, and a large and a small sprocket."""
    links = _chain(170, 38)
    chain = links[0] + links[1:]
    crank = (
        rod(9, 60)
        + Pos(40, 0, 52) * obround(104, 18, 9)
        + Pos(82, 0, 61) * turned((0, 0), (8, 0), (10, 30), (8, 62), (0, 62))
    )
    far = 85.0
    laid = row(
        one("WH-1901", Solid(Rot(0, 0, 205) * crank), (far, 0, 0)),
        one("WH-1904", Solid(_sprocket(12, 34, 9.4)), (far, 0, 0))
        + one("WH-1903", Solid(_sprocket(22, 52, 12)), (-far, 0, 0)),
        one("WH-1902", Solid(chain)),
        gap=[16, 30],
    )
    (_, (_, _, low)), *_ = laid.axes
    axes = (((far, 0.0, 0.0), (far, 0.0, low)), ((-far, 0.0, laid.pieces[2].at[2] + 30), (-far, 0.0, low)))
    return Plate("raised-hand-start", laid.pieces, axes, View(-66, 42))


def spring_starter() -> Plate:
    """Drum with its release lever, the clock spring inside, and the winding handle."""
    drum = rod(62, 40) - Pos(0, 0, 6) * rod(56, 60) + rod(12, 40) - Pos(0, 0, -1) * rod(8, 90)
    drum += Pos(50, 0, 14) * plate(30, 16, 14)
    lever = obround(84, 16, 7) - Pos(34, 0, -1) * rod(4, 20) + Pos(-34, 0, 7) * rod(9, 14)
    handle = (
        rod(9, 46)
        + Pos(38, 0, 40) * obround(100, 18, 9)
        + Pos(78, 0, 49) * turned((0, 0), (8, 0), (10, 26), (8, 54), (0, 54))
    )
    laid = row(
        one("WH-1914", Solid(Rot(0, 0, 150) * handle)),
        one("WH-1912", Solid(spiral(13, 6, 6, 26))),
        one("WH-1911", Solid(drum)),
        gap=[20, 26],
    )
    beside = one("WH-1913", Solid(Rot(0, 0, 100) * lever), (86, -20, laid.pieces[-1].at[2] + 44))
    return Plate("spring-starter", laid.pieces + beside, laid.axes, View(-62, 34, 40))
