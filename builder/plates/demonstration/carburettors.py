"""Carburettors, and the cock and pipe that feed without a pump."""

from __future__ import annotations

from build123d import Part, Pos, Rot

from plates.coils import cable
from plates.laying import one, row
from plates.plate import Plate
from plates.shapes import elbow, holes, obround, pipe, plate, prism, ring, rod, threaded, turned
from plates.solids import Solid
from plates.view import View

VIEW = View(-58, 24)


def _jet(bore: float, length: float) -> Part:
    """Slotted head up, bored through."""
    jet = turned((0, 0), (3, 0), (4.6, 5), (4.6, length), (7, length), (7, length + 5), (0, length + 5))
    return jet - Pos(0, 0, -1) * rod(bore, 60) - Pos(0, 0, length + 3.6) * plate(30, 1.6, 4)


def _needle() -> Part:
    """A float needle: a cone below, a collar for the weights, a long stem."""
    return turned(
        (0, 0),
        (3.4, 6),
        (3.4, 26),
        (6, 26),
        (6, 30),
        (3.4, 30),
        (3.4, 34),
        (6, 34),
        (6, 37),
        (2.2, 37),
        (2.2, 70),
        (0, 72),
    )


def _flange(bore: float) -> Part:
    return holes(obround(92, 56, 9), 2, 35, 4.4, 0) - Pos(0, 0, -1) * rod(bore, 60)


def _joint(bore: float) -> Part:
    return holes(obround(92, 56, 1.4), 2, 35, 4.4, 0) - Pos(0, 0, -1) * rod(bore, 60)


def updraught_carburettor() -> Plate:
    """The parts that have numbers: joint, flange, both jets and the float needle; the body is in no list."""
    laid = row(
        one("WH-1454", Solid(_joint(19))),
        one("WH-1453", Solid(_flange(19) + Pos(0, 0, -26) * ring(23, 19, 26))),
        gap=16,
    )
    x = 26.0
    small = [
        row(one(number, Solid(part)), start=(at - x, -44 + 0.36 * at, -92))
        for at, number, part in (
            (0.0, "0012", _jet(1.6, 16)),
            (26.0, "0014", _jet(0.9, 24)),
            (52.0, "1.10", _needle()),
        )
    ]
    return Plate(
        "updraught-carburettor", laid.pieces + sum((each.pieces for each in small), ()), laid.axes, VIEW
    )


def _body(chokes: tuple[float, ...]) -> Part:
    """Chokes between flange and horn, with the float chamber beside them."""
    body = plate(40 + 2 * max(chokes), 44, 70)
    body += [Pos(x, 0, 70) * ring(24, 19, 8) for x in chokes]
    chamber = Pos(0, -46, -6) * turned(
        (0, 0), (22, 0), (25, 4), (25, 50), (28, 50), (28, 56), (14, 60), (0, 60)
    )
    body += chamber + Pos(0, -24, 14) * plate(18, 30, 16) + Pos(0, -46, -14) * prism(6, 16, 8)
    return body - [Pos(x, 0, -1) * rod(18, 200) for x in chokes]


def horn_carburettor() -> Plate:
    """The horn turned forward with its boss, the body with its float chamber, jet, needle and joint."""
    body = _body((0.0,)) + Pos(0, 0, -8) * _flange(18)
    horn = ring(24, 19, 20) + Pos(0, 0, 20) * Rot(0, 0, -115) * elbow(22, 19, 34) + pipe(9, 6, 16, 40, 12, 20)
    laid = row(
        one("WH-1463", Solid(horn)),
        one("8E10", Solid(body)),
        one("WH-1454", Solid(_joint(18))),
        gap=[18, 14],
    )
    jet = row(one("0013", Solid(Rot(180, 0, 0) * _jet(1.7, 16))), start=(0, -46, -196))
    top = laid.pieces[1].at[2] + 78
    stem = one("1.10", Solid(_needle()), (0, -46, top))
    axis = ((0.0, -46.0, top + 72), (0.0, -46.0, -196.0))
    return Plate("horn-carburettor", laid.pieces + stem + jet.pieces, (*laid.axes, axis), VIEW)


def d_twin_choke() -> Plate:
    """Two chokes with the float chamber between them."""
    chokes = (-32.0, 32.0)
    body = _body(chokes)
    flange = (
        obround(150, 60, 9)
        - [Pos(x, 0, -1) * rod(18, 60) for x in chokes]
        - [Pos(x, 0, -1) * rod(4.4, 60) for x in (-64, 0, 64)]
    )
    joint = (
        obround(150, 60, 1.4)
        - [Pos(x, 0, -1) * rod(18, 60) for x in chokes]
        - [Pos(x, 0, -1) * rod(4.4, 60) for x in (-64, 0, 64)]
    )
    jet = Solid(_jet(1.8, 16))
    laid = row(
        one("0015", jet, (-32, 0, 0)) + one("0015", jet, (32, 0, 0)),
        one("8E12", Solid(body)),
        one("WD-533", Solid(flange)),
        one("WD-534", Solid(joint)),
        gap=[14, 16, 12],
    )
    (_, (_, _, low)), *_ = laid.axes
    axes = tuple(((x, 0.0, 0.0), (x, 0.0, low)) for x in chokes)
    return Plate("d-twin-choke", laid.pieces, axes, VIEW)


def gravity_feed() -> Plate:
    """A cock under the tank, and a pipe; a washer on each side of the union."""
    cock = prism(6, 26, 12) + Pos(0, 0, 12) * threaded(9, 18, 2) + Pos(0, 0, -30) * rod(11, 30)
    cock += Pos(0, -30, -15) * Rot(-90, 0, 0) * turned((0, 0), (7, 0), (9, 56), (0, 56))
    cock += Pos(0, -34, -15) * Rot(90, 0, 0) * obround(52, 12, 6) + Pos(0, 0, -44) * ring(8, 5, 14)
    washer = Solid(ring(13, 8.6, 2.2))
    union = ring(12, 6, 10)
    line = cable([(0, 0, 0), (0, 0, -30), (10, -6, -62), (50, -24, -84), (104, -46, -88), (150, -66, -92)], 9)
    laid = row(
        one("WH-51", washer),
        one("WH-1401", Solid(cock)),
        one("WH-51", washer),
        one("WH-1402", Solid(union)) + one("WH-1402", line),
        gap=[12, 12, 10],
    )
    return Plate("gravity-feed", laid.pieces, laid.axes, VIEW)
