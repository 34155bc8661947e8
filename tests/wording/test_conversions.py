"""How a machine is converted, in words: a lid that a kit turns into another, by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from spanbook.answers.answers import Answers
from spanbook.answers.orders import orders
from spanbook.answers.plans import NoPlan, Plan, Why, convert
from spanbook.answers.readings import read_serial
from spanbook.ground.language import speaking
from spanbook.register.model import Register
from spanbook.wording.conversions import (
    BACK_WHOLE,
    advised_words,
    back_words,
    change_words,
    first_words,
    get_words,
    keep_words,
    must_words,
    others_words,
    part_words,
    plan_words,
    refusal_words,
    step_words,
    word_words,
)
from spanbook.wording.planning import words
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
    assert "".join(get_words(made, kit, kit.adds[0], today)) == "get 2 × n1 Lid (order today: 6 × n2)"
    assert "".join(keep_words(made, kit, kit.removes[0])) == "comes off, keep it: 1 × o1 Cap"
    assert first_words(kit.needs[0]) == "first: drain holds plug or tap"


def test_what_is_ordered_under_its_own_number_is_said_once(made: Register) -> None:
    kit = made.conversions["kit"]
    today = orders(made, key("o1"), 1)
    assert "".join(get_words(made, kit, kit.removes[0], today)) == "get 1 × o1 Cap"


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


def test_on_whose_word_a_step_is_and_who_is_against_it() -> None:
    book = record("kind: source\nid: book\ntitle: Book\nclass: manual\n", "source", "book")
    letter = record("kind: source\nid: letter\ntitle: Letter\nclass: correspondence\n", "source", "letter")
    evidence = "evidence: [{source: book}, {source: letter, against: true, note: It was never offered}]\n"
    lids = [assembly(id_, "first: 1, last: 20") for id_ in ("old-lid", "older-lid", "new-lid")]
    drains = [assembly(id_, "first: 1, last: 20", "drain") for id_ in ("plug", "tap")]
    for more, told in (
        ("", "no evidence, on the word of no evidence named"),
        ("evidence: [{source: book}]\n", "printed, on the word of Book"),
        (evidence, "disputed, on the word of Book; against it: Letter"),
    ):
        made = register(*lids, *drains, book, letter, record(KIT + more, "conversion", "kit"))
        judged = Answers(made).standing(made.conversions["kit"])
        assert word_words(judged) == told


def test_plans_as_cheap_and_advice_that_is_missed_are_told() -> None:
    lids = [assembly(id_, "first: 1, last: 20") for id_ in ("old-lid", "older-lid", "new-lid")]
    drains = [assembly(id_, "first: 1, last: 20", "drain") for id_ in ("plug", "tap")]
    advised = KIT.replace("otherwise}", "otherwise, advice: true}")
    other = advised.replace("id: kit\ntitle: Lid kit", "id: kit-b\ntitle: Other kit")
    kits = [record(advised, "conversion", "kit"), record(other, "conversion", "kit-b")]
    plan = planned(register(*lids, *drains, *kits), "XA 11", "")
    assert isinstance(plan, Plan)
    made = register(*lids, *drains, *kits)
    assert list(others_words(plan)) == [
        "As few parts and steps: Other kit (this machine may be one that it is for)."
    ]
    assert list(advised_words(made, plan)) == [
        "Mind: Lid kit is better with plug or tap at drain, and this ends without: The lid leaks otherwise."
    ]
    assert first_words(plan.steps[0].conversion.needs[0]) == "better with: drain holds plug or tap"
    assert must_words(plan.steps[0].conversion.needs[0]) == "ought to hold"
    assert list(others_words(replace(plan, more=True)))[-1] == (
        "There may be more plans of as few parts and steps."
    )


@pytest.mark.parametrize(
    ("why", "said"),
    [
        (Why.GAVE_UP, "Gave up after 7 states: whether there is a way to the new-lid is not known."),
        (
            Why.NOT_TOGETHER,
            "There is no recorded way to the new-lid: what it needs cannot be had in any order.",
        ),
        (Why.BROKEN, "No recorded way ends well: the one by the new-lid would break a need of its own."),
    ],
)
def test_other_reasons_why_there_is_no_plan(made: Register, why: Why, said: str) -> None:
    need = (made.conversions["kit"], made.conversions["kit"].needs[0])
    found = NoPlan("cover", "new-lid", why, need if why is Why.BROKEN else None, states=7)
    told = list(refusal_words(made, found))
    assert told[0] == said
    if why is Why.BROKEN:
        assert told[1:] == ["kit needs plug or tap at drain at the end too: The lid leaks otherwise."]


BACK = """\
kind: conversion
id: back
title: Old lid again
position: cover
from: [new-lid]
to: old-lid
serials: [{series: xa, first: 1, last: 5}]
adds: [{number: o1, name: Cap}]
"""


def test_the_way_back_is_told_where_one_is_recorded_for_the_machine(made: Register) -> None:
    with_one = register(*made.records, record(BACK, "conversion", "back"))
    for serial, told in {
        "XA 2": "The way back: 1 step, 1 new part. Old lid again.",
        "XA 6": "The way back: There is no recorded way to the old-lid.",
    }.items():
        plan = planned(with_one, serial, "tap")
        assert isinstance(plan, Plan)
        assert back_words(with_one, plan) == told
        left = replace(plan, left=(("drain", key("o1"), 1),))
        assert back_words(with_one, left).startswith(BACK_WHOLE)


def test_where_nothing_known_changes_there_is_no_way_back_to_tell(made: Register) -> None:
    assert back_words(made, Plan((), 0)) == ""


def test_a_conversion_is_told_in_another_language(made: Register) -> None:
    kit = made.conversions["kit"]
    today = orders(made, key("n1"), 2)
    with speaking("de"):
        assert (
            "".join(get_words(made, kit, kit.adds[0], today))
            == "2 × n1 Lid besorgen (heute bestellen: 6 × n2)"
        )
        assert first_words(kit.needs[0]) == "zuerst: drain hat plug oder tap"
        assert words()["steps"] == {"one": "{} Schritt", "other": "{} Schritte"}
