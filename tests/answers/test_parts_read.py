"""Numbers read on an assembly and not in its list: whose place they stand in, worked out by hand."""

from __future__ import annotations

import pytest

from spanbook.answers.applicability import Fits
from spanbook.answers.parts_read import PartsRead
from spanbook.answers.reasons import InPlace
from spanbook.answers.standing import Standing, standings
from spanbook.reading.records import Assembly, Record
from spanbook.wording.parts_read import also_read_words
from spanbook.wording.pieces import plain
from spanbook.wording.standings import reason_words
from tests.support.registers import record, register

BOOK = record("kind: source\nid: book\ntitle: B\nclass: parts-book\n", "source", "book")
LIST = """\
kind: assembly
id: pump
title: Pump
position: cover
number: P-0
serials: [{series: xa, first: 1, last: 20, evidence: [{source: book}]}]
parts:
- {number: P-1, name: Body}
- {number: P-2, name: Lid gasket}
- {number: P-3, name: Cover screw}
- {number: P-4, name: Cover screw}
"""
PUMP = record(LIST, "assembly", "pump")

LATER = "explained by a later change"


def read(*parts: str, condition: str = "untouched", serial: str = "XA 3") -> Record:
    named = ", ".join(f"{{{part}}}" for part in parts)
    text = (
        f'kind: teardown\nid: t\ndate: 2024\nseen-by: m\nserial: "{serial}"\nseries: xa\n'
        f"condition: {condition}\n"
        f"found: [{{position: cover, assembly: pump, parts: [{named}]}}]\n"
    )
    return record(text, "teardown", "t")


def act(old: str, new: str, more: str = "") -> Record:
    id_ = f"{old}-{new}".lower()
    text = f"kind: supersession\nid: {id_}\nold: [{{number: {old}}}]\nnew: [{{number: {new}}}]\n{more}"
    return record(text, "supersession", id_)


def kit(first: int = 1) -> Record:
    text = (
        "kind: conversion\nid: kit\ntitle: Gasket kit\nposition: cover\nfrom: [old]\nto: pump\n"
        f"serials: [{{series: xa, first: {first}, last: 20}}]\nadds: [{{number: P-9}}]\n"
    )
    return record(text, "conversion", "kit")


OLD = record(
    "kind: assembly\nid: old\ntitle: O\nposition: cover\n"
    "serials: [{series: xa, first: 1, last: 20, option: true}]\n",
    "assembly",
    "old",
)


def told(*records: Record) -> tuple[dict[str, list[str]], list[str]]:
    """The reasons of each line that a stranger does anything to, and what was also read."""
    fits = Fits(register(BOOK, PUMP, *records))
    lines = {
        str(s.number.number): [plain(reason_words(r)) for r in j.reasons if isinstance(r.shown, InPlace)]
        for s, j in standings(fits).items()
        if s.record is PUMP and s.number
    }
    assert isinstance(PUMP, Assembly)
    also = PartsRead(fits).of(PUMP).also
    return {line: words for line, words in lines.items() if words}, [
        one.part.number + plain(also_read_words(one)) for one in also
    ]


def test_a_number_of_the_same_name_is_against_the_line() -> None:
    lines, also = told(read("number: P-9, name: lid  Gasket"))
    assert lines == {"p-2": ["against: XA 3, seen 2024, read P-9 in its place"]}
    assert also == []
    made = Fits(register(BOOK, PUMP, read("number: P-9, name: Lid gasket")))
    standing = {str(s.number.number): j.standing for s, j in standings(made).items() if s.number}
    assert standing.pop("p-2") is Standing.DISPUTED
    assert set(standing.values()) == {Standing.PRINTED}


def test_what_the_number_is_called_elsewhere_tells_as_well() -> None:
    part = record("kind: part\nid: p9\nnumber: P-9\nname: Lid gasket\n", "part", "p9")
    assert told(read("number: P-9"), part)[0] == {"p-2": ["against: XA 3, seen 2024, read P-9 in its place"]}


@pytest.mark.parametrize(
    "parts",
    [
        ["number: P-9"],  # nobody says what it is
        ["number: P-9, name: Spring"],  # nothing in the list is called so
        ["number: P-9, name: Cover screw"],  # two lines are
        ["number: P-9, name: Lid gasket", "number: P-2"],  # the line was read there itself
    ],
)
def test_a_number_in_no_lines_place_is_told_as_it_is(parts: list[str]) -> None:
    assert told(read(*parts)) == ({}, ["P-9 on XA 3, seen 2024; condition untouched"])


@pytest.mark.parametrize("part", ["number: P-0", "number: p-2", "number: P-?"])
def test_what_is_no_stranger(part: str) -> None:
    assert told(read(part)) == ({}, [])


def test_a_line_that_the_machine_cannot_have_is_in_nobodys_place() -> None:
    """Of two lines called alike the one is for later machines; of a worn number it may be either's."""
    listed = LIST.replace(
        "- {number: P-4, name: Cover screw}",
        "- {number: P-4, name: Cover screw, serials: [{series: xa, first: 10, last: 20}]}",
    )
    made = record(listed, "assembly", "pump")
    assert isinstance(made, Assembly)
    for serial, lines in (("XA 3", ["p-3"]), ("XA 1?", [])):
        strangers = PartsRead(
            Fits(register(BOOK, made, read("number: P-9, name: Cover screw", serial=serial)))
        )
        assert [key.number for key in strangers.of(made).of_line] == lines
        assert [one.put_on for one in strangers.of(made).also] == [None] * (not lines)


def test_an_altered_machine_is_set_aside() -> None:
    lines, _ = told(read("number: P-9, name: Lid gasket", condition="altered"))
    assert lines == {"p-2": ["not counted: XA 3, seen 2024, read P-9 in its place; condition altered"]}


def test_supersession_explains_both_ways_and_over_several_acts() -> None:
    chain = act("P-2", "P-7"), act("P-7", "P-9")
    later = {"p-2": [f"{LATER}: XA 3, seen 2024, read P-9 in its place, which replaced it"]}
    # Also where it is called like another line: acts know better than names.
    assert told(read("number: P-9, name: Body"), *chain) == (later, [])
    assert told(read("number: P-9"), act("P-9", "P-2"))[0] == {
        "p-2": ["explained by a later change: XA 3, seen 2024, read P-9 in its place, which it replaced"]
    }
    # And where it is called like the very line.
    assert told(read("number: P-9, name: Lid gasket"), act("P-9", "P-2")) == (
        {"p-2": [f"{LATER}: XA 3, seen 2024, read P-9 in its place, which it replaced"]},
        [],
    )
    elsewhere = act("P-2", "P-9", "serials: [{series: xa, first: 10, last: 20}]\n")
    lines, _ = told(read("number: P-9, name: Lid gasket"), elsewhere)
    assert lines == {"p-2": ["against: XA 3, seen 2024, read P-9 in its place"]}


def test_acts_in_a_circle_end() -> None:
    circle = act("P-2", "P-7"), act("P-7", "P-2")
    assert told(read("number: P-9, name: Spring"), *circle)[1] == [
        "P-9 on XA 3, seen 2024; condition untouched"
    ]


def test_a_kit_that_makes_it_explains() -> None:
    lines, _ = told(OLD, kit(), read("number: P-9, name: Lid gasket"))
    assert lines == {
        "p-2": [f"{LATER}: XA 3, seen 2024, read P-9 in its place, which the Gasket kit puts on"]
    }
    assert told(OLD, kit(), read("number: P-9"))[1] == [
        "P-9 on XA 3, seen 2024; condition untouched; Gasket kit puts it on"
    ]
    lines, _ = told(OLD, kit(first=10), read("number: P-9, name: Lid gasket"))
    assert lines == {"p-2": ["against: XA 3, seen 2024, read P-9 in its place"]}
