"""The answer of each record's page in one line."""

from __future__ import annotations

import pytest

from spanbook.reading.records import Source, Teardown
from spanbook.register.model import Register
from spanbook.wording.summaries import (
    act_summary,
    assembly_summary,
    conversion_summary,
    machine_summary,
    part_summary,
    position_summary,
    series_summary,
    source_summary,
    teardown_summary,
)
from tests.support.acts import act, key
from tests.support.registers import lid, record, register

FLAP = """\
kind: assembly
id: flap
title: Flap
position: cover
serials: [{series: xa, first: 1, last: 4, option: true}]
parts: [{number: P-1, name: Hinge}]
"""
KIT = (
    "{kind: conversion, id: kit, title: Lid kit, position: cover, from: [flap], to: lid, "
    "serials: [{series: xa, first: 1, last: 4}]}"
)
BOOK = "{kind: source, id: book, title: The book, class: parts-book, year: 1934}"
SEEN = (
    "kind: teardown\nid: t\ndate: 2024\nseen-by: m\nserial: XA 3\nseries: xa\ncondition: untouched\n"
    "found: [{position: cover, assembly: flap}, {position: drain}]\n"
)
LIMITED = act("on", "P-1", "P-3", "serials: [{series: xa, first: 1, last: 4}]\n")


@pytest.fixture(scope="module")
def made() -> Register:
    return register(
        record(FLAP, "assembly", "flap"),
        lid("lid", "first: 5, last: 8"),
        record(KIT, "conversion", "kit"),
        record(BOOK, "source", "book"),
        record(SEEN, "teardown", "t"),
        record(LIMITED, "supersession", "on"),
        record(act("end", "P-3", ""), "supersession", "end"),
    )


def test_a_machine_and_its_series(made: Register) -> None:
    machine = made.machines["x"]
    assert machine_summary(machine) == "X, by Example Works. Serial numbers XA 1 to XA 20; XA 15 to XA 40."
    assert series_summary(machine, machine.series[0]) == (
        "What left the works on XA 1 to XA 20 of the X, position by position."
    )


def test_a_position(made: Register) -> None:
    assert position_summary(made, made.positions["cover"]) == "Cover: Flap or lid."
    assert position_summary(made, made.positions["drain"]) == "Drain: nothing recorded yet."


def test_an_assembly_and_a_conversion(made: Register) -> None:
    assert assembly_summary(made, made.assemblies["flap"]) == (
        "Cover: Flap, from XA 1 to XA 4 (at the works, to order)."
    )
    assert conversion_summary(made, made.conversions["kit"]) == "Turns Flap into lid: from XA 1 to XA 4."


def test_a_part_number(made: Register) -> None:
    assert (
        part_summary(made.parts[key("P-1")], "Example Works") == "P-1, Hinge (Example Works). Goes in: Flap."
    )
    assert part_summary(made.parts[key("P-3")], "Example Works") == "P-3, a part (Example Works)."


def test_an_act(made: Register) -> None:
    on, end = (made.supersessions[id_] for id_ in ("on", "end"))
    assert act_summary(made, on) == "P-1 replaced by P-3, only from XA 1 to XA 4."
    assert act_summary(made, end) == "P-3 no longer supplied."


@pytest.mark.parametrize(
    ("count", "against", "said"),
    [
        (0, 0, "0 statements rest on it."),
        (1, 0, "1 statement rests on it."),
        (2, 1, "2 statements rest on it. It speaks against 1 statement."),
        (0, 2, "It speaks against 2 statements."),
    ],
)
def test_a_source(made: Register, count: int, against: int, said: str) -> None:
    book = made.sources["book"]
    assert isinstance(book, Source)
    assert source_summary(book, count, against) == f"Parts book, 1934. {said}"


def test_a_teardown(made: Register) -> None:
    seen = made.teardowns["t"]
    assert isinstance(seen, Teardown)
    assert teardown_summary(made, seen) == "What m saw on XA 3, 2024: cover and drain."
