"""Conversions: worked by hand on the demonstration and in small worlds, and against every possible way."""

from __future__ import annotations

import itertools
import json
import random
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from spanbook.answers import conversions
from spanbook.answers.applicability import Fits, Reading, read_serial
from spanbook.answers.conversions import NoPlan, Plan, convert
from spanbook.cli import main
from spanbook.reading.records import Record
from spanbook.reading.schemas import folder
from spanbook.register.model import Register
from spanbook.rules.checking import check_folder
from tests.support.registers import record, register

PROJECT = Path(__file__).parents[2]
DEMO = check_folder(PROJECT).register
FILTER, PUMP = "lubrication/oil-filter", "lubrication/oil-pump"
SCHEMA = Draft202012Validator(json.loads((folder() / "answer-convert.json").read_text()))


def reading(serial: str, made: Register = DEMO) -> Reading:
    return next(r for r in read_serial(made, serial) if r.issued)


def ids(plan: Plan | NoPlan) -> list[str]:
    assert isinstance(plan, Plan), plan
    return [step.conversion.id for step in plan.steps]


def test_what_a_full_flow_filter_needs_first() -> None:
    """The cartridge needs the wide pump, which has a conversion of its own: that comes first."""
    held = {FILTER: "edge-strainer", PUMP: "gear-pump-narrow"}
    plan = convert(DEMO, reading("HK 571"), held, {FILTER: "cartridge-filter"})
    assert ids(plan) == ["wide-pump-kit", "cartridge-kit"]
    assert isinstance(plan, Plan)
    assert plan.new_parts == 4 + 8


def test_two_steps_to_a_pump() -> None:
    held = {FILTER: "edge-strainer", PUMP: "plunger-oil-pump"}
    found = convert(DEMO, reading("HK 41"), held, {FILTER: "cartridge-filter"})
    # The wide pump is offered for HK 345 and up only: the first need that cannot be met is named.
    assert isinstance(found, NoPlan)
    assert found.unmet is not None
    assert (found.unmet[0].id, found.unmet[1].position) == ("cartridge-kit", PUMP)
    assert "wh-2260" in {key.number for key, _ in found.missing}


def test_a_way_back_only_where_a_conversion_says_so() -> None:
    held = {FILTER: "cartridge-filter", PUMP: "gear-pump-wide"}
    assert ids(convert(DEMO, reading("HK 571"), held, {FILTER: "edge-strainer"})) == ["strainer-restored"]
    found = convert(DEMO, reading("HK 571"), held, {PUMP: "gear-pump-narrow"})
    assert isinstance(found, NoPlan)
    assert [key.number for key, _ in found.missing] == ["wh-1221", "wh-1222", "wh-1223", "wh-1226"]


def test_a_machine_that_may_take_it_is_marked() -> None:
    held = {FILTER: "edge-strainer", PUMP: "gear-pump-wide"}
    plan = convert(DEMO, reading("HK 600"), held, {FILTER: "cartridge-filter"})
    assert isinstance(plan, Plan)
    assert [(s.conversion.id, s.maybe) for s in plan.steps] == [("cartridge-kit", True)]


def test_nothing_to_do() -> None:
    held = {FILTER: "edge-strainer"}
    assert convert(DEMO, reading("HK 571"), held, held) == Plan((), 0)


def test_ready_made_goals() -> None:
    fits = Fits(DEMO)
    works = conversions.as_it_left_the_works(fits, reading("HK 571"))
    assert (works[FILTER], works[PUMP]) == ("edge-strainer", "gear-pump-narrow")
    assert "cooling/thermostat" not in works
    latest = conversions.as_late_as_it_can_be(DEMO, reading("HK 571"), works)
    assert (latest[FILTER], latest[PUMP]) == ("cartridge-filter", "gear-pump-wide")
    assert isinstance(convert(DEMO, reading("HK 571"), works, latest), Plan)


def test_parts_side_by_side() -> None:
    found = conversions.difference(
        DEMO, DEMO.assemblies["gear-pump-narrow"], DEMO.assemblies["gear-pump-wide"]
    )
    assert [k.number for k, _ in found.kept] == ["wh-1224", "wh-1225"]
    assert [k.number for k, _ in found.added] == ["wh-1231", "wh-1232", "wh-1233", "wh-1236"]
    assert [k.number for k, _ in found.removed] == ["wh-1221", "wh-1222", "wh-1223", "wh-1226"]


def kit(id_: str, position: str, start: str, to: str, parts: int, needs: str = "") -> Record:
    adds = f"adds: [{{number: P, quantity: {parts}}}]\n" if parts else ""
    text = (
        f"kind: conversion\nid: {id_}\ntitle: {id_}\nposition: {position}\nfrom: [{start}]\nto: {to}\n"
        f"serials: [{{series: xa, first: 1, last: open}}]\n{adds}{needs}"
    )
    return record(text, "conversion", id_)


def test_ties_go_to_fewer_steps_and_then_to_the_first_id() -> None:
    made = register(
        kit("a", "cover", "x", "y", 1),
        kit("b", "cover", "y", "z", 1),
        kit("d", "cover", "x", "z", 2),
        kit("c", "cover", "x", "z", 2),
    )
    assert ids(convert(made, reading("XA 1", made), {"cover": "x"}, {"cover": "z"})) == ["c"]


PLACES = {"cover": ["c0", "c1", "c2"], "drain": ["d0", "d1", "d2"]}
kits = st.lists(
    st.tuples(
        st.sampled_from(sorted(PLACES)),
        st.permutations([0, 1, 2]),
        st.integers(0, 3),
        st.none() | st.integers(0, 2),
    ),
    max_size=7,
)


def world(drawn: list[tuple[str, list[int], int, int | None]]) -> list[Record]:
    records = []
    for i, (place, order, parts, need) in enumerate(drawn):
        other = "drain" if place == "cover" else "cover"
        needs = ""
        if need is not None:
            needs = f"needs: [{{position: {other}, assemblies: [{PLACES[other][need]}], why: X}}]\n"
        records.append(kit(f"k{i}", place, PLACES[place][order[0]], PLACES[place][order[1]], parts, needs))
    return records


def cheapest(made: Register, held: dict[str, str], wanted: dict[str, str]) -> tuple[int, int] | None:
    """Every state by relaxation until nothing changes: the reference that has no heap to be wrong."""
    states = [dict(zip(PLACES, both, strict=True)) for both in itertools.product(*PLACES.values())]
    best = {tuple(s.items()): (10**9, 10**9) for s in states}
    best[tuple(held.items())] = (0, 0)
    for _ in states:
        for state in states:
            for one in made.conversions.values():
                possible = state[one.position] in one.start and one.to != state[one.position]
                if possible and all(state[n.position] in n.assemblies for n in one.needs):
                    after = tuple({**state, one.position: one.to}.items())
                    parts, steps = best[tuple(state.items())]
                    cost = (parts + sum(u.quantity for u in one.adds), steps + 1)
                    best[after] = min(best[after], cost)
    found = min(
        (cost for state, cost in best.items() if wanted.items() <= dict(state).items()), default=(10**9, 0)
    )
    return found if found[0] < 10**9 else None


@given(kits, st.sampled_from(PLACES["cover"]), st.integers(0, 99))
def test_the_plan_is_the_cheapest_and_does_what_it_says(
    drawn: list[tuple[str, list[int], int, int | None]], goal: str, seed: int
) -> None:
    records = world(drawn)
    made = register(*records)
    held, wanted = {"cover": "c0", "drain": "d0"}, {"cover": goal}
    reference = cheapest(made, held, wanted)
    found = conversions._cheapest(conversions.applying(made, reading("XA 1", made)), held, wanted)
    assert (found is None) == (reference is None)
    if found is None or reference is None:
        return
    assert (found.new_parts, len(found.steps)) == reference
    state = dict(held)
    for step in found.steps:
        assert state[step.conversion.position] in step.conversion.start
        assert all(state[need.position] in need.assemblies for need in step.conversion.needs)
        state[step.conversion.position] = step.conversion.to
    assert state["cover"] == goal
    random.Random(seed).shuffle(records)
    other = register(*records)
    again = conversions._cheapest(conversions.applying(other, reading("XA 1", other)), held, wanted)
    assert again is not None
    assert ids(again) == ids(found)


@pytest.mark.parametrize(
    "arguments",
    [
        ("HK 571", "--to", "cartridge-filter"),
        ("HK 571", "--to", "duplex-strainer"),
        ("HK 571", "--to", "latest"),
        ("HK 571", "--from", "cartridge-filter", "--to", "works"),
        ("HK 41", "--to", "cartridge-filter"),
    ],
)
def test_json_keeps_to_its_schema(arguments: tuple[str, ...]) -> None:
    result = CliRunner().invoke(main, ["convert", *arguments, "--json", "--folder", str(PROJECT)])
    assert result.exit_code == 0, result.output
    assert list(SCHEMA.iter_errors(json.loads(result.output))) == []


def test_in_words() -> None:
    result = CliRunner().invoke(
        main, ["convert", "HK 571", "--to", "cartridge-filter", "--folder", str(PROJECT)]
    )
    lines = result.output.splitlines()
    assert lines[0] == "2 steps, 12 new parts."
    assert lines[1] == "1. Wide oil pump in place of the narrow one"
    assert "   get 1 × WH-1232 Driving gear, wide (order today: 1 × WH-1237)" in lines
    assert "   comes off, keep it: 1 × WH-1221 Pump body, narrow" in lines
    assert "   first: lubrication/oil-pump holds gear-pump-wide" in lines


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("HK 905", "--to", "cartridge-filter"), "HK 905 reads as 0 machines"),
        (("HK 571", "--to", "nothing"), "no record has the assembly nothing"),
    ],
)
def test_what_cannot_be_answered_says_why(arguments: tuple[str, ...], said: str) -> None:
    result = CliRunner().invoke(main, ["convert", *arguments, "--folder", str(PROJECT)])
    assert result.exit_code == 1
    assert said in result.output
