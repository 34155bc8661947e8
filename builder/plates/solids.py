"""A solid model as a plate needs it: the lines that the eye sees, and the triangles that hide others."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
from build123d import Compound, Edge, Face, GeomType, Part, Plane, Vector
from OCP.BRepAdaptor import BRepAdaptor_Curve
from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt
from OCP.HLRAlgo import HLRAlgo_Projector
from OCP.HLRBRep import HLRBRep_Algo, HLRBRep_HLRToShape, HLRBRep_TypeOfResultingEdge

from plates.view import Floats, View

# How far the triangles may lie from the solid: they only hide, and are never drawn. Millimetres and radians.
ROUGH = 0.1
TURN = 0.35
SAMPLES = 97
# How far apart hatching is drawn, in units of the picture; a face seen from too far aside has none.
HATCH = 15
ASIDE = 0.3


@dataclass(frozen=True, eq=False)
class Solid:
    """One solid, and the planes at which it was cut open: what lies in them is hatched."""

    part: Part
    cuts: tuple[Plane, ...] = ()
    kept: dict[View, list[Floats]] = field(default_factory=dict)

    @cached_property
    def triangles(self) -> Floats:
        corners, faces = self.part.tessellate(ROUGH, TURN)
        at = np.array([tuple(corner) for corner in corners])
        return np.asarray(at[np.array(faces)])

    def lines(self, view: View) -> list[Floats]:
        """What of this solid alone is seen, each line as points of space (n, 3). Equal pieces ask once."""
        if view not in self.kept:
            self.kept[view] = [_sampled(edge) for edge in _visible(self.part, view)]
        return self.kept[view]

    close = 0.5

    def loose(self, view: View, unit: float) -> list[Floats]:
        """The hatching of the faces that were cut, which the solid itself may hide."""
        found = []
        for plane in self.cuts:
            facing = abs(Vector(*view.towards.tolist()).dot(plane.z_dir))
            if facing < ASIDE:
                continue
            for face in self.part.faces():
                if _lies_in(face, plane):
                    found += _hatched(face, plane, HATCH * unit / facing)
        return found


def _visible(part: Part, view: View) -> list[Edge]:
    algorithm = HLRBRep_Algo()
    algorithm.Add(part.wrapped)
    eye, right = gp_Dir(*view.towards.tolist()), gp_Dir(*view.right.tolist())
    algorithm.Projector(HLRAlgo_Projector(gp_Ax2(gp_Pnt(0, 0, 0), eye, right)))
    algorithm.Update()
    algorithm.Hide()
    shapes = HLRBRep_HLRToShape(algorithm)
    found = []
    for kind in (
        HLRBRep_TypeOfResultingEdge.HLRBRep_Sharp,
        HLRBRep_TypeOfResultingEdge.HLRBRep_OutLine,
    ):
        # The last argument asks for the lines in space, whose nearness to the eye is still known.
        compound = shapes.CompoundOfEdges(kind, True, True)
        if compound is not None and not compound.IsNull():
            found += Compound(compound).edges()
    return found


def _sampled(edge: Edge) -> Floats:
    curve = BRepAdaptor_Curve(edge.wrapped)
    count = 2 if edge.geom_type == GeomType.LINE else SAMPLES
    at = [curve.Value(u) for u in np.linspace(curve.FirstParameter(), curve.LastParameter(), count).tolist()]
    return np.array([(point.X(), point.Y(), point.Z()) for point in at])


def _lies_in(face: Face, plane: Plane) -> bool:
    if face.geom_type != GeomType.PLANE:
        return False
    normal = face.normal_at()
    return bool(
        abs(abs(normal.dot(plane.z_dir)) - 1) < 1e-6
        and abs((face.center() - plane.origin).dot(plane.z_dir)) < 1e-6
    )


def _hatched(face: Face, plane: Plane, apart: float) -> list[Floats]:
    """Lines at 45 degrees over a flat face, by where each crosses the face's outline."""
    rings = [
        [plane.to_local_coords(wire.position_at(t)) for t in np.linspace(0, 1, 241)] for wire in face.wires()
    ]
    # Turned by 45 degrees the hatching lies level.
    turned = [np.array([(p.X + p.Y, p.Y - p.X) for p in ring]) / 2**0.5 for ring in rings]
    low = min(ring[:, 1].min() for ring in turned)
    high = max(ring[:, 1].max() for ring in turned)
    found = []
    for level in np.arange((low // apart + 0.5) * apart, high, apart):
        crossings = sorted(x for ring in turned for x in _crossings(ring, level))
        for start, end in zip(crossings[::2], crossings[1::2], strict=False):
            if end - start > 0.4:
                found.append(np.array([_back(x, level, plane) for x in (start, end)]))
    return found


def _crossings(ring: Floats, level: float) -> list[float]:
    (x, y), (u, v) = ring[:-1].T, ring[1:].T
    over = (y <= level) != (v <= level)
    at = x[over] + (level - y[over]) * (u[over] - x[over]) / (v[over] - y[over])
    return [float(value) for value in at]


def _back(x: float, level: float, plane: Plane) -> tuple[float, float, float]:
    flat = Vector((x - level) / 2**0.5, (level + x) / 2**0.5, 0)
    return tuple(plane.from_local_coords(flat))
