"""The oil filters and their relief valves."""

from __future__ import annotations

from math import cos, pi, sin

import numpy as np
from build123d import Part, Pos, Rot, Sphere

from plates.coils import Tube, spring
from plates.laying import circle, one, row
from plates.plate import Group, Plate
from plates.shapes import (
    hexagon_bolt,
    holes,
    knurled,
    lying,
    nut,
    open_front,
    pipe,
    plate,
    pleated,
    prism,
    ring,
    rod,
    round_about,
    stack_of,
    threaded,
    turned,
)
from plates.solids import Solid
from plates.view import View

VIEW = View(-62, 22)
# For what is unscrewed sideways.
LYING = View(-62, 28, 64)


def _pack() -> Part:
    return stack_of(17, 29, 26, 3.2, 1.4, 7)


def _spindle() -> Part:
    knob = Pos(0, 0, 112) * knurled(17, 17, 26) + Pos(0, 0, 129) * rod(9, 3)
    return rod(5.5, 112) + knob + Pos(0, 0, 104) * rod(9, 8)


def _strainer_bowl() -> Part:
    shell = turned((0, 0), (30, 0), (37, 8), (37, 100), (0, 100))
    bowl = (
        shell
        + Pos(0, 0, 92) * plate(92, 92, 9)
        + pipe(12, 7, 26, -20, 34, 33)
        + Pos(0, 0, -7) * prism(6, 17, 7)
    )
    return holes(bowl - Pos(0, 0, 6) * rod(33, 120), 4, 54, 3.6)


def edge_strainer() -> Plate:
    """A pack of discs that a knob turns past scrapers; four nuts on a square flange."""
    dome = Pos(0, 0, 9) * turned((0, 0), (34, 0), (22, 9), (14, 9), (14, 20), (0, 20))
    lid = holes(plate(92, 92, 9), 4, 54, 4.2) + dome - rod(6, 60)
    gasket = holes(plate(92, 92, 1.6) - rod(36, 2), 4, 54, 4.2)
    laid = row(
        one("WH-1182", Solid(_spindle())),
        circle("WH-31", Solid(nut(13, 7, 7)), 4, 54),
        one("WH-1184", Solid(lid)),
        one("WH-1185", Solid(gasket)),
        one("WH-1181", Solid(_pack())),
        circle("WH-28", Solid(threaded(3.6, 38, 1.8)), 4, 54),
        one("WH-1183", Solid(_strainer_bowl())),
        gap=[-76, 10, 14, 20, -12, 7],
    )
    return Plate("edge-strainer", laid.pieces, laid.axes, VIEW)


def duplex_strainer() -> Plate:
    """Two strainer bowls on one bracket, and the cock that turns the oil to one or the other."""
    spindle, pack, bowl = Solid(_spindle()), Solid(_pack()), Solid(_strainer_bowl())
    gasket = Solid(holes(plate(92, 92, 1.6) - rod(36, 2), 4, 54, 4.2))
    apart = 78
    rows = [
        row(
            one("WH-1182", spindle),
            one("WH-1185", gasket),
            one("WH-1181", pack),
            one("WH-1183", bowl),
            start=(side * apart, 0, 0),
            gap=[-44, 22, 10],
        )
        for side in (-1, 1)
    ]
    handle = Pos(0, 0, 52) * (rod(9, 10) + Pos(0, 0, 2) * lying(rod(4, 24), 180) + Pos(-26, 0, 2) * Sphere(6))
    cock = turned((0, 0), (11, 0), (15, 38), (15, 42), (6, 42), (6, 54), (0, 54)) + handle
    cock -= Pos(-40, 0, 18) * lying(rod(7, 80))
    barrel = rod(24, 44) - turned((0, -1), (11, -1), (15.5, 45), (0, 45))
    arms = Pos(0, 0, 8) * plate(236, 40, 9)
    feet = [Pos(x, 0, 0) * holes(plate(58, 58, 8), 4, 34, 3.6) for x in (-118, 118)]
    bracket = (
        barrel + (arms - rod(16, 60)) + feet + pipe(12, 8, 34, -90, 24, 20) + pipe(12, 8, 34, 90, 24, 20)
    )
    low = row(one("WH-1192", Solid(bracket)), start=(0, 0, -330))
    cock_row = row(one("WH-1191", Solid(cock)), start=(0, 0, -214))
    pieces = rows[0].pieces + rows[1].pieces + low.pieces + cock_row.pieces
    return Plate("duplex-strainer", pieces, (*rows[0].axes, *rows[1].axes), View(-70, 24))


def waste_packed_filter() -> Plate:
    """A cage of cotton waste in a tall canister, the early lid and the later one with its bleed screw."""
    tee = Pos(0, 0, 10) * rod(5, 26) + Pos(-30, 0, 36) * lying(rod(5.5, 60))
    lid = turned((0, 0), (46, 0), (46, 7), (34, 12), (0, 14)) + tee
    bleed = Pos(28, -10, 10) * (rod(6, 8) + Pos(0, 0, 8) * prism(6, 9, 5))
    bars = round_about(rod(1.7, 92), 14, 34, 0)
    hoops = [Pos(0, 0, z) * ring(36, 31, 3.5) for z in (0, 44, 88)]
    cage = hoops[0] + hoops[1:] + bars + (rod(31.5, 3) - round_about(rod(2.5, 9), 8, 20, 0))
    canister = turned((0, 0), (40, 0), (44, 6), (44, 150), (40, 150), (40, 6), (0, 6)) + Pos(
        0, 0, 142
    ) * ring(50, 40, 8)
    canister += pipe(7, 4, 24, -25, 128, 42) + pipe(11, 8, 24, -25, 24, 42)
    jet = (
        turned((0, 0), (4, 0), (4, 12), (7, 12), (7, 16), (0, 16))
        - rod(1.2, 30)
        - Pos(0, 0, 15) * plate(20, 1.6, 3)
    )
    washer = Solid(ring(13, 8.5, 2))
    waste = _wad()
    laid = row(
        one("WH-1202", Solid(lid)),
        one("WH-50", washer),
        one("WH-1205", Solid(ring(46, 39, 4))),
        one("WH-1206", waste, (-22, 0, 0)) + one("WH-1206", waste, (22, 0, 0)),
        one("WH-1203", Solid(cage)),
        one("WH-1201", Solid(canister)),
        gap=[8, 10, 12, 10, 14],
    )
    later = row(
        one("WH-1209", Solid(lid + bleed)),
        start=(105, 0, 0),
    )
    small = row(
        one("WH-1204", Solid(lying(jet, -25))),
        one("WH-50", Solid(lying(ring(13, 8.5, 2), -25))),
        along=(-cos(0.436), sin(0.436), 0),
        start=(112, -52, -340),
        gap=9,
    )
    return Plate(
        "waste-packed-filter", laid.pieces + later.pieces + small.pieces, laid.axes + small.axes, VIEW
    )


def _wad() -> Tube:
    """A handful of waste: one thread wound over and over."""
    t = np.linspace(0, 2 * pi * 6, 700)
    r = 15 + 3 * np.sin(t * 1.37)
    at = np.stack(
        [r * np.cos(t) * np.cos(t * 0.31), r * np.sin(t) * 0.9, r * np.cos(t) * np.sin(t * 0.31) * 0.8], 1
    )
    return Tube(at, 4.5)


def _cartridge_column(head: Group, bolt: str) -> tuple[Group, ...]:
    """From the head down: joint, cartridge between its felts, the bowl cut open, the bolt."""
    felt = Solid(ring(34, 12, 6))
    open_bowl, cuts = open_front(_filter_bowl(), VIEW.round + 25, 110)
    long_bolt = Rot(180, 0, 0) * hexagon_bolt(26, 14, 13, 172)
    return (
        head,
        one("WH-2264", Solid(ring(47.6, 42, 2.4))),
        one("WH-2261", felt),
        one("WH-2260", Solid(pleated(39, 104, 34, 7))),
        one("WH-2261", felt),
        one("WH-2257", Solid(open_bowl, cuts)),
        one(bolt, Solid(long_bolt)),
    )


def _filter_bowl() -> Part:
    """3 3/4 in. across and 5 3/4 in. deep, as it was measured."""
    inner = turned((0, 0), (14, 0), (20, 3), (39, 14), (41, 150), (0, 150))
    solid = turned((0, 0), (20, 0), (30, 2), (44, 14), (44, 138), (47.6, 138), (47.6, 146), (0, 146))
    return solid - Pos(0, 0, 4) * inner - rod(7, 50)


def _filter_head() -> Part:
    head = turned((0, 0), (47.6, 0), (47.6, 12), (36, 18), (30, 34), (0, 34)) + Pos(0, 0, 34) * rod(13, 8)
    head += pipe(15, 9, 34, 15, 18, 24) + pipe(15, 9, 34, 195, 18, 24)
    return head + Pos(16, -28, 18) * plate(22, 16, 14)


def _relief(towards: float) -> tuple[Group, ...]:
    """Ball, spring and plug, in the order in which they lie behind one another."""
    plug = prism(6, 22, 9) + Pos(0, 0, -14) * threaded(6, 14, 1.8)
    return (
        one("WH-2263", Solid(Sphere(5.5))),
        one("WH-2263", _lying_spring(5, 1.3, 34, 8, towards)),
        one("WH-2263", Solid(lying(plug, towards))),
    )


def cartridge_filter() -> Plate:
    """The relief valve is drawn out sideways, from beside the outlet."""
    side = -120
    head = _filter_head() + pipe(10, 6, 22, side, 22, 30)
    laid = row(*_cartridge_column(one("WH-2256", Solid(head)), "WH-2262"), gap=[14, 10, 10, 10, 18, -108])
    x, y = cos(np.radians(side)), sin(np.radians(side))
    relief = row(*_relief(side), along=(x, y, 0), start=(x * 62, y * 62, -20), gap=8)
    return Plate("cartridge-filter", laid.pieces + relief.pieces, laid.axes + relief.axes, VIEW)


def twin_cartridge() -> Plate:
    """One head with two bowls, each with its own cartridge and its own bolt."""
    apart = 62
    head = Pos(0, 0, 8) * plate(2 * apart, 52, 22) + [
        Pos(side * apart, 0, 0) * _twin_end() for side in (-1, 1)
    ]
    head += pipe(15, 9, 40, -90, 20, 22) + pipe(15, 9, 40, 90, 20, 22)
    head += [Pos(side * apart, 0, 0) * pipe(9, 5, 20, -118, 20, 34) for side in (-1, 1)]
    sides = [
        row(*_cartridge_column((), "WD-412")[1:], start=(side * apart, 0, -62), gap=[10, 10, 10, 18, -108])
        for side in (-1, 1)
    ]
    pieces = (*one("WD-411", Solid(head), (0, 0, -34)), *sides[0].pieces, *sides[1].pieces)
    return Plate("d-twin-cartridge", pieces, sides[0].axes + sides[1].axes, VIEW)


def _twin_end() -> Part:
    return turned((0, 0), (47.6, 0), (47.6, 12), (36, 18), (30, 34), (0, 34)) + Pos(0, 0, 34) * rod(13, 6)


def ball_relief_valve() -> Plate:
    """The plug is cut open: the spring stands in it."""
    plug = turned((0, 0), (9, 0), (9, 26), (13, 26), (13, 29), (0, 29)) + Pos(0, 0, 29) * prism(6, 23, 11)
    plug -= Pos(0, 0, -1) * rod(6.6, 24)
    cut, planes = open_front(plug, VIEW.round + 25, 110)
    laid = row(
        one("WH-2269", Solid(cut, planes)),
        one("WH-2267", spring(5.2, 1.4, 42, 9)),
        one("WH-2268", Solid(Pos(0, 0, 6) * Sphere(6))),
        gap=[8, 10],
    )
    return Plate("ball-relief-valve", laid.pieces, laid.axes, LYING)


def poppet_relief_valve() -> Plate:
    """A slotted body, cut open, with the poppet and its spring inside; the three come out as one piece."""
    body = turned((0, 0), (11, 0), (11, 38), (15, 38), (15, 46), (0, 46)) - Pos(0, 0, 43) * plate(60, 3, 5)
    body -= Pos(0, 0, -1) * rod(7.4, 40)
    body -= [Rot(0, 0, turn) * Pos(-40, 0, 9) * lying(rod(2.6, 80)) for turn in (18, 108)]
    cut, planes = open_front(body, VIEW.round + 25, 110)
    poppet = turned((0, 0), (2, 0), (6.8, 5), (6.8, 13), (4, 13), (4, 20), (0, 20))
    laid = row(
        one("WH-2276", Solid(cut, planes)),
        one("WH-2278", spring(5.6, 1.3, 38, 8)),
        one("WH-2277", Solid(poppet)),
        gap=[8, -4],
    )
    return Plate("poppet-relief-valve", laid.pieces, laid.axes, LYING)


def _lying_spring(radius: float, thick: float, length: float, turns: float, direction: float) -> Tube:
    """A spring laid down along this direction, in degrees."""
    x, y, z = spring(radius, thick, length, turns).middle.T
    turn = np.radians(direction)
    return Tube(np.stack([z * cos(turn) - y * sin(turn), z * sin(turn) + y * cos(turn), x], axis=1), thick)
