"""How plates are drawn, tried on boxes and circles: the modeller is not needed for it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from math import pi

import numpy as np
import pytest

from plates import curves, records
from plates.coils import spring
from plates.hiding import nearest, runs
from plates.laying import circle, one, row
from plates.plate import Drawn, Piece, Plate, Point, draw
from plates.view import Floats, View

FRONT = View(round=-90, above=0)


@dataclass(frozen=True, eq=False)
class Card:
    """An upright rectangle that faces the eye of FRONT, with its outline."""

    wide: float
    tall: float
    cuts: tuple[()] = ()
    close: float = 0.0

    @property
    def corners(self) -> Floats:
        w, t = self.wide / 2, self.tall / 2
        return np.array([[-w, 0, -t], [w, 0, -t], [w, 0, t], [-w, 0, t]])

    @property
    def triangles(self) -> Floats:
        return np.asarray(self.corners[np.array([[0, 1, 2], [0, 2, 3]])])

    def lines(self, view: View) -> list[Floats]:
        assert view
        return [
            np.stack([a, b]) for a, b in zip(self.corners, np.roll(self.corners, -1, axis=0), strict=True)
        ]

    def loose(self, view: View, unit: float) -> list[Floats]:
        assert view
        assert unit > 0
        return []


def _ends(drawn: Drawn) -> list[Floats]:
    return [np.concatenate(curve) for curve in drawn.curves]


def test_an_upright_axis_stands_upright_and_lies_when_the_picture_is_turned() -> None:
    axis = np.array([[0.0, 0.0, 0.0], [0.0, 0.0, 1.0]])
    bottom, top = View(above=0).flat(axis)
    assert top[:2] - bottom[:2] == pytest.approx([0, -1])
    bottom, top = View(above=0, leaning=90).flat(axis)
    assert top[:2] - bottom[:2] == pytest.approx([1, 0])


def test_the_isometric_view_is_that_of_the_standard() -> None:
    """ISO 5456-3:1996, isometric axonometry (from memory): axes 120 degrees apart, shortened to 0.816."""
    view = View(round=45, above=float(np.degrees(np.arctan(1 / np.sqrt(2)))))
    axes = view.flat(np.eye(3))[:, :2]
    assert np.hypot(*axes.T) == pytest.approx([np.sqrt(2 / 3)] * 3)
    assert (axes @ axes.T)[np.triu_indices(3, 1)] == pytest.approx([np.cos(2 * pi / 3) * 2 / 3] * 3)


@pytest.mark.parametrize("radius", [3, 40, 400])
def test_a_circle_is_drawn_within_the_tolerance_by_few_cubics(radius: float) -> None:
    turn = np.linspace(0, 2 * pi, 97)
    pieces = curves.segments(radius * np.stack([np.cos(turn), np.sin(turn)], axis=1))
    assert len(pieces) <= 16
    t = np.linspace(0, 1, 50)[:, None]
    for a, b, c, d in pieces:
        at = a * (1 - t) ** 3 + 3 * b * t * (1 - t) ** 2 + 3 * c * t**2 * (1 - t) + d * t**3
        assert np.abs(np.hypot(*at.T) - radius).max() < 2 * curves.NEAR


def test_what_lies_straight_is_one_line_and_what_meets_is_one_path() -> None:
    first = curves.segments(np.array([[0.0, 0], [5, 0], [10, 0]]))
    assert [len(piece) for piece in first] == [2]
    # The second is drawn the other way round, and a third is somewhere else.
    others = [[np.array([[10.0, 10], [10, 0]])], [np.array([[50.0, 50], [60, 50]])]]
    found = curves.joined([first, *others])
    assert sorted(len(curve) for curve in found) == [1, 2]
    assert sorted(curves.path(curve) for curve in found) == ["M0 0l10 0l0 10", "M50 50l10 0"]


def test_a_path_is_found_from_its_middle_as_well() -> None:
    pieces = [
        [np.array([[10.0, 0], [20, 0]])],
        [np.array([[0.0, 0], [10, 0]])],
        [np.array([[20.0, 0], [20, 9]])],
    ]
    assert [len(curve) for curve in curves.joined(pieces)] == [3]


def test_numbers_of_a_path_are_short_and_lose_no_sign() -> None:
    piece = np.array([[0.0, 0.0], [0.5, -0.25], [-0.04, 10.0], [1.0, 1.0]])
    assert curves.path([piece]) == "M0 0c.5-.2 0 10 1 1"


def test_a_card_hides_what_lies_behind_it_and_nothing_else() -> None:
    # Nearer is smaller y, from where FRONT looks.
    near, far = Piece("A", Card(10, 10), (0, -20, 0)), Piece("B", Card(30, 4))
    drawn = draw(Plate("x", (near, far), (), FRONT))
    scale = (drawn.width - 28) / 30
    lengths = [
        np.abs(np.diff(piece[:, :2], axis=0)).sum() / scale for curve in drawn.curves for piece in curve
    ]
    # The whole outline of the nearer, and of the farther its long sides without the 10 in the middle.
    assert sum(lengths) == pytest.approx(40 + 2 * 20 + 2 * 4, abs=0.3)


def test_what_is_shorter_than_the_stroke_is_wide_is_left_out() -> None:
    # Of the farther card's level edges not a whole unit of the picture looks out at each side.
    near, far = Piece("A", Card(30, 10), (0, -20, 0)), Piece("B", Card(30.06, 4))
    drawn = draw(Plate("x", (near, far), (), FRONT))
    pieces = [piece for curve in drawn.curves for piece in curve]
    assert len(pieces) == 6
    assert min(np.hypot(*(piece[-1] - piece[0])) for piece in pieces) > 50


def test_each_number_gets_one_point_where_it_is_seen() -> None:
    pieces = (
        Piece("A", Card(10, 10), (0, -20, 0)),
        Piece("B", Card(30, 4)),
        Piece("C", Card(4, 4), (0, 5, 0)),
    )
    points = draw(Plate("x", pieces, (), FRONT)).points
    assert {point.number for point in points} == {"A", "B"}
    (a,) = (point for point in points if point.number == "A")
    assert [a.x, a.y] == pytest.approx([500, 500], abs=8)
    (b,) = (point for point in points if point.number == "B")
    assert abs(b.x - 500) > 160


def test_of_two_alike_the_one_that_is_seen_best_is_pointed_at() -> None:
    pieces = (
        Piece("A", Card(4, 4), (-20, 0, 0)),
        Piece("A", Card(10, 10)),
        Piece("A", Card(4, 4), (20, 0, 0)),
    )
    (point,) = draw(Plate("x", pieces, (), FRONT)).points
    assert [point.x, point.y] == pytest.approx([500, 500], abs=10)


def test_a_chain_line_has_long_and_short_dashes_and_goes_behind_what_hides_it() -> None:
    # Cards stand at the ends, so that the axis between them has the whole picture.
    ends = (Piece("A", Card(2, 2), (-50, 0, 0)), Piece("A", Card(2, 2), (50, 0, 0)))
    axis = ((-48.0, 0.0, 0.0), (48.0, 0.0, 0.0))

    def dashes(pieces: tuple[Piece, ...]) -> list[float]:
        drawn = draw(Plate("x", pieces, (axis,), FRONT))
        level = [curve for curve in drawn.curves if abs(curve[0][0][1] - curve[-1][-1][1]) < 0.1]
        return [abs(curve[-1][-1][0] - curve[0][0][0]) for curve in level if len(curve) == 1]

    free = dashes(ends)
    assert {round(length / 3) for length in free[:-1]} == {9, 2}
    assert free[0] > free[1]
    before = Piece("B", Card(30, 30), (0, -9, 0))
    assert sum(dashes((*ends, before))) == pytest.approx(sum(free) * 66 / 96, rel=0.08)


def test_a_spring_is_drawn_by_both_sides_of_its_wire_and_hides_its_own_back() -> None:
    coil = spring(radius=10, thick=2, length=25, turns=3)
    wire = float(np.hypot(*np.diff(FRONT.flat(coil.middle)[:, :2], axis=0).T).sum())
    drawn = draw(Plate("x", (Piece("A", coil),), (), FRONT))
    scale = (drawn.width - 28) / 22
    chords = (
        sum(float(np.hypot(*(piece[-1] - piece[0]))) for curve in drawn.curves for piece in curve) / scale
    )
    # Both sides of all of it would be twice its length; what lies behind a nearer turn is not drawn.
    assert 1.2 * wire < chords < 1.95 * wire
    # Nor does the surface that a line runs along break it up: a few lines for each turn.
    assert len(drawn.curves) < 3 * 8


def test_a_row_leaves_the_gaps_it_was_asked_for() -> None:
    up, tall, low = (0.0, 0.0, -1.0), Card(1, 10), Card(1, 4)
    laid = row(one("A", tall), one("B", low), one("C", tall), along=up, start=(7, 0, 0), gap=[3, -2])
    # Each card reaches half of its height to both sides of where it stands.
    assert [piece.at for piece in laid.pieces] == [(7, 0, -5), (7, 0, -15), (7, 0, -20)]
    assert laid.axes == (((7, 0, 0), (7.0, 0.0, -25.0)),)


def test_what_stands_on_a_circle_is_evenly_spaced() -> None:
    places = np.array([piece.at for piece in circle("A", Card(1, 1), 5, radius=20, first=90)])
    assert np.hypot(*places[:, :2].T) == pytest.approx([20] * 5)
    assert np.hypot(*(places - np.roll(places, 1, axis=0)).T[:2]) == pytest.approx([40 * np.sin(pi / 5)] * 5)
    assert places[0] == pytest.approx([0, 20, 0])


def test_the_nearest_is_the_nearest_for_random_triangles() -> None:
    random = np.random.default_rng(4)
    meshes = [random.uniform(0, 40, (3, 3, 3)) for _ in range(6)]
    found = nearest(meshes, (40, 40))
    for down, across in random.integers(0, 80, (200, 2)):
        x, y = (across + 0.5) / 2, (down + 0.5) / 2
        depths = {
            owner: depth
            for owner, mesh in enumerate(meshes)
            for triangle in mesh
            if (depth := _depth(triangle, x, y)) is not None
        }
        best = max(
            (depth for mesh in meshes for triangle in mesh if (depth := _depth(triangle, x, y)) is not None),
            default=-np.inf,
        )
        assert found.depth[down, across] == pytest.approx(best)
        assert (found.owner[down, across] == -1) == (not depths)


def _depth(triangle: Floats, x: float, y: float) -> float | None:
    shares = np.linalg.solve(np.vstack([triangle[:, :2].T, np.ones(3)]), [x, y, 1])
    return float(shares @ triangle[:, 2]) if (shares >= 0).all() else None


def test_runs_are_what_is_seen_on_end() -> None:
    points = np.arange(14.0).reshape(7, 2)
    seen = np.array([True, True, False, True, False, True, True])
    assert [run[:, 0].tolist() for run in runs(points, seen)] == [[0, 2], [10, 12]]


def test_a_spring_is_as_long_and_as_wide_as_it_was_asked_for() -> None:
    mesh = spring(radius=10, thick=2, length=50, turns=6).triangles.reshape(-1, 3)
    assert (mesh.min(axis=0), mesh.max(axis=0)) == (
        pytest.approx([-11, -11, 0], abs=0.4),
        pytest.approx([11, 11, 50], abs=0.4),
    )


RECORD = """\
kind: assembly
title: A thing
parts:
  - {number: "A", name: Lid, quantity: 1}
  - {number: "B", by: shop, name: Nut, quantity: 2}
notes: |
  Words.
"""


def test_a_plate_is_held_to_the_parts_list() -> None:
    listed = records.read(RECORD).parts
    card = Card(1, 1)
    plate = Plate("x", (Piece("A", card), Piece("A", card), Piece("B", card), Piece("C", card)))
    told = records.faults(plate, [Point(1, 1, "A"), Point(1, 1, "C")], listed)
    assert told == ["C is drawn, and not listed", "B: 2 listed, 1 drawn", "B is hidden"]
    assert not records.faults(
        Plate("x", (Piece("A", card), Piece("B", card), Piece("B", card))),
        [Point(1, 1, "A"), Point(1, 1, "B")],
        listed,
    )


def test_a_figure_goes_into_the_record_once_and_leaves_the_rest_as_it_was() -> None:
    plate = Plate("thing", (Piece("A", Card(1, 1)),))
    points = [Point(5, 6, "B"), Point(7, 8, "A")]
    once = records.with_figure(RECORD, plate, points, records.read(RECORD))
    assert re.sub("figures:.*?(?=notes)", "", once, flags=re.DOTALL) == RECORD
    assert once.index('number: "A"}') < once.index('number: "B", by: shop}')
    assert records.with_figure(once, plate, points, records.read(once)) == once


def test_what_people_typed_at_a_point_outlives_a_new_drawing() -> None:
    plate = Plate("thing", (Piece("A", Card(1, 1)),))
    once = records.with_figure(RECORD, plate, [Point(7, 8, "A")], records.read(RECORD))
    typed = once.replace(
        '- {x: 7, y: 8, number: "A"}',
        '- {x: 7, y: 8, number: "A", sign: lid-held}\n      - {x: 1, y: 2, sign: hole}',
    )
    again = records.with_figure(typed, plate, [Point(9, 9, "A")], records.read(typed))
    assert '- {x: 9, y: 9, number: "A", sign: lid-held}\n' in again
    assert "- {x: 1, y: 2, sign: hole}\n" in again
    assert again.count("- {x:") == 2
