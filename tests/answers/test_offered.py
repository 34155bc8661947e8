"""When conversions were offered: three-valued, held against every way the years may be; plans in a year."""

from __future__ import annotations

import itertools
import json

from jsonschema_rs import Draft202012Validator

from spanbook.answers.answers import Answers
from spanbook.answers.conversions import as_late_as_it_can_be
from spanbook.answers.offered import earliest, offered
from spanbook.answers.plans import NoPlan, Plan, convert
from spanbook.answers.readings import read_serial
from spanbook.ground.intervals import Covers
from spanbook.outputs.json import convert as convert_json
from spanbook.outputs.text import convert as convert_text
from spanbook.reading.records import Conversion
from spanbook.reading.schemas import folder
from spanbook.register.model import Register
from spanbook.wording.conversions import offered_words
from tests.support.plain_orders import Year, said
from tests.support.registers import record, register
from tests.support.rows import each_row

SCHEMA = Draft202012Validator(json.loads((folder() / "answer-convert.json").read_text()))
YEARS = range(1930, 1940)


def assembly(id_: str) -> str:
    return (
        f"kind: assembly\nid: {id_}\ntitle: {id_.capitalize()}\nposition: cover\n"
        "serials: [{series: xa, first: 1, last: 20}]\n"
    )


def kit(when: str, id_: str = "kit", start: str = "lid", to: str = "hat") -> str:
    return (
        f"kind: conversion\nid: {id_}\ntitle: The {id_}\nposition: cover\nfrom: [{start}]\nto: {to}\n"
        f"serials: [{{series: xa, first: 1, last: 20}}]\n{when}"
    )


def one(when: str) -> Conversion:
    return made(kit(when)).conversions["kit"]


def made(*kits: str) -> Register:
    lids = [record(assembly(id_), "assembly", id_) for id_ in ("lid", "hat", "cap")]
    ids = (text.split("id: ")[1].split("\n")[0] for text in kits)
    return register(*lids, *(record(text, "conversion", id_) for text, id_ in zip(kits, ids, strict=True)))


ENDS = [None, 1933, 1936, (1932, 1935), (1934, 1937), "about 1935 ± 2", "before 1935", "after 1935"]


@each_row(("first", "last"), list(itertools.product(ENDS, [*ENDS, "open"])))
def test_what_every_way_the_years_may_be_says(first: Year, last: Year) -> None:
    def typed(key: str, end: Year) -> str:
        return "" if end is None else f"{key}: {list(end) if isinstance(end, tuple) else end}\n"

    def all_of(end: Year) -> range:
        if end == "open":
            return range(1999, 2000)
        if end is None:
            return range(1900, 2000)
        first, last = said(end)
        return range(max(first, 1900), min(last, 1999) + 1)

    found = offered(one(typed("year", first) + typed("until", last)))
    ways = [(a, b) for a in all_of(first) for b in all_of(last) if a <= b]
    assert found.can_be == bool(ways)
    for year in YEARS if ways else ():
        held = {a <= year <= b for a, b in ways}
        wanted = Covers.MAYBE if len(held) == 2 else Covers.YES if held == {True} else Covers.NO
        assert found.in_year(year) is wanted, (first, last, year)


@each_row(
    ("when", "said", "year"),
    [
        ("", "", 0),
        ("year: 1936\n", "from 1936", 1936),
        ("year: [1935, 1937]\nuntil: 1939\n", "from somewhere between 1935 and 1937 to 1939", 1935),
        ("until: [1938, 1940]\n", "to somewhere between 1938 and 1940", 0),
        ("year: 1936\nuntil: open\n", "from 1936, and still is", 1936),
        ("until: open\n", "still is", 0),
        (
            "year: about 1936 ± 2\nuntil: after 1938\n",
            "from about 1936 (1934 to 1938) to some year after 1938",
            1934,
        ),
        ("year: before 1936\n", "from some year before 1936", 0),
    ],
)
def test_in_words(when: str, said: str, year: int) -> None:
    assert (offered_words(one(when)), earliest(one(when))) == (said, year)


def plan(world: Register, to: str, year: int | None) -> Plan | NoPlan:
    return convert(world, read_serial(world, "XA 5")[0], {"cover": "lid"}, {"cover": to}, year)


def told(world: Register, to: str, year: int | None) -> str:
    found, reading = plan(world, to, year), read_serial(world, "XA 5")[0]
    form = convert_json.as_object(Answers(world), reading, "XA 5", found, year)
    assert list(SCHEMA.iter_errors(form)) == []
    return convert_text.as_text(Answers(world), reading, found, year)


WORLD = made(
    kit("year: 1936\nuntil: [1938, 1940]\n"),
    kit("year: 1937\nuntil: open\n", "cap-kit", "hat", "cap"),
)


def test_a_plan_goes_by_what_was_offered_then() -> None:
    assert isinstance(plan(WORLD, "hat", None), Plan)
    # Nothing leads from a hat to a lid again, whatever the year.
    assert told(WORLD, "hat", None).endswith("The way back: There is no recorded way to the Lid.")
    assert told(WORLD, "hat", 1936).startswith("As in 1936: 1 step, 0 new parts.\n1. The kit\n")
    assert "1. The kit (whether it was offered then is not known)" in told(WORLD, "hat", 1939)
    assert told(WORLD, "hat", 1935) == (
        "As in 1935: There is no recorded way to the Hat.\n"
        "The kit does it, and was offered from 1936 to somewhere between 1938 and 1940."
    )
    assert isinstance(plan(WORLD, "cap", 1936), NoPlan)
    assert isinstance(plan(WORLD, "cap", 1937), Plan)
    assert isinstance(plan(WORLD, "cap", 1941), NoPlan)


def test_of_other_years_is_told_what_does_it_for_this_machine_and_was_not_offered_then() -> None:
    for_others = kit("year: 1936\n", "others").replace("first: 1", "first: 6")
    found = plan(made(kit("year: 1936\n"), for_others, kit("", "back", "cap", "hat")), "hat", 1935)
    assert isinstance(found, NoPlan)
    assert [one.id for one in found.other_years] == ["kit"]


def test_as_late_as_it_could_be_then() -> None:
    reading = read_serial(WORLD, "XA 5")[0]
    for year, held in ((1935, "lid"), (1936, "hat"), (1938, "cap")):
        assert as_late_as_it_can_be(WORLD, reading, {"cover": "lid"}, year) == {"cover": held}
