"""How a machine is converted, in words: a lid that a kit turns into another, by hand."""

from __future__ import annotations

import pytest

from spanbook.answers.applicability import read_serial
from spanbook.answers.orders import orders
from spanbook.answers.plans import NoPlan, Plan, convert
from spanbook.register.model import Register
from spanbook.wording.conversions import (
    change_words,
    first_words,
    get_words,
    keep_words,
    part_words,
    plan_words,
    refusal_words,
    step_words,
    turns_words,
)
from tests.support.acts import act, key
from tests.support.registers import assembly, record, register

KIT = """\
kind: conversion
id: kit
title: Lid kit
position: cover
from: [old-lid, older-lid]
to: new-lid
serials: [{series: xa, first: 1, last: [10, 12]}]
adds: [{number: n1, name: Lid, quantity: 2}]
removes: [{number: o1, name: Cap}]
needs: [{position: drain, assemblies: [plug, tap], why: The lid leaks otherwise}]
"""


@pytest.fixture(scope="module")
def made() -> Register:
    lids = [assembly(id_, "first: 1, last: 20") for id_ in ("old-lid", "older-lid", "new-lid")]
    drains = [assembly(id_, "first: 1, last: 20", "drain") for id_ in ("plug", "tap")]
    later = record(act("later", "n1", "n2 3"), "supersession", "later")
    return register(*lids, *drains, record(KIT, "conversion", "kit"), later)


def planned(made: Register, serial: str, drain: str) -> Plan | NoPlan:
    held = {"cover": "old-lid", **({"drain": drain} if drain else {})}
    return convert(made, read_serial(made, serial)[0], held, {"cover": "new-lid"})


def test_how_much_there_is_to_do(made: Register) -> None:
    plan = planned(made, "XA 2", "tap")
    assert isinstance(plan, Plan)
    assert plan_words(plan) == "1 step, 2 new parts."
    assert plan_words(Plan(plan.steps * 2, 1)) == "2 steps, 1 new part."
    assert plan_words(Plan((), 0)) == "Nothing to do: it holds that already."


def test_a_machine_that_may_not_be_meant_is_told_so(made: Register) -> None:
    sure, unsure = (planned(made, serial, "tap") for serial in ("XA 2", "XA 11"))
    assert isinstance(sure, Plan)
    assert isinstance(unsure, Plan)
    assert step_words(sure.steps[0]) == "Lid kit"
    assert step_words(unsure.steps[0]) == "Lid kit (this machine may be one that it is for)"


def test_what_a_step_takes_and_leaves(made: Register) -> None:
    kit = made.conversions["kit"]
    today = orders(made, key("n1"), 2)
    assert get_words(made, kit, kit.adds[0], today) == "get 2 × n1 Lid (order today: 6 × n2)"
    assert keep_words(made, kit, kit.removes[0]) == "comes off, keep it: 1 × o1 Cap"
    assert first_words(kit.needs[0]) == "first: drain holds plug or tap"
    assert turns_words(made, kit) == "old-lid or older-lid to new-lid"


def test_what_is_ordered_under_its_own_number_is_said_once(made: Register) -> None:
    kit = made.conversions["kit"]
    today = orders(made, key("o1"), 1)
    assert get_words(made, kit, kit.removes[0], today) == "get 1 × o1 Cap"


def test_why_there_is_no_way(made: Register) -> None:
    found = planned(made, "XA 2", "")
    assert isinstance(found, NoPlan)
    assert tuple(refusal_words(made, found)) == (
        "There is no recorded way to the new-lid.",
        "kit needs plug or tap at drain first: The lid leaks otherwise.",
        "What this machine holds at drain is not known: say so if you know.",
    )
    assert part_words(made, key("n1"), 2) == "2 × n1 Lid"


def test_no_conversion_at_all_names_no_need(made: Register) -> None:
    found = convert(made, read_serial(made, "XA 15")[0], {"cover": "new-lid"}, {"cover": "old-lid"})
    assert isinstance(found, NoPlan)
    assert tuple(refusal_words(made, found)) == ("There is no recorded way to the old-lid.",)


def test_what_becomes_of_a_part() -> None:
    assert [change_words(*counts) for counts in ((0, 1), (2, 1), (1, 1))] == ["added", "taken off", "kept"]
