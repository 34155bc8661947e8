"""Exhaust manifolds."""

from __future__ import annotations

import numpy as np
from build123d import Part, Pos, Rot

from plates.coils import Tube
from plates.laying import one
from plates.plate import Plate
from plates.shapes import elbow, holes, lying, obround, plate, prism, ring, rod, threaded
from plates.solids import Solid
from plates.view import View

VIEW = View(-58, 26)
PORTS = (-62.0, 62.0)


def _gasket() -> Part:
    """Upright, facing along y."""
    return Rot(90, 0, 0) * (holes(obround(88, 52, 2), 2, 34, 4, 0) - Pos(0, 0, -1) * rod(18, 9))


def _manifold(radius: float, bore: float) -> Part:
    """A barrel along x with a port behind each cylinder and its outlet at the end."""
    body = Pos(-105, 0, 0) * lying(rod(radius, 210)) + Pos(105, 0, 0) * lying(ring(radius + 12, bore, 9))
    body += [Pos(x, radius - 8, 0) * Rot(-90, 0, 0) * rod(24, 34) for x in PORTS]
    flange = Rot(-90, 0, 0) * holes(obround(88, 52, 9), 2, 34, 4, 0)
    body += [Pos(x, radius + 22, 0) * flange for x in PORTS]
    return body - Pos(-98, 0, 0) * lying(rod(bore, 300))


def dry_manifold() -> Plate:
    """The manifold before its two gaskets, and a length of lagging cord."""
    gasket = Solid(_gasket())
    t = np.linspace(0, 2 * np.pi * 4.5, 500)
    coil = np.stack([9 * t / (2 * np.pi) - 20, 27 * np.cos(t), 27 * np.sin(t)], axis=1)
    pieces = one("WH-1801", Solid(_manifold(26, 20)))
    for x in PORTS:
        pieces += one("WH-1802", gasket, (x, 92, 0))
    pieces += one("WH-1803", Tube(coil, 8), (10, -96, -20))
    axes = tuple(((x, 50.0, 0.0), (x, 120.0, 0.0)) for x in PORTS)
    return Plate("dry-manifold", pieces, axes, VIEW)


def wet_manifold() -> Plate:
    """The jacketed manifold, its gaskets, two water elbows above and the drain plug below."""
    body = _manifold(36, 20) + [Pos(x, 0, 30) * ring(14, 8, 12) for x in PORTS]
    body += Pos(0, 0, -44) * rod(13, 14) - [Pos(x, 0, 20) * rod(8, 60) for x in PORTS]
    gasket, bend = Solid(_gasket()), ring(11, 7, 16) + Pos(0, 0, 16) * elbow(11, 7, 18)
    plug = prism(6, 22, 10) + Pos(0, 0, 10) * threaded(9, 14, 2)
    pieces = one("WH-1811", Solid(body))
    for x, turn in zip(PORTS, (180, 0), strict=True):
        pieces += one("WH-1802", gasket, (x, 102, 0))
        pieces += one("WH-1814", Solid(Rot(0, 0, turn) * bend), (x, 0, 66))
    pieces += one("WH-1813", Solid(plug), (0, 0, -92))
    axes = (
        *(((x, 60.0, 0.0), (x, 130.0, 0.0)) for x in PORTS),
        *(((x, 0.0, 40.0), (x, 0.0, 70.0)) for x in PORTS),
        ((0.0, 0.0, -44.0), (0.0, 0.0, -70.0)),
    )
    return Plate("wet-manifold", pieces, axes, VIEW)


def d_wet_manifold() -> Plate:
    """Three ports with their gaskets, two outlets, and the Y piece that joins them."""
    ports = (-84.0, 0.0, 84.0)
    body = Pos(-130, 0, 0) * lying(rod(34, 260))
    body += [Pos(x, 26, 0) * Rot(-90, 0, 0) * rod(24, 34) for x in ports]
    flange = Rot(-90, 0, 0) * holes(obround(76, 50, 9), 2, 29, 4, 0)
    body += [Pos(x, 56, 0) * flange for x in ports]
    outlets = (-56.0, 56.0)
    body += [Pos(x, 0, 24) * ring(20, 15, 22) for x in outlets] + [
        Pos(x, 0, 42) * ring(27, 15, 7) for x in outlets
    ]
    body -= [Pos(x, 0, 20) * rod(15, 60) for x in outlets]
    wye = Pos(0, 0, 74) * ring(20, 15, 26) + Pos(0, 0, 94) * ring(27, 15, 7)
    for side in (-1, 1):
        arm = Pos(side * 56, 0, 0) * ring(27, 15, 7)
        arm += Pos(side * 56, 0, 4) * Rot(0, -side * 38, 0) * rod(19, 86)
        wye += arm
    wye &= plate(300, 200, 101)
    wye -= Pos(0, 0, 70) * rod(15, 60)
    gasket = Solid(Rot(90, 0, 0) * (holes(obround(76, 50, 2), 2, 29, 4, 0) - Pos(0, 0, -1) * rod(18, 9)))
    pieces = one("WD-701", Solid(body))
    for x in ports:
        pieces += one("WD-702", gasket, (x, 104, 0))
    pieces += one("WD-703", Solid(wye), (0, 0, 84))
    axes = (
        *(((x, 66.0, 0.0), (x, 130.0, 0.0)) for x in ports),
        *(((x, 0.0, 48.0), (x, 0.0, 86.0)) for x in outlets),
    )
    return Plate("d-wet-manifold", pieces, axes, VIEW)
