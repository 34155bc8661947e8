"""The stack of an assembly as a picture: order, scale, dashes and rings."""

from __future__ import annotations

import itertools
import re
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.answers.lines import Lists
from spanbook.reading.records import Record, Shape
from spanbook.register.link import build
from spanbook.site.figures.shapes import USUAL, Box, strokes
from spanbook.site.figures.stack import LEAST, WIDEST, Stack, stack
from tests.support.registers import MACHINE, POSITIONS, record

SHAPES: tuple[Shape, ...] = get_args(Shape)
HEAD = "kind: assembly\nid: lid\ntitle: Lid\nposition: cover\nserials:\n- {series: xa, first: 1, last: 9}\n"
BASE = [record(MACHINE % "20", "machine", "x"), record(POSITIONS, "positions", "positions")]


def drawn(lines: str, *others: Record, renewed: tuple[str, ...] = ()) -> Stack:
    made = build([*BASE, record(HEAD + "stack:\n" + lines, "assembly", "lid"), *others])
    keys = [key for key in made.parts if key.number in renewed]
    found = stack(Lists(made), made.assemblies["lid"], "Lid", keys)
    assert found
    return found


def sized(across: str, along: str) -> str:
    two = [
        f"{{what: {what}, value: {at!r}, unit: in}}" for what, at in (("Diameter", across), ("Length", along))
    ]
    return f"sizes: [{', '.join(two)}]"


def width(found: Stack, at: int) -> float:
    """Twice from the axis to where the leader begins."""
    return 2 * (found.pieces[at].edge - found.axis)


def test_no_stack_no_picture() -> None:
    made = build([*BASE, record(HEAD, "assembly", "lid")])
    assert stack(Lists(made), made.assemblies["lid"], "Lid", ()) is None


def test_every_shape_can_be_drawn_and_has_a_usual_size() -> None:
    assert set(USUAL) == set(SHAPES)
    for shape in SHAPES:
        assert strokes(shape, Box(50, 0, 40, 30))


@given(st.sampled_from(SHAPES), st.floats(12, 130), st.floats(12, 180))
def test_a_shape_is_nothing_but_moves_lines_and_arcs_of_finite_numbers(
    shape: Shape, wide: float, high: float
) -> None:
    for stroke in strokes(shape, Box(92, 10, wide, high)):
        assert re.fullmatch(r"(?:[MLHVZlhvaAqQZ]|-?\d+(?:\.\d+)?|[ ])+", stroke.d), stroke.d


def test_parts_stand_in_their_order_and_none_over_another() -> None:
    found = drawn("".join(f"- {{number: P-{n}, shape: ring}}\n" for n in range(5)))
    assert [piece.link.text for piece in found.pieces] == [f"P-{n}" for n in range(5)]
    tops = [piece.y for piece in found.pieces]
    assert tops == sorted(tops)
    assert all(later - earlier >= 2 * 15 for earlier, later in itertools.pairwise(tops))


def test_what_is_measured_is_to_scale_and_the_rest_dashed() -> None:
    found = drawn(
        f"- {{number: P-1, shape: bowl, {sized('4', '2')}}}\n"
        f"- {{number: P-2, shape: ring, {sized('2', '1')}}}\n"
        "- {number: P-3, shape: ring}\n"
    )
    assert [piece.guessed for piece in found.pieces] == [False, False, True]
    assert width(found, 0) == pytest.approx(WIDEST)
    assert width(found, 1) == pytest.approx(WIDEST / 2)


def test_a_length_alone_gives_no_scale() -> None:
    found = drawn(
        "- {number: P-1, shape: body, sizes: [{what: Depth, value: '1', unit: mm}]}\n"
        "- {number: P-2, shape: ring}\n"
    )
    assert all(piece.guessed for piece in found.pieces)
    assert width(found, 0) == pytest.approx(WIDEST)


def test_a_parts_own_record_gives_its_sizes_but_not_those_of_one_piece_of_it() -> None:
    part = record(f"kind: part\nid: bowl\nnumber: P-1\nname: Bowl\n{sized('4', '2')}\n", "part", "bowl")
    plain = "- {number: P-1, shape: bowl}\n"
    assert not drawn(plain, part).pieces[0].guessed
    assert drawn(plain.replace("}", ", piece: rim}"), part).pieces[0].guessed


def test_nothing_is_too_small_to_be_seen() -> None:
    bowl, key = sized("9", "2"), sized("0.01", "0.01")
    found = drawn(f"- {{number: P-1, shape: bowl, {bowl}}}\n- {{number: P-2, shape: key, {key}}}\n")
    assert width(found, 1) == pytest.approx(LEAST)


def test_what_is_renewed_is_ringed_and_named() -> None:
    found = drawn("- {number: P-1, shape: ring}\n- {number: P-2, shape: ring}\n", renewed=("p-2",))
    assert [piece.renew for piece in found.pieces] == [False, True]


def test_a_piece_is_called_by_itself_and_a_long_name_goes_on_two_lines() -> None:
    part = record(
        "kind: part\nid: bowl\nnumber: P-1\nname: A name that is too long for one line of words\n",
        "part",
        "bowl",
    )
    found = drawn("- {number: P-1, shape: bowl}\n- {number: P-1, shape: ball, piece: ball, in: P-1}\n", part)
    assert found.pieces[0].words == ("A name that is too", "long for one line of", "P-1")
    assert found.pieces[1].words == ("ball", "P-1")
    assert found.pieces[1].edge > found.axis + 34
