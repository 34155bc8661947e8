"""What is read of a drawing, held to the published rules of SVG.

W3C SVG 2 and the examples of SVG 1.1, chapter 8, from memory.
"""

from __future__ import annotations

from itertools import pairwise
from math import hypot

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from spanbook.ground.drawings.drawing import LONG, Drawing, Pen
from spanbook.ground.drawings.numbers import NoNumber, Numbers, length
from spanbook.ground.drawings.paths import path
from spanbook.ground.drawings.pens import Look
from spanbook.ground.drawings.read import Flaw, Refused, read
from spanbook.ground.drawings.transforms import matrix_of
from spanbook.ground.drawings.write import paths
from spanbook.site.drawings import file_of, lines_of
from tests.support.drawings import LINE, svg
from tests.support.rows import each_row

MOST = 1000


def ends(data: str) -> list[tuple[float, float]]:
    """Where the pen comes to, step by step."""
    return [points[-1] for _, points in path(data, MOST) if points]


def shown(drawing: Drawing) -> list[tuple[Pen, bool, str]]:
    return list(paths(drawing))


@pytest.mark.parametrize(
    ("text", "numbers"),
    [
        ("1,2 3 , 4", [1, 2, 3, 4]),
        ("1-2+3", [1, -2, 3]),
        (".5.5", [0.5, 0.5]),
        ("1e3 1E-1", [1000, 0.1]),
        ("2.", [2]),
        ("", []),
    ],
)
def test_numbers_are_parted_by_as_little_as_svg_allows(text: str, numbers: list[float]) -> None:
    assert Numbers(text).all() == numbers


@each_row("text", ["1,,2", "x", "1 px", "--1", "1e999", "nan", "inf", "٣", "100000001"])
def test_what_is_no_number_is_told(text: str) -> None:
    with pytest.raises(NoNumber):
        Numbers(text).all()


def test_lengths_are_pixels_of_which_an_inch_has_96() -> None:
    """W3C CSS Values 3, section 5.2."""
    for text, pixels in (("1in", 96), ("25.4mm", 96), ("2.54cm", 96), ("72pt", 96), ("6pc", 96), ("7px", 7)):
        assert length(text) == pytest.approx(pixels)
    with pytest.raises(NoNumber):
        length("50%")


def test_small_letters_go_on_from_where_the_pen_is() -> None:
    assert ends("M10 10 h5 v5 l-5 0 z m1 1 l1 1") == [
        (10, 10),
        (15, 10),
        (15, 15),
        (10, 15),
        (11, 11),
        (12, 12),
    ]
    assert ends("m10 10 5 5 5 5") == ends("M10 10 L15 15 20 20") == [(10, 10), (15, 15), (20, 20)]


def test_smooth_curves_mirror_the_handle_before_them() -> None:
    """The examples cubic01 and quad01 of SVG 1.1, section 8.3."""
    first, second = path("M100,200 C100,100 250,100 250,200 S400,300 400,200", MOST)[1:]
    assert second[1][0] == (2 * 250 - first[1][1][0], 2 * 200 - first[1][1][1]) == (250, 300)
    one, two = path("M200,300 Q400,50 600,300 T1000,300", MOST)[1:]
    # The handle that is mirrored lies at (800, 550), as the example says; as a cubic curve it has two.
    assert two[1][0] == pytest.approx((600 + 2 / 3 * 200, 300 + 2 / 3 * 250))
    assert one[1][0] == pytest.approx((200 + 2 / 3 * 200, 300 - 2 / 3 * 250))


def test_an_arc_is_a_piece_of_its_ellipse() -> None:
    """The example arcs01 of SVG 1.1, section 8.3.8: three quarters of a circle of 150 about (300, 200)."""
    steps = path("M300,200 h-150 a150,150 0 1,0 150,-150 z", MOST)
    at = (150.0, 200.0)
    for letter, points in steps[2:-1]:
        assert letter == "C"
        for share in range(1, 11):
            assert hypot(*_off(at, points, share / 10)) == pytest.approx(150, rel=3e-4)
        at = points[-1]
    assert at == pytest.approx((300, 50))
    assert len(steps[2:-1]) == 3, "a curve for each quarter"


def _off(at: tuple[float, float], points: tuple[tuple[float, float], ...], t: float) -> tuple[float, float]:
    """How far a point of a cubic curve is from (300, 200)."""
    all_ = (at, *points)
    weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
    x, y = (sum(w * point[i] for w, point in zip(weights, all_, strict=True)) for i in (0, 1))
    return x - 300, y - 200


def test_flags_of_an_arc_need_no_space() -> None:
    assert ends("M0 0a10 10 0 0120 0") == ends("M0 0 a 10 10 0 0 1 20 0")


def test_radii_that_do_not_reach_are_made_longer() -> None:
    """W3C SVG 2, B.2.5: scaled up until there is exactly one solution."""
    assert ends("M0 0A1 1 0 0 1 100 0")[-1] == (100, 0)
    assert ends("M0 0A0 5 0 0 1 100 0") == [(0, 0), (100, 0)]


@pytest.mark.parametrize("data", ["10 10", "L1 1", "M1", "M1 1 X2 2", "M1 1 Z 2 2", "M0 0a1 1 0 2 0 1 1"])
def test_what_is_no_path_is_told(data: str) -> None:
    with pytest.raises(NoNumber):
        path(data, MOST)


def test_transforms_are_done_from_the_right() -> None:
    """The example of W3C SVG 2, section 8.5: first scaled, then turned, then moved."""
    x, y = matrix_of("translate(50 90), rotate(-45) translate(130 160)").of(0, 0)
    assert (x, y) == pytest.approx((255.06097, 111.21320), abs=1e-4)
    assert matrix_of("rotate(90 10 10)").of(20, 10) == pytest.approx((10, 20))
    assert matrix_of("matrix(1 2 3 4 5 6)").of(1, 1) == (9, 12)
    assert matrix_of("skewX(45)").of(0, 1) == pytest.approx((1, 1))
    for wrong in ("rotate(1 2)", "spin(3)", "translate(1) x", "matrix(1 2)"):
        with pytest.raises(NoNumber):
            matrix_of(wrong)


@each_row(
    ("attributes", "pen"),
    [
        ({"fill": "none", "stroke": "black"}, Pen.LINE),
        ({"style": "fill:none;stroke:#000;stroke-dasharray:4,2"}, Pen.DASHED),
        ({"fill": "#fff", "stroke": "#000"}, Pen.SOLID),
        ({"fill": "#FFFFFF"}, Pen.BLANK),
        ({"fill": "rgb(240, 240, 240)"}, Pen.BLANK),
        ({"fill": "url(#shade)", "stroke": "red"}, Pen.SOLID),
        ({}, Pen.INK),
        ({"stroke": "#000"}, Pen.INK),
        ({"fill": "none"}, None),
        ({"display": "none"}, None),
        ({"visibility": "hidden"}, None),
    ],
)
def test_the_pen_goes_by_how_it_looked(attributes: dict[str, str], pen: Pen | None) -> None:
    assert Look().inside(attributes).pen is pen


def test_a_look_is_inherited_and_what_is_not_shown_stays_so() -> None:
    group = Look().inside({"fill": "none", "stroke": "black"})
    assert group.inside({"stroke-dasharray": "2"}).pen is Pen.DASHED
    assert Look().inside({"display": "none"}).inside({"display": "inline"}).pen is None
    assert Look().inside({"visibility": "hidden"}).inside({"visibility": "visible"}).pen is Pen.INK


def test_the_sheet_is_as_the_file_says_and_its_longer_side_has_5000() -> None:
    drawing = read(svg())
    assert (drawing.width, drawing.height, LONG) == (5000, 2500, 5000)
    assert shown(drawing) == [(Pen.LINE, False, "M250 250l2000 0")]


def test_groups_shapes_and_transforms_come_out_as_lines() -> None:
    drawing = read(
        svg(
            '<g transform="translate(10 0)" fill="none" stroke="black"><g transform="scale(2)">'
            '<rect x="1" y="2" width="10" height="5"/><line x1="0" y1="0" x2="1" y2="1"/></g>'
            '<polyline points="0,0 4,0 4,4"/><polygon points="0,0 4,0 4,4"/></g>'
        )
    )
    ((_, _, data),) = shown(drawing)
    assert data == ("M300 100l500 0 0 250-500 0zM250 0l50 50M250 0l100 0 0 100M250 0l100 0 0 100z")


def test_circles_are_round() -> None:
    ((_, _, data),) = shown(read(svg('<circle cx="50" cy="50" r="20" fill="none" stroke="black"/>')))
    assert data.count("c") == 1, "a letter is not said again"
    points = [
        p
        for letter, flat in read(svg('<ellipse cx="50" cy="50" rx="20" ry="20" stroke="black"/>'))
        .strokes[0]
        .segments
        if letter == "C"
        for p in [flat[-2:]]
    ]
    assert all(hypot(x - 1250, y - 1250) == pytest.approx(500, abs=1) for x, y in points)


def test_what_is_outside_the_sheet_or_not_seen_is_passed_over() -> None:
    outside = '<path stroke="black" fill="none" d="M300 10h50"/><path fill="none" stroke="none" d="M0 0h9"/>'
    assert shown(read(svg(LINE + outside))) == shown(read(svg()))


def test_what_is_left_behind_is_named_once() -> None:
    rest = "<text>a</text><text>b</text><image/><use/><title>t</title><defs><path d='M0 0h9'/></defs>"
    drawing = read(svg(LINE + rest + '<g clip-path="url(#a)"/>'))
    assert drawing.left == ("text", "image", "use", "clip-path")
    assert shown(drawing) == shown(read(svg()))


def test_an_editors_own_notes_are_passed_over() -> None:
    note = (
        '<x:view xmlns:x="http://example.org/" x:zoom="1"><path d="M0 0h9"/></x:view><metadata>m</metadata>'
    )
    drawing = read(svg(note + LINE))
    assert (drawing.left, shown(drawing)) == ((), shown(read(svg())))


NUMBERS = st.integers(-50, 250).map(str)
POINTS = st.tuples(NUMBERS, NUMBERS).map(" ".join)
STEPS = st.one_of(
    POINTS.map("L{}".format),
    POINTS.map("t{}".format),
    st.tuples(POINTS, POINTS, POINTS).map(lambda p: f"C{p[0]} {p[1]} {p[2]}"),
    st.tuples(POINTS, POINTS).map(lambda p: f"s{p[0]} {p[1]}"),
    st.tuples(st.integers(20, 90), st.integers(20, 90), st.integers(-180, 180), st.booleans(), POINTS).map(
        lambda a: f"A{a[0]} {a[1]} {a[2]} {int(a[3])} 1 {a[4]}"
    ),
    NUMBERS.map("h{}".format),
    st.just("z"),
)
LOOKS = st.sampled_from(
    [
        'fill="none" stroke="black"',
        'fill="none" stroke="black" stroke-dasharray="3"',
        'fill="white" stroke="black"',
        'fill="white"',
        'fill-rule="evenodd"',
    ]
)
SHAPES = st.lists(st.tuples(POINTS, st.lists(STEPS, max_size=6), LOOKS), max_size=6)


@given(SHAPES)
def test_what_is_written_is_read_as_the_same_again(shapes: list[tuple[str, list[str], str]]) -> None:
    inside = "".join(f'<path {look} d="M{start}{"".join(steps)}"/>' for start, steps, look in shapes)
    try:
        first = read(svg(LINE + inside))
    except Refused as refused:  # mirrored handles and thin arcs reach far outside the sheet
        assume(refused.flaw is not Flaw.NO_NUMBER)
        raise
    again = read(file_of(lines_of(first, "a.svg")))
    # Below the lines lies the sheet's own paper.
    assert (again.width, again.height) == (first.width, first.height)
    assert shown(again)[0][0] is Pen.BLANK
    assert shown(again)[1:] == shown(first)


def test_neighbours_of_one_pen_are_one_path_where_nothing_is_covered() -> None:
    solid = '<rect x="1" y="1" width="9" height="9" fill="white" stroke="black"/>'
    pens = [pen for pen, _, _ in shown(read(svg(LINE + LINE + solid + solid + LINE)))]
    assert pens == [Pen.LINE, Pen.SOLID, Pen.SOLID, Pen.LINE]
    assert all(a != b or a is Pen.SOLID for a, b in pairwise(pens))
