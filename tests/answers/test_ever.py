"""What may ever have been on which machines: each way in which it may have come there, by hand."""

from __future__ import annotations

import pytest

from spanbook.answers.applicability import Fits
from spanbook.answers.ever import Ever
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Record
from spanbook.register.link import build
from spanbook.register.model import Register
from tests.answers import test_nested as nested
from tests.answers.test_questions import seen
from tests.answers.test_shortfalls import BOOK, act, assembly, kit, runs
from tests.support.registers import MACHINE, POSITIONS, record, register
from tests.support.registers import assembly as inside

Runs = list[tuple[int, int | None]]


def ever(*records: Record) -> Ever:
    return Ever(Fits(register(BOOK, *records)))


def held(made: Ever, id_: str, position: str = "cover", series: str = "xa") -> Runs:
    return runs(made.any_of((made.register.series[series], position), [id_]))


def key(made: Register, number: str) -> PartKey:
    (found,) = (one for one in made.parts if one.number == number.lower())
    return found


def had(made: Ever, number: str) -> Runs:
    """Where a part may have been by what is listed and by acts."""
    return runs(made.parts(made.register.series["xa"])[key(made.register, number)])


def perhaps(made: Ever, number: str) -> Runs:
    """The same, and where the records leave it open."""
    return runs(made.perhaps_parts(made.register.series["xa"])[key(made.register, number)])


# Assemblies


LID = assembly("lid", "first: 1, last: 12")
TIN = assembly("tin", "first: 19, last: 20")


def test_what_conversions_put_there_in_two_steps_whatever_their_order() -> None:
    steps = {"k": ("hat", "tin", "first: 3, last: 10"), "l": ("lid", "hat", "first: 2, last: 5")}
    for ids in (("a", "b"), ("b", "a")):
        kits = [kit(id_, *step) for id_, step in zip(ids, steps.values(), strict=True)]
        made = ever(LID, TIN, assembly("hat", "first: 15, last: 16"), *kits)
        assert held(made, "hat") == [(2, 5), (15, 16)]
        assert held(made, "tin") == [(3, 5), (19, 20)]


def test_a_conversion_that_says_not_what_it_begins_with_may_be_done_on_all_that_it_is_for() -> None:
    """It puts a plug in the drain besides, whatever was there; nothing is recorded of drains before 18."""
    also = "also: [{position: drain, to: plug}]\n"
    plug = assembly("plug", "first: 18, last: 20", position="drain")
    made = ever(LID, TIN, plug, kit("k", "lid", "tin", "first: 2, last: 5", more=also))
    assert held(made, "plug", "drain") == [(2, 5), (18, 20)]


def test_what_is_for_one_series_says_nothing_of_another() -> None:
    made = ever(LID, TIN, kit("k", "lid", "tin", "first: 15, last: 20"))
    assert held(made, "lid", series="xb") == []
    assert made.kits((made.register.series["xb"], "cover")) == ()
    assert [one.id for one, _ in made.kits((made.register.series["xa"], "cover"))] == ["k"]


def within(*records: Record) -> Ever:
    return Ever(Fits(nested.made(*records)))


A, B = (
    inside("a", "first: 1, last: 2", "filter"),
    inside("b", "first: 3, last: 4", "filter"),
)
VALVE = inside("v", "first: 1, last: 6", "filter/valve")
SEAT = inside("s", "first: 1, last: 6", "filter/valve/seat")


def test_what_is_inside_may_have_been_where_what_is_around_it_may_have_been() -> None:
    """The filter of 1 and 2 has no place for a valve; of 5 and 6 nobody knows the filter."""
    made = within(A, B, VALVE, SEAT)
    assert held(made, "v", "filter/valve") == [(3, 6)]
    assert held(made, "s", "filter/valve/seat") == [(3, 6)]
    whole = within(A, B, inside("c", "first: 5, last: 6", "filter"), VALVE, SEAT)
    assert held(whole, "v", "filter/valve") == [(3, 4)]
    assert held(whole, "s", "filter/valve/seat") == [(3, 4)]


def test_a_conversion_puts_inside_only_what_there_is_a_place_for() -> None:
    text = "kind: conversion\nid: k\ntitle: k\nposition: filter/valve\nfrom: [v]\nto: w\n"
    swap = record(f"{text}serials: [{{series: xa, first: 1, last: 3}}]\n", "conversion", "k")
    made = within(A, B, VALVE, swap)
    assert held(made, "w", "filter/valve") == [(3, 3)]


def test_a_machine_without_the_place_is_settled() -> None:
    """Nobody can find something unrecorded where there is no place for anything."""
    made = within(A, B, inside("v", "first: 3, last: 4", "filter/valve"))
    assert runs(made.settled((made.register.series["xa"], "filter/valve"))) == [(1, 4)]


def test_a_position_that_no_tree_names_is_on_every_machine() -> None:
    made = ever(assembly("cap", "first: 1, last: 5", position="roof"))
    assert held(made, "cap", "roof") == [(1, 5)]


# Parts


def listed(number: str, first: int, last: int, id_: str = "lid", position: str = "cover") -> Record:
    return assembly(id_, f"first: {first}, last: {last}", position=position, parts=number)


def test_what_an_act_gave_is_followed_to_the_end_and_back() -> None:
    """A gave B gave C; the act that is limited replaces C, which nothing lists."""
    made = ever(
        listed("A", 1, 12), act("1", "A", "B"), act("2", "B", "C"), act("3", "C", "D", "first: 1, last: 20")
    )
    assert had(made, "C") == [(1, 7), (10, 12)]
    numbers = ("A", "B", "C", "D")
    assert all(made.goes_somewhere(key(made.register, one)) for one in numbers)


def test_what_an_act_needs_besides_goes_where_it_goes() -> None:
    text = act("1", "A", "B", "first: 1, last: 20").origin.data.decode()
    needs = "needs: [{number: N}, {conversion: k}]\n"
    one = record(text + needs, "supersession", "1")
    made = ever(listed("A", 1, 12), TIN, kit("k", "lid", "tin", "first: 1, last: 12"), one)
    assert made.goes_somewhere(key(made.register, "N"))


def test_what_a_conversion_handles_may_have_been_where_it_may_have_been_done() -> None:
    """It is offered from 10 on, and what it begins with ends at 12."""
    adds = "adds: [{number: P, quantity: 1}]\n"
    made = ever(
        LID,
        TIN,
        kit("k", "lid", "tin", "first: 10, last: 20", more=adds),
        act("1", "P", "Q", "first: 1, last: 20"),
    )
    assert had(made, "P") == [(10, 12)]


def test_what_was_read_on_a_machine_was_there_where_its_number_can_be_read() -> None:
    plain = seen("XA 15", "lid", ", parts: [{number: R}]")
    other = plain.origin.data.decode().replace("xa-15", "other").replace("series: xa", "series: xb")
    nobody = (
        plain.origin.data.decode()
        .replace("xa-15", "nobody")
        .replace("XA 15", "ZZ 3")
        .replace("series: xa\n", "")
    )
    made = ever(
        LID,
        plain,
        record(other.replace("XA 15", "XA 17"), "teardown", "other"),
        record(nobody, "teardown", "nobody"),
        act("1", "R", "S", "first: 1, last: 20"),
    )
    assert had(made, "R") == [(15, 15)]


@pytest.mark.parametrize(
    ("more", "open_on"),
    [
        ([], [(1, 7), (10, 20)]),  # past 12 nobody knows the lid
        ([listed("B", 13, 20, "hat")], [(1, 7), (10, 12)]),
        ([assembly("hat", "first: 13, last: 20")], [(1, 7), (10, 20)]),  # nobody knows what is in it
    ],
    ids=["unknown", "listed", "bare"],
)
def test_a_part_may_be_where_what_is_there_has_no_list(more: list[Record], open_on: Runs) -> None:
    made = ever(listed("A", 1, 12), *more, act("1", "A", "N", "first: 1, last: 20"))
    assert had(made, "A") == [(1, 7), (10, 12)]
    assert perhaps(made, "A") == open_on


def test_an_assembly_without_a_record_may_have_any_part() -> None:
    made = ever(
        listed("A", 1, 12),
        listed("B", 13, 20, "hat"),
        kit("k", "hat", "nowhere", "first: 15, last: 16"),
        act("1", "A", "N", "first: 1, last: 20"),
    )
    assert perhaps(made, "A") == [(1, 7), (10, 12), (15, 16)]


def test_nothing_recorded_is_at_a_position_that_its_machines_have_not() -> None:
    """The machines of x have a cover only: what the list of a drain's assembly leaves open is not theirs."""
    machine = record((MACHINE % "20") + "positions: [cover]\n", "machine", "x")
    elsewhere = record(
        "kind: assembly\nid: plug\ntitle: plug\nposition: drain\nserials: [{series: ya, first: 1, last: 9}]\n"
        "parts: [{number: A, name: A}]\n",
        "assembly",
        "plug",
    )
    other = record(
        "kind: machine\nid: y\ntitle: Y\nmaker: Example Works\n"
        'series: [{id: ya, stamped: "YA {number}", plate: machine, first: 1, last: 9}]\n',
        "machine",
        "y",
    )
    places = record(POSITIONS, "positions", "positions")
    made = build([machine, other, places, elsewhere, act("1", "A", "N", "first: 1, last: 20")])
    assert perhaps(Ever(Fits(made)), "A") == []


def test_what_is_recorded_as_absent_has_no_parts() -> None:
    """From 13 on there is no cover: that is no assembly whose list is wanting."""
    absent = record(
        "kind: absence\nid: bald\ntitle: No cover\nposition: cover\n"
        "serials: [{series: xa, first: 13, last: 20, evidence: [{source: book}]}]\n",
        "absence",
        "bald",
    )
    made = ever(listed("A", 1, 12), absent, act("1", "A", "N", "first: 1, last: 20"))
    assert perhaps(made, "A") == [(1, 7), (10, 12)]
