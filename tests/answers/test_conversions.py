"""Conversions: worked by hand on the demonstration and in small worlds, and against every possible way."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner
from jsonschema_rs import Draft202012Validator

from spanbook.answers import conversions
from spanbook.answers.applicability import Fits
from spanbook.answers.plans import NoPlan, Plan, convert
from spanbook.answers.readings import Reading, read_serial
from spanbook.cli import main
from spanbook.reading.records import Record
from spanbook.reading.schemas import folder
from spanbook.register.model import Register
from tests.support.demo import demo
from tests.support.registers import record, register

PROJECT = Path(__file__).parents[2]
DEMO = demo()
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
    assert found.need is not None
    assert (found.need[0].id, found.need[1].position) == ("cartridge-kit", PUMP)
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
    assert works["cooling/thermostat"] == "no-thermostat"
    assert "drive/gearbox" not in works
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
    assert "   get 1 × WH-1232 Driving gear, wide (order today: WH-1237 Gear pair, wide)" in lines
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
