"""The search for plans: what it looks at, where it gives up, and all the ways that are as cheap. By hand."""

from __future__ import annotations

import pytest

from spanbook.answers import plan_search
from spanbook.answers.plan_search import Search
from spanbook.answers.plan_ways import MOST_WAYS, Ways, ids_of
from spanbook.answers.plans import Plan, convert
from spanbook.answers.readings import read_serial
from spanbook.answers.steps import Steps
from spanbook.reading.records import Record
from spanbook.register.link import build
from spanbook.register.model import Register
from tests.answers import test_plans_nested as nested
from tests.answers.test_plans import MACHINE, ids, kit, planned, refused, world
from tests.support.registers import assembly, record

LIMIT = "MOST_STATES"
CHAIN = ("x", *(f"z{i}" for i in range(9)), "y")


def searched(made: Register, holds: dict[str, str], wanted: dict[str, str]) -> tuple[Ways, int]:
    """The ways, and how many states were looked at."""
    search = Search(Steps(made, read_serial(made, "XA 1")[0]), holds, wanted)
    return search.ways(), search.states


def told(ways: Ways) -> list[tuple[str, ...]]:
    return [ids_of(way) for way in ways.each]


# What is looked at


@pytest.mark.parametrize(
    ("beside", "states"),
    [
        ([], 1),
        # What leads elsewhere, or on from the goal and back to it, is left aside.
        ([kit(f"b{i}", "cover", "x", f"b{i}", 0) for i in range(9)], 1),
        ([kit("on", "cover", "y", "w", 0), kit("back", "cover", "w", "y", 0)], 1),
        # What is dearer to its end is left where it begins.
        ([kit(f"c{i}", "cover", one, CHAIN[i + 1], 5) for i, one in enumerate(CHAIN[:-1])], 2),
    ],
    ids=["alone", "elsewhere", "beyond", "dearer"],
)
def test_nothing_is_looked_at_that_cannot_be_on_the_cheapest_way(beside: list[Record], states: int) -> None:
    ways, looked_at = searched(
        world(kit("a", "cover", "x", "y", 40), *beside), {"cover": "x"}, {"cover": "y"}
    )
    assert (told(ways), looked_at) == ([("a",)], states)


def test_a_position_whose_need_is_met_and_stays_met_is_not_searched() -> None:
    made = world(
        kit("a", "cover", "x", "y", 9, needs="pump: wide"),
        kit("b", "pump", "wide", "narrow", 0),
        kit("c", "pump", "narrow", "wide", 0),
    )
    ways, looked_at = searched(made, {"cover": "x", "pump": "wide"}, {"cover": "y"})
    assert (told(ways), looked_at) == ([("a",)], 1)


def test_a_place_inside_that_nobody_asks_about_is_not_searched() -> None:
    made = nested.world(
        nested.kit("k", "filter", "f0", "f1", "adds: [{number: Z, quantity: 9}]\n"),
        nested.kit("l", "filter/valve", "v0", "v1"),
        nested.kit("m", "filter/valve", "v1", "v0"),
    )
    ways, looked_at = searched(made, {"filter": "f0"}, {"filter": "f1"})
    assert (told(ways), looked_at) == ([("k",)], 1)


def test_what_is_around_a_place_is_not_searched_where_it_stays() -> None:
    made = nested.world(
        nested.kit("k", "filter/valve", "v0", "v1", "adds: [{number: Z, quantity: 9}]\n"),
        nested.kit("l", "filter", "f1", "f2"),
        nested.kit("m", "filter", "f2", "f1"),
    )
    ways, looked_at = searched(made, {"filter": "f1", "filter/valve": "v0"}, {"filter/valve": "v1"})
    assert (told(ways), looked_at) == ([("k",)], 1)


def test_a_step_that_changes_two_positions_is_looked_at_once() -> None:
    made = nested.world(
        nested.kit("k", "filter", "f0", "f1", "also: [{position: pump, from: [p0], to: p1}]\n")
    )
    ways, looked_at = searched(made, {"filter": "f0", "pump": "p0"}, {"filter": "f1", "pump": "p1"})
    # Each position for itself first, and then the two together.
    assert (told(ways), looked_at) == ([("k",)], 3)


def test_a_step_that_changes_two_positions_begins_only_with_what_it_asks_of_both() -> None:
    both = nested.kit("k", "filter", "f0", "f1", "also: [{position: pump, from: [p0], to: p1}]\n")
    holds, wanted = {"filter": "f0", "pump": "p2"}, {"filter": "f1"}
    assert searched(nested.world(both), holds, wanted)[0].each == ()
    back = nested.kit("l", "pump", "p2", "p0")
    assert told(searched(nested.world(both, back), holds, wanted)[0]) == [("l", "k")]


def test_what_is_reached_first_by_a_dear_step_is_had_by_the_cheaper_ones() -> None:
    made = world(
        kit("a", "cover", "x", "y", 9), kit("b", "cover", "x", "w", 0), kit("c", "cover", "w", "y", 0)
    )
    assert told(searched(made, {"cover": "x"}, {"cover": "y"})[0]) == [("b", "c")]


@pytest.mark.parametrize(("each", "at_once"), [(0, 9), (7, 75)])
def test_many_steps_of_few_parts_are_cheaper_than_one_of_more(each: int, at_once: int) -> None:
    chain = (kit(f"c{i}", "cover", one, CHAIN[i + 1], each) for i, one in enumerate(CHAIN[:-1]))
    ways, _ = searched(world(kit("a", "cover", "x", "y", at_once), *chain), {"cover": "x"}, {"cover": "y"})
    assert told(ways) == [tuple(f"c{i}" for i in range(10))]


# Where it gives up


def test_what_was_found_before_giving_up_is_told_and_that_there_may_be_more(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The two ways end alike but for what the lid goes on needing; the limit falls between them."""
    made = world(
        kit("a", "cover", "x", "y", needs="pump: wide"),
        kit("b", "cover", "x", "y", needs="pump: wide or narrow"),
        kit("w", "pump", "narrow", "wide"),
    )
    holds, wanted = {"cover": "x", "pump": "narrow"}, {"cover": "y", "pump": "wide"}
    whole, needed = searched(made, holds, wanted)
    assert (told(whole), whole.more) == ([("b", "w"), ("w", "a")], False)
    cut = 0
    for most in range(1, needed):
        monkeypatch.setattr(plan_search, LIMIT, most)
        try:
            ways, _ = searched(made, holds, wanted)
        except plan_search.GaveUpError:
            continue
        cut += ways.more
        assert set(told(ways)) <= set(told(whole))
        assert ways.more or told(ways) == told(whole)
    assert cut


@pytest.mark.parametrize("most", [1, 2])
def test_the_states_that_were_looked_at_are_told_where_it_gives_up(
    monkeypatch: pytest.MonkeyPatch, most: int
) -> None:
    made = world(*(kit(f"c{i}", "cover", one, CHAIN[i + 1]) for i, one in enumerate(CHAIN[:-1])))
    monkeypatch.setattr(plan_search, LIMIT, most)
    assert refused(planned(made, {"cover": "x"}, cover="y")).states == most


# All that are as cheap


def test_as_many_plans_as_are_listed_are_not_said_to_be_more() -> None:
    made = world(*(kit(f"k{i}", "cover", "x", "z") for i in range(MOST_WAYS)))
    plan = planned(made, {"cover": "x"}, cover="z")
    assert isinstance(plan, Plan)
    assert (1 + len(plan.others), plan.more) == (MOST_WAYS, False)


# What the tree of positions says


def test_a_position_that_no_tree_names_can_be_converted() -> None:
    held = [assembly(id_, "first: 1, last: 20", "cover") for id_ in ("x", "y")]
    made = build([record(MACHINE, "machine", "x"), *held, kit("k", "cover", "x", "y")])
    assert ids(planned(made, {"cover": "x"}, cover="y")) == ["k"]


def test_what_is_inside_goes_along_with_what_is_itself_inside_another() -> None:
    tree = """\
kind: positions
positions:
- id: block
  title: Block
  positions:
  - id: filter
    title: Filter
    within: [b]
    positions:
    - id: valve
      title: Valve
      within: [f1, f2]
"""
    places = {"b": "block", "f1": "block/filter", "f2": "block/filter", "v": "block/filter/valve"}
    held = [assembly(id_, "first: 1, last: 20", place) for id_, place in places.items()]
    positions = record(tree, "positions", "positions")
    swap = kit("k", "block/filter", "f1", "f2")
    made = build([record(MACHINE, "machine", "x"), positions, *held, swap])
    holds = {"block": "b", "block/filter": "f1", "block/filter/valve": "v"}
    wanted = {"block/filter": "f2", "block/filter/valve": "v"}
    assert ids(convert(made, read_serial(made, "XA 1")[0], holds, wanted)) == ["k"]


def test_what_went_with_what_was_around_it_may_be_put_back_by_a_step_that_begins_with_anything() -> None:
    made = nested.world(
        nested.kit("off", "filter", "f1", "f0"),
        nested.kit("on", "filter", "f0", "f2"),
        nested.kit("put", "pump", "p0", "p1", "also: [{position: filter/valve, to: v0}]\n"),
    )
    holds = {"pump": "p0", "filter": "f1", "filter/valve": "v0"}
    assert ids(nested.planned(made, holds, {"filter": "f2", "filter/valve": "v0"})) == ["off", "on", "put"]


TAKES_V = "takes: [{position: filter/valve, number: V}]\n"


def test_a_part_is_taken_twice_only_where_what_is_around_the_place_was_changed_in_between() -> None:
    twice = nested.kit("k", "pump", "p0", "p1", TAKES_V), nested.kit("l", "pump", "p1", "p2", TAKES_V)
    holds = {"pump": "p0", "filter": "f1", "filter/valve": "v0"}
    assert searched(nested.world(*twice), holds, {"pump": "p2"})[0].each == ()
    off = nested.kit("off", "filter", "f1", "f0")
    on = nested.kit("on", "filter", "f0", "f1", "also: [{position: filter/valve, to: v0}]\n")
    plan = nested.planned(nested.world(*twice, off, on), holds, {"pump": "p2"})
    assert ids(plan) == ["k", "off", "on", "l"]


def test_what_a_place_needed_is_no_need_once_what_is_around_it_is_gone() -> None:
    made = nested.world(
        nested.kit("m", "filter/valve", "v1", "v0", "needs: [{position: pump, assemblies: [p1], why: It}]\n"),
        nested.kit("l", "pump", "p1", "p2", TAKES_V),
        nested.kit("off", "filter", "f1", "f0"),
    )
    holds = {"pump": "p1", "filter": "f1", "filter/valve": "v1"}
    assert ids(nested.planned(made, holds, {"pump": "p2"})) == ["m", "l", "off"]


def test_what_was_taken_off_what_is_gone_is_not_missing_of_what_comes_in_its_place() -> None:
    made = nested.world(
        nested.kit("rob", "pump", "p0", "p1", "takes: [{position: filter/valve, number: V}]\n"),
        nested.kit("off", "filter", "f1", "f0"),
        nested.kit("on", "filter", "f0", "f1", "also: [{position: filter/valve, to: v0}]\n"),
    )
    holds = {"pump": "p0", "filter": "f1", "filter/valve": "v0"}
    plan = nested.planned(made, holds, {"pump": "p1", "filter/valve": "v0"})
    assert ids(plan) == ["rob", "off", "on"]
    assert isinstance(plan, Plan)
    assert plan.left == ()


def test_what_is_taken_off_what_the_same_step_takes_away_is_not_missing_of_anything() -> None:
    made = nested.world(
        nested.kit("k", "filter", "f1", "f0", "takes: [{position: filter/valve, number: V}]\n")
    )
    plan = nested.planned(made, {"filter": "f1", "filter/valve": "v0"}, {"filter": "f0"})
    assert ids(plan) == ["k"]
    assert isinstance(plan, Plan)
    assert plan.left == ()
