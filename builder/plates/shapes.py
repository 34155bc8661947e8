"""The shapes that assemblies share: millimetres, standing on z = 0 unless they say otherwise."""

from __future__ import annotations

from math import cos, pi, radians, sin

from build123d import (
    Align,
    Axis,
    Box,
    BuildLine,
    Cylinder,
    Line,
    Part,
    Plane,
    Polyline,
    Pos,
    RegularPolygon,
    Rot,
    Sketch,
    Spline,
    Torus,
    chamfer,
    extrude,
    make_face,
    revolve,
)

UP = (Align.CENTER, Align.CENTER, Align.MIN)


def rod(radius: float, length: float) -> Part:
    return Cylinder(radius, length, align=UP)


def ring(outer: float, inner: float, thick: float) -> Part:
    return rod(outer, thick) - rod(inner, thick)


def plate(wide: float, deep: float, thick: float) -> Part:
    return Box(wide, deep, thick, align=UP)


def turned(*outline: tuple[float, float]) -> Part:
    """A lathe's work: the outline as (radius, height), turned about the axis."""
    with BuildLine() as line:
        Polyline(*[(r, 0, z) for r, z in outline], close=True)
    return revolve(make_face(line.edges()), Axis.Z)


def prism(sides: int, across: float, tall: float) -> Part:
    """Across: from flat to flat."""
    return extrude(RegularPolygon(across / 2, sides, major_radius=False), tall)


def nut(across: float, tall: float, bore: float) -> Part:
    crown = turned((0, 0), (across * 0.62, 0), (across * 0.62, tall * 0.86), (across * 0.48, tall), (0, tall))
    return (prism(6, across, tall) & crown) - rod(bore / 2, tall)


def hexagon_bolt(across: float, head: float, thick: float, length: float) -> Part:
    """Head up, its shank hanging below z = 0."""
    crown = turned((0, 0), (across * 0.62, 0), (across * 0.62, head * 0.86), (across * 0.48, head), (0, head))
    return (prism(6, across, head) & crown) + Pos(0, 0, -length) * rod(thick / 2, length)


def threaded(radius: float, length: float, pitch: float) -> Part:
    """A screw thread as it is drawn: grooves round the rod."""
    outline = [(0.0, 0.0), (radius, 0.0)]
    for at in range(1, int(length / pitch)):
        z = at * pitch
        outline += [(radius, z - pitch * 0.28), (radius * 0.92, z), (radius, z + pitch * 0.28)]
    return turned(*outline, (radius, length), (0, length))


def holes(part: Part, count: int, circle: float, radius: float, first: float = 45) -> Part:
    """The same part with holes bored through it along the axis."""
    return part - round_about(Pos(0, 0, -500) * rod(radius, 1000), count, circle, first)


def round_about(part: Part, count: int, circle: float, first: float = 45) -> list[Part]:
    """So many copies on a circle, each turned to face outward."""
    return [Rot(0, 0, first + 360 * at / count) * Pos(circle, 0, 0) * part for at in range(count)]


def gear(teeth: int, radius: float, tall: float, bore: float, depth: float | None = None) -> Part:
    """Straight teeth with straight flanks; the radius is that of the tips."""
    teeth_in = gear_outline(teeth, radius, depth or 0.16 * radius)
    return extrude(teeth_in, tall, dir=(0, 0, 1)) - rod(bore, tall)


def gear_outline(teeth: int, radius: float, depth: float) -> Sketch:
    """The face of a gear, without its bore."""
    low = radius - depth
    step = 2 * pi / teeth
    corners = []
    for at in range(teeth):
        for share, r in ((-0.36, low), (-0.17, radius), (0.17, radius), (0.36, low)):
            turn = (at + share) * step
            corners.append((r * cos(turn), r * sin(turn), 0))
    with BuildLine() as line:
        Polyline(*corners, close=True)
    return make_face(line.edges())


def knurled(radius: float, tall: float, grooves: int) -> Part:
    groove = Pos(0, 0, -1) * rod(radius * pi / grooves * 0.5, tall + 2)
    return chamfer(rod(radius, tall).edges(), 1) - round_about(groove, grooves, radius, 0)


def stack_of(discs: int, radius: float, neck: float, thick: float, apart: float, bore: float) -> Part:
    """Thin discs one above another on one boss."""
    outline = [(bore, 0.0)]
    for at in range(discs):
        z = at * (thick + apart)
        outline += [(radius, z), (radius, z + thick), (neck, z + thick), (neck, z + thick + apart)]
    return turned(*outline[:-1], (bore, outline[-2][1]))


def pleated(radius: float, tall: float, folds: int, deep: float) -> Part:
    """A folded element between two end discs."""
    return (
        gear(folds, radius * 0.95, tall - 6, radius * 0.3, deep).moved(Pos(0, 0, 3))
        + ring(radius, radius * 0.3, 3)
        + Pos(0, 0, tall - 3) * ring(radius, radius * 0.3, 3)
    )


def ball_bearing(outer: float, bore: float, wide: float, balls: int = 9) -> Part:
    """Both races, with the balls seen between them."""
    middle = (outer + bore) / 2
    track = (outer - bore) * 0.13
    races = ring(outer, middle + track, wide) + ring(middle - track, bore, wide)
    return races + ring(middle + track, middle - track, wide * 0.55)


def obround(length: float, wide: float, thick: float) -> Part:
    """A plate with round ends, along x."""
    ends = Pos(length / 2 - wide / 2, 0, 0) * rod(wide / 2, thick)
    return plate(length - wide, wide, thick) + ends + Pos(-length + wide, 0, 0) * ends


def lying(part: Part, turn: float = 0) -> Part:
    """Laid down: what pointed up points along x, and then round the vertical by so many degrees."""
    return Rot(0, 0, turn) * Rot(0, 90, 0) * part


def pipe(
    radius: float, bore: float, length: float, direction: float, height: float, reach: float = 0
) -> Part:
    """A boss that leaves a body sideways, at this height; reach: from how far out it begins."""
    return Pos(0, 0, height) * Rot(0, 0, direction) * Pos(reach, 0, 0) * lying(ring(radius, bore, length))


def o_ring(radius: float, thick: float) -> Part:
    return Pos(0, 0, thick / 2) * Torus(radius, thick / 2)


def elbow(radius: float, bore: float, bend: float) -> Part:
    """A quarter of a bend from the vertical towards x, a short piece of pipe and a flange."""
    quarter = Pos(-100, 0, 100) * Box(200, 200, 200)
    tube = Torus(bend, radius) - Torus(bend, bore)
    bent = Pos(bend, 0, 0) * (Rot(90, 0, 0) * tube & quarter)
    end = Pos(bend, 0, bend) * lying(ring(radius, bore, 18))
    return bent + end + Pos(bend + 18, 0, bend) * lying(ring(2 * radius + 1, bore, 6))


def spiral(inner: float, turns: float, apart: float, tall: float) -> Part:
    """A flat spring wound in its own plane, with an eye at its outer end."""
    thick = 1.7
    t = [at / 12 * 2 * pi for at in range(int(turns * 12) + 1)]

    def side(off: float) -> list[tuple[float, float]]:
        return [
            ((inner + apart * a / (2 * pi) + off) * cos(a), (inner + apart * a / (2 * pi) + off) * sin(a))
            for a in t
        ]

    with BuildLine() as line:
        near, far = side(0), side(thick)
        Spline(*near)
        Spline(*far)
        Line(near[0], far[0])
        Line(near[-1], far[-1])
    x, y = side(thick / 2)[-1]
    return extrude(make_face(line.edges()), tall, dir=(0, 0, 1)) + Pos(x, y, 0) * ring(4, 2, tall)


def open_front(part: Part, view_round: float, width: float = 90) -> tuple[Part, tuple[Plane, ...]]:
    """A quarter taken out towards the eye: what is left, and the two planes of the cut."""
    turns = (view_round - width / 2, view_round + width / 2)
    planes = tuple(
        Plane(
            origin=(0, 0, 0),
            x_dir=(cos(radians(t)), sin(radians(t)), 0),
            z_dir=(-sin(radians(t)), cos(radians(t)), 0),
        )
        for t in turns
    )
    big = 1000
    corners = [(0, 0, 0)] + [(big * cos(radians(t)), big * sin(radians(t)), 0) for t in turns]
    with BuildLine() as line:
        Polyline(*corners, close=True)
    wedge = Pos(0, 0, -big) * extrude(make_face(line.edges()), 2 * big, dir=(0, 0, 1))
    return part - wedge, planes
