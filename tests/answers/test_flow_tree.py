"""Small circuits as trees of rows and of ways side by side, worked by hand."""

from __future__ import annotations

import pytest

from spanbook.answers.flow.tree import Beside, Row, Tree, pieces_in, tree
from spanbook.reading.records import Way
from tests.answers.test_flow import BEARINGS, ELEMENT, PUMP, VALVE, network, way


def shape(of: Tree | None) -> object:
    """Rows as lists, what is side by side as tuples, pieces by their ids."""
    match of:
        case Row():
            return [shape(part) for part in of.parts]
        case Beside():
            return tuple(shape(part) for part in of.parts)
        case None:
            return None
        case _:
            return of.id


def drawn(*ways: Way) -> object:
    return shape(tree(network(*ways)))


PIPE = way("pipe", "delivery", "gallery", "pipe")


def test_what_runs_on_is_one_row_however_long_and_what_runs_beside_is_one_group() -> None:
    made = tree(
        network(
            way("bearings", "end", "sump", "clearance", serves=True),
            way("cooler", "gallery", "end", "pipe"),
            VALVE,
            ELEMENT,
            PIPE,
            PUMP,
        )
    )
    assert shape(made) == ["pump", ("element", "pipe", "valve"), "cooler", "bearings"]
    assert isinstance(made, Row)
    assert made.places == ("delivery", "gallery", "end")
    assert [piece.id for piece in pieces_in(made)] == [
        *("pump", "element", "pipe", "valve", "cooler", "bearings")
    ]


def test_what_serves_stands_before_what_does_not_and_a_valve_last() -> None:
    jet = way("jet", "delivery", "sump", "jet", serves=True)
    main = way("main", "delivery", "sump", "relief")
    served = [way("on", "delivery", "a", "pipe"), way("big-end", "a", "sump", "clearance", serves=True)]
    drain = way("drain", "delivery", "sump", "pipe")
    assert drawn(PUMP, main, drain, *served) == ["pump", (["on", "big-end"], "drain", "main")]
    assert drawn(PUMP, drain, jet) == ["pump", ("jet", "drain")]


def test_what_is_shut_is_no_part_of_it() -> None:
    plug = way("plug", "delivery", "sump", "plug")
    assert drawn(PUMP, plug, PIPE, BEARINGS) == ["pump", "pipe", "bearings"]
    assert drawn(plug) is None


@pytest.mark.parametrize(
    "ways",
    [
        (),
        (PUMP,),
        (PIPE, BEARINGS),
        (PUMP, way("round", "delivery", "delivery", "pipe"), PIPE, BEARINGS),
        (way("round", "a", "a", "pipe"), way("drip", "sump", "sump", "pipe")),
        (PUMP, PIPE, BEARINGS, way("blind", "gallery", "blind", "pipe")),
    ],
    ids=["nothing", "no way out", "no way in", "back to where it began", "a ring apart", "a dead end"],
)
def test_what_is_not_from_open_to_open_is_no_tree(ways: tuple[Way, ...]) -> None:
    assert drawn(*ways) is None


def test_one_way_from_open_to_open_is_a_tree_of_one() -> None:
    assert drawn(way("drip", "sump", "sump", "pipe")) == "drip"
