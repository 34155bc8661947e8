"""A part number: whose it is, how it is written and called, and what names it."""

from __future__ import annotations

import pytest

from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Assembly, PartRecord, Record
from spanbook.register.link import build
from spanbook.register.model import Part
from tests.support.registers import record, register

PART = "kind: part\nid: {0}\nnumber: {1}\nname: {0}\nevidence: [{{source: book}}]\n"
LIST = "kind: assembly\nid: a\ntitle: A\nposition: cover\nserials: [{series: xa, first: 1, last: 5}]\n"
LOOK = "kind: teardown\nid: look\ndate: 2024\nseen-by: m\nserial: XA 3\ncondition: untouched\nfound:\n"
ACT = "kind: supersession\nid: s\nold: [{number: P-0}]\nnew: [{number: P-2}]\n"
KIT = "kind: conversion\nid: c\ntitle: C\nposition: cover\nfrom: [a]\nto: b\n"


def bolt(id_: str, number: str, more: str = "") -> PartRecord:
    made = record(PART.format(id_, number) + more, "part", id_)
    assert isinstance(made, PartRecord)
    return made


def listing(number: str, more: str = "") -> Record:
    return record(f"{LIST}parts: [{{number: {number}{more}}}]\n", "assembly", "a")


def part(number: str, *records: Record, by: str = "example-works") -> Part:
    return register(*records).parts[PartKey.of(by, number)]


def test_its_own_record_says_first_how_it_is_written_and_called() -> None:
    made = part("p-1", listing("p-1", ", name: Screw"), bolt("bolt", "P-1"))
    assert (made.number, made.name, made.names) == ("P-1", "bolt", ("bolt", "Screw"))
    assert [named.id for named in made.records] == ["bolt", "a"]


def test_one_without_a_name_has_none() -> None:
    assert part("P-2", record(ACT, "supersession", "s")).name == ""


def test_of_two_records_about_it_the_first_is_its_own() -> None:
    made = part("P-1", bolt("nut", "P-1"), bolt("bolt", "P-1"))
    assert made.record is not None
    assert made.record.id == "bolt"
    assert made.names == ("bolt", "nut")


def test_who_names_it_twice_is_told_once() -> None:
    twice = record(f"{LIST}number: P-1\nparts: [{{number: P-1, name: P}}]\n", "assembly", "a")
    assert part("P-1", twice).records == (twice,)


def test_a_size_of_another_number_mentions_nothing() -> None:
    sized = bolt("bolt", "P-1", "sizes: [{number: P-9, what: Bore, value: '20', unit: mm}]\n")
    assert list(register(sized).parts) == [PartKey.of("example-works", "P-1")]


def test_what_was_seen_or_measured_on_a_machine_is_named_by_its_teardown() -> None:
    look = record(
        LOOK + "- position: cover\n  parts: [{number: P-1}]\n"
        "  measurements: [{number: P-2, what: Bore, value: '20', unit: mm}]\n",
        "teardown",
        "look",
    )
    for number in ("P-1", "P-2"):
        made = part(number, look)
        assert made.teardowns == (look,)
        assert made.records == (look,)


@pytest.mark.parametrize(
    ("more", "by"), [("", "example-works"), ("number: K-1\n", "example-works"), ("number: K-1\nby: w\n", "w")]
)
def test_what_is_ordered_whole_has_a_number_or_none(more: str, by: str) -> None:
    kit = record(f"{KIT}{more}serials: [{{series: xa, first: 1, last: 5}}]\n", "conversion", "c")
    held = record(LIST + more, "assembly", "a")
    made = register(kit, held)
    for whole in (made.conversions["c"], made.assemblies["a"]):
        assert made.key_of_whole(whole) == (PartKey.of(by, "K-1") if more else None)
    assert {key: one.whole for key, one in made.parts.items()} == (
        {PartKey.of(by, "K-1"): (held, kit)} if more else {}
    )


@pytest.mark.parametrize(("by", "whose"), [("", "example-works"), ("by: w\n", "w")])
def test_it_is_the_makers_unless_the_record_says_whose(by: str, whose: str) -> None:
    made = register(bolt("bolt", "P-1", by))
    assert made.key_of_record(made.part_records["bolt"]) == PartKey.of(whose, "P-1")
    assert {statement.number for statement in made.statements if statement.number} == {
        PartKey.of(whose, "P-1")
    }
    listed = register(listing("P-1", f", name: P, {by.strip()}" if by else ", name: P"))
    (use,) = listed.uses_of(listed.assemblies["a"])
    assert listed.key_of(use.assembly, use.said) == PartKey.of(whose, "P-1")
    assert list(listed.parts) == [PartKey.of(whose, "P-1")]
    assert [s.anchor for s in listed.statements if s.number] == [f"part-{'w-' if by else ''}p-1"]


def test_where_no_maker_is_known_it_is_nobodys() -> None:
    held, own = listing("P-1", ", name: P"), bolt("bolt", "P-1")
    whole = record(LIST.replace("id: a", "id: b") + "number: P-1\n", "assembly", "b")
    made = build([held, own, whole])
    nobodys = PartKey.of("", "P-1")
    assert list(made.parts) == [nobodys]
    assert made.key_of_record(own) == nobodys
    assert isinstance(whole, Assembly)
    assert made.key_of_whole(whole) == nobodys
    assert isinstance(held, Assembly)
    assert made.key_of(held, held.parts[0]) == nobodys
