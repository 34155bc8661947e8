"""Orders worked by hand, each in a small world: limits, give-ups, sources that differ, circles."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from jsonschema_rs import Draft202012Validator

from spanbook.answers.act_claims import MOST_ACTS
from spanbook.answers.answers import Answers
from spanbook.answers.condition import Applies
from spanbook.answers.instead import would_do
from spanbook.answers.orders import Supply, orders
from spanbook.answers.readings import read_serial
from spanbook.answers.standing import Standing
from spanbook.answers.supersession import order_now
from spanbook.outputs.json import order as order_json
from spanbook.outputs.text import order as order_text
from spanbook.reading.schemas import folder
from spanbook.register.model import Register
from tests.support import worlds
from tests.support.acts import act, key, of, shown
from tests.support.registers import record, register
from tests.support.rows import each_row

SCHEMA = Draft202012Validator(json.loads((folder() / "answer-order.json").read_text()))
ITSELF = "on other machines: order p1 itself."
SOURCES = {"book": "parts-book", "letter": "service-letter", "fitter": "recollection"}


def world(*acts: tuple[str, str, str, str], more: tuple[Any, ...] = ()) -> Register:
    """Acts on series XA 1 to 100 with three sources to name."""
    sources = [
        record(f"kind: source\nid: {id_}\ntitle: The {id_}\nclass: {sort}\n", "source", id_)
        for id_, sort in SOURCES.items()
    ]
    made = [record(act(*one), "supersession", one[0]) for one in acts]
    return register(*sources, *made, *more, last="100")


def by(source: str, more: str = "") -> str:
    return f"evidence: [{{source: {source}}}]\n{more}"


def only(first: str, last: str) -> str:
    return f"serials: [{{series: xa, first: {first}, last: {last}}}]\n"


def on(first: str, last: str, source: str = "book") -> str:
    """Evidence and a limit."""
    return by(source, only(first, last))


def text(made: Register, number: str, serial: str | None = None, quantity: int = 1) -> str:
    reading = read_serial(made, serial)[0] if serial else None
    asked = (made, key(number), quantity, reading)
    would = would_do(made, key(number), reading)
    return order_text.as_text(Answers(made), number, order_now(*asked), orders(*asked), would, ())


def form(made: Register, number: str, serial: str | None = None) -> dict[str, Any]:
    reading = read_serial(made, serial)[0] if serial else None
    asked = (made, key(number), 1, reading)
    would = would_do(made, key(number), reading)
    found = order_json.as_object(Answers(made), number, serial, order_now(*asked), orders(*asked), would, ())
    assert list(SCHEMA.iter_errors(found)) == []
    return found


FROM_50 = world(("on", "p1", "p2", on("[50, 60]", "open")))


def test_an_act_that_only_may_apply_leaves_the_number_itself_beside() -> None:
    assert text(FROM_50, "p1", "XA 55").splitlines() == [
        "If this machine is meant, its number being in the uncertain part: order p2; "
        "if no act is meant for this machine: order p1 itself. Whether they are supplied is not known.",
        "  p2 (supply not known): if this machine is meant, its number being in the uncertain part; "
        "by p1 replaced by p2, on the word of The book.",
        "  p1 (supply not known): if no act is meant for this machine; no act says otherwise.",
        "  p1 replaced by p2: p2 (may apply to this machine: its number is in the uncertain part; "
        "only from somewhere between XA 50 and XA 60 to the end, XA 100). On the word of The book.",
        "Would also do:",
        "  p2 (supply not known): if this machine is meant, its number being in the uncertain part, "
        "by way of p1 replaced by p2 (printed at the weakest).",
    ]
    found = form(FROM_50, "p1", "XA 55")
    assert [(way["applies"], way["leaves"][0]["number"]) for way in found["alternatives"]] == [
        ("maybe", "p2"),
        ("maybe", "p1"),
    ]
    assert [way["applies"] for way in found["instead"][0]["ways"]] == ["maybe"]


@pytest.mark.parametrize(("serial", "ordered"), [("XA 49", ["1 p1"]), ("XA 61", ["1 p2"])])
def test_where_it_surely_applies_or_not_there_is_one_way(serial: str, ordered: list[str]) -> None:
    found = orders(FROM_50, key("p1"), 1, read_serial(FROM_50, serial)[0])
    assert shown(found) == ordered
    assert found.alternatives[0].grounds.applies is Applies.YES


def test_without_a_machine_an_act_for_some_never_says_yes() -> None:
    found = form(FROM_50, "p1")
    assert [way["applies"] for way in found["alternatives"]] == ["some", "some"]
    assert found["alternatives"][0]["conditions"][0]["only"] == [
        {"series": "xa", "first": 60, "last": 100, "surely": True},
        {"series": "xa", "first": 50, "last": 59, "surely": False},
    ]
    assert found["tree"]["acts"][0]["applies"] == "some"
    assert [end["applies"] for end in found["tree"]["ends"]] == ["some"]
    assert text(FROM_50, "p1").startswith(
        "On XA 60 to XA 100 and perhaps XA 50 to XA 59: order p2; on other machines: order p1 itself."
    )


def test_every_number_of_an_order_names_its_acts_with_their_sources() -> None:
    made = world(
        ("split", "p1", "p2, p3", by("book")), ("on", "p3", "p4", by("letter")), ("b", "p2", "", by("fitter"))
    )
    leaves = form(made, "p1")["alternatives"][0]["leaves"]
    told = [(leaf["number"], leaf["ending"], [one["act"] for one in leaf["acts"]]) for leaf in leaves]
    assert told == [("p2", "no longer supplied", ["b", "split"]), ("p4", "not known", ["on", "split"])]
    evidence = [one["evidence"][0]["source"] for one in leaves[0]["acts"]]
    assert (evidence, leaves[0]["acts"][0]["standing"]) == (["fitter", "book"], "recalled")


GIVEN_UP = world(("gone", "p1", "", on("1", "[50, 60]")))


def test_an_act_that_gives_nothing_for_some_names_itself_its_source_and_for_whom() -> None:
    lines = text(GIVEN_UP, "p1").splitlines()
    assert lines[0] == (
        "On XA 1 to XA 7, XA 10 to XA 50 and perhaps XA 51 to XA 60: it is no longer supplied, and nothing "
        "replaces it; on other machines: order p1 itself (supply not known)."
    )
    assert "by p1 no longer supplied, on the word of The book" in lines[1]
    assert lines[3] == (
        "  p1 no longer supplied (only from XA 1 to somewhere between XA 50 and XA 60). "
        "On the word of The book."
    )
    unsure = form(GIVEN_UP, "p1", "XA 55")["alternatives"]
    assert [(way["applies"], way["leaves"][0]["ending"]) for way in unsure] == [
        ("maybe", "no longer supplied"),
        ("maybe", "not known"),
    ]
    assert text(GIVEN_UP, "p1", "XA 61").startswith("Nobody has replaced it: order it under its own number")
    assert text(GIVEN_UP, "p1", "XA 5").startswith("It is no longer supplied, and nothing replaces it.")


DIFFER = {
    "replaced, or given up": (("on", "p1", "p2", by("book")), ("gone", "p1", "", by("letter"))),
    "two successors": (("on", "p1", "p2", by("book")), ("other", "p1", "p3", by("letter"))),
    "other quantities": (("on", "p1", "p2", by("book")), ("two", "p1", "p2 2", by("letter"))),
    "still current": (("on", "p1", "p2", by("book")), ("still", "p1", "", by("letter", "current: true\n"))),
    "current in the year it was replaced": (
        ("on", "p1", "p2", by("book", "year: 1936\n")),
        ("still", "p1", "", by("letter", "current: true\nyear: 1936\n")),
    ),
}


@pytest.mark.parametrize("acts", DIFFER.values(), ids=DIFFER.keys())
def test_sources_that_differ_are_claims(acts: tuple[tuple[str, str, str, str], ...]) -> None:
    made = world(*acts)
    ways = orders(made, key("p1")).alternatives
    assert [[one.id for one in way.grounds.acts] for way in ways] == [["on"], [acts[1][0]]]
    assert [[one.id for one in way.grounds.against] for way in ways] == [[acts[1][0]], ["on"]]
    answers = Answers(made)
    assert {answers.standing(one).standing for one in made.supersessions.values()} == {Standing.DISPUTED}
    assert text(made, "p1").startswith("Sources differ, and nothing is picked: order p2")


ALIKE = {
    "one source": (("on", "p1", "p2", by("book")), ("other", "p1", "p3", by("book"))),
    "said to be an alternative": (
        ("on", "p1", "p2", by("book")),
        ("other", "p1", "p3", by("letter", "alternative: true\n")),
    ),
    "without evidence": (("on", "p1", "p2", by("book")), ("other", "p1", "p3", "")),
    "for other machines": (
        ("on", "p1", "p2", on("1", "20")),
        ("other", "p1", "p3", on("21", "100", "letter")),
    ),
    "no other outcome": (("on", "p1", "p2", by("book")), ("other", "p1 2", "p2 2", by("letter"))),
    "current in an earlier year": (
        ("on", "p1", "p2", by("book", "year: 1936\n")),
        ("still", "p1", "", by("letter", "current: true\nyear: 1934\n")),
    ),
    "spoken against by name": (
        ("on", "p1", "p2", by("book")),
        ("other", "p1", "p3", "evidence: [{source: letter, against: true, note: No}]\n"),
    ),
}


@each_row("acts", ALIKE.values())
def test_what_is_no_quarrel(acts: tuple[tuple[str, str, str, str], ...]) -> None:
    made = world(*acts)
    assert all(not way.grounds.against for way in orders(made, key("p1")).alternatives)
    standings = {Answers(made).standing(one).standing for one in made.supersessions.values()}
    assert Standing.DISPUTED not in standings or "against: true" in acts[1][3]


def test_a_number_given_up_by_whoever_replaces_it_is_simply_replaced() -> None:
    made = world(("on", "p1", "p2", by("book")), ("gone", "p1", "", by("book")))
    assert shown(orders(made, key("p1"))) == ["1 p2"]


def test_what_was_current_before_it_was_replaced_is_replaced() -> None:
    assert shown(orders(world(*ALIKE["current in an earlier year"]), key("p1"))) == ["1 p2"]


def test_the_better_supported_claim_is_told_first() -> None:
    made = world(
        ("a", "p1", "p2", by("fitter")), ("b", "p1", "p3", by("letter")), ("c", "p1", "p4", by("book"))
    )
    assert shown(orders(made, key("p1"))) == ["1 p3", "1 p4", "1 p2"]


def test_no_way_takes_one_number_by_two_claims() -> None:
    made = world(
        ("split", "a", "b, c", by("book")),
        ("left", "b", "p1", by("book")),
        ("right", "c", "p1", by("book")),
        ("on", "p1", "p2", by("book")),
        ("other", "p1", "p3", by("letter")),
    )
    assert shown(orders(made, key("a"))) == ["2 p2", "2 p3"]


NEED = "needs: [{{number: {}}}]\n"
NEEDS = (
    ("on", "p1", "p2", by("book", NEED.format("q1"))),
    ("q", "q1", "q2", by("book", NEED.format("p1"))),
)


def test_needs_in_a_circle_end_as_that() -> None:
    (way,) = orders(world(*NEEDS), key("p1")).alternatives
    assert [(leaf.key.number, leaf.supply) for leaf in way.leaves] == [
        ("p2", Supply.UNKNOWN),
        ("q2", Supply.UNKNOWN),
        ("p1", Supply.NEEDS_CIRCLE),
    ]
    told = text(world(*NEEDS), "p1").splitlines()[0]
    assert told == "Order p2 (supply not known), q2 (supply not known) and p1 (part of a circle of needs)."


def problems(tmp_path: Path, *acts: tuple[str, str, str, str]) -> list[str]:
    files = (f"# file: content/supersessions/{one[0]}.yml\n{act(*one)}" for one in acts)
    names = ("supersession-cycle", "supersession-needs-circle")
    return [p.name for p in worlds.check(tmp_path, "".join(files)).problems if p.name in names]


def test_check_tells_needs_in_a_circle(tmp_path: Path) -> None:
    assert problems(tmp_path, *NEEDS) == ["supersession-needs-circle"]


@pytest.mark.parametrize(
    ("there", "back", "told"),
    [
        (("1", "9"), ("10", "20"), []),
        (("1", "[9, 12]"), ("10", "20"), ["supersession-cycle"]),
        (("1", "10"), ("10", "20"), ["supersession-cycle"]),
    ],
)
def test_a_circle_is_one_only_where_its_machines_meet(
    tmp_path: Path, there: tuple[str, str], back: tuple[str, str], told: list[str]
) -> None:
    acts = (("on", "p1", "p2", by("book", only(*there))), ("back", "p2", "p1", by("book", only(*back))))
    assert problems(tmp_path, *acts) == told


def test_acts_that_never_meet_are_followed_each_for_its_machines() -> None:
    acts = (
        ("on", "p1", "p2", on("1", "7")),
        ("back", "p2", "p1", on("10", "20")),
    )
    assert text(world(*acts), "p1").startswith(
        "On XA 1 to XA 7: order p2; on other machines: order p1 itself."
    )


def test_one_way_is_told_once() -> None:
    made = of(("a", "p1", "q, r"), ("b", "q", "s"), ("c", "r", "s"), ("d", "s", "p2"), ("e", "s", "p3"))
    assert shown(orders(made, key("p1"))) == ["2 p2", "1 p2, 1 p3", "2 p3"]


def test_two_acts_for_the_same_are_one_way_on_both_their_words() -> None:
    made = world(("a", "p1", "p2", by("book")), ("b", "p1", "p2", by("letter")))
    (way,) = orders(made, key("p1")).alternatives
    assert [one.id for one in way.grounds.acts] == ["a", "b"]


def test_the_same_for_some_by_one_act_and_for_others_by_another_is_one_way_for_both() -> None:
    made = world(("a", "p1", "p2", on("1", "7")), ("b", "p1", "p2", on("20", "100")))
    told = text(made, "p1").splitlines()[0]
    assert told.startswith(
        "On XA 1 to XA 7 and XA 20 to XA 100: order p2; on other machines: order p1 itself."
    )


def test_a_way_is_told_only_after_its_conversions() -> None:
    head = "kind: conversion\nid: kit\ntitle: Kit\nposition: cover\nfrom: [a]\nto: b\n"
    kit = record(head + only("1", "20"), "conversion", "kit")
    made = world(
        ("on", "p1", "p2", by("book", "needs: [{conversion: kit}]\n")),
        more=(kit,),
    )
    assert text(made, "p1").startswith("Only after the conversion Kit: order p2.")
    assert form(made, "p1")["alternatives"][0]["conditions"] == [
        {"applies": "yes", "only": None, "after": ["kit"], "done": [], "not-done": []}
    ]
    assert form(made, "p1")["instead"][0]["ways"][0]["after"] == ["kit"]


def test_a_thicket_on_one_number_is_cut_and_said_to_be() -> None:
    many = [(f"a{i:03}", "p1", "p2", by("book")) for i in range(MOST_ACTS + 1)]
    found = orders(world(*many), key("p1"))
    assert [way.leaves[0].supply for way in found.alternatives] == [Supply.UNKNOWN, Supply.TOO_MANY]


def test_what_would_do_tells_for_whom_and_what_became_of_it() -> None:
    made = world(
        ("a", "p1", "p2", by("book", "interchange: both\n" + only("1", "7"))),
        ("b", "p2", "p3", by("book")),
        ("c", "p1", "p3", on("20", "100")),
    )
    found = {one.keys[0].number: one for one in would_do(made, key("p1")).each}
    assert [str(fate) for fate in found["p2"].fates[0]] == ["itself-replaced"]
    # By way of p2 on the first machines, and at once on the later ones.
    spans = [
        [(s.first, s.last) for s in way.condition.machines.in_series("xa").surely]
        for way in found["p3"].ways
        if way.condition.machines
    ]
    assert spans == [[(20, 100)], [(1, 7)]]
    back = would_do(made, key("p2"), read_serial(made, "XA 30")[0])
    assert [one.keys[0].number for one in back.each] == ["p3"]


def test_an_order_is_simple_where_it_is_for_everybody_and_nobody_disputes_it() -> None:
    def simple(*acts: tuple[str, str, str, str]) -> list[tuple[list[str], bool]]:
        ways = orders(world(*acts), key("p1")).alternatives
        return [([leaf.key.number for leaf in way.leaves], way.simple) for way in ways]

    assert simple(("a", "p1", "p2", by("book"))) == [(["p2"], True)]
    assert simple(("a", "p1", "p2", on("1", "40"))) == [(["p2"], False), (["p1"], False)]


def test_one_order_after_either_of_two_conversions_has_both_conditions() -> None:
    acts = ((f"by-{k}", "p1", "p2", f"needs: [{{conversion: {k}}}]\n") for k in ("kit", "lid"))
    (way,) = orders(world(*acts), key("p1")).alternatives
    assert [condition.after for condition in way.conditions] == [("kit",), ("lid",)]


def test_a_number_of_a_parts_list_is_not_first_named_by_an_act() -> None:
    made = ("a", "p0", "p1", by("book", "year: 1936\n"))
    listed = record(
        "kind: assembly\nid: lid\ntitle: Lid\nposition: cover\nserials:\n- {series: xa, first: 1, last: 9}\n"
        "parts:\n- {number: p1, name: Lid}\n",
        "assembly",
        "lid",
    )
    assert orders(world(made), key("p1"), year=1930).first_named == 1936
    assert orders(world(made, more=(listed,)), key("p1"), year=1930).first_named is None
