"""What a proposal changes of lines that go by the number: against the plain reading, number by number."""

from __future__ import annotations

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from spanbook.answers.conversions import difference
from spanbook.answers.diff.model import Answer, HeldLines
from spanbook.answers.readings import reading_of
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Record
from spanbook.wording.diff import answer_words, held_words
from tests.support.comparisons import compared
from tests.support.lists import ISSUED, Values, listing, on_line, places, random_list
from tests.support.registers import register
from tests.support.tries import tries

Told = tuple[tuple[tuple[str, ...], bool], ...]


def lids(last: int) -> list[Values]:
    """A lid that changed after a number, and glass that did not."""
    return [
        {"number": "P-1", "name": "Lid", "serials": [{"series": "xa", "first": 1, "last": last}]},
        {"number": "P-2", "name": "Lid", "serials": [{"series": "xa", "first": last + 1, "last": "open"}]},
        {"number": "P-3", "name": "Glass"},
    ]


def test_numbers_that_have_another_lid_now_answer_otherwise() -> None:
    found = compared(register(listing(lids(10))), register(listing(lids(12))))
    (changed,) = found.answers
    assert answer_words(found, changed) == (
        "Cover, XA 11 to XA 12: lid (with P-2 Lid) [settled] → lid (with P-1 Lid) [settled]"
    )


def test_a_lid_that_only_may_be_there_is_perhaps_there() -> None:
    line = {"number": "P-1", "name": "Lid", "serials": [{"series": "xa", "first": 1, "last": [10, 20]}]}
    found = compared(register(listing([{"number": "P-3", "name": "Glass"}])), register(listing([line])))
    after = [change.change.after for change in found.answers]
    said = dict.fromkeys(held_words(found, one.held[0]) for one in after if one)
    assert list(said) == ["lid (with P-1 Lid)", "lid (perhaps with P-1 Lid)"]


def plain(lines: list[Values], series: str, number: int) -> Told:
    """The numbers that each limited place may have, and whether it surely does."""
    found = []
    for place in places(lines):
        says = [(line, on_line(line, series, number)) for line in place if "serials" in line]
        there = [(line, told) for line, told in says if told != "no"]
        if there:
            numbers = tuple(n["number"] for line, _ in there for n in (line, *line.get("or", ())))
            found.append((numbers, all(told == "yes" for _, told in there)))
    return tuple(found)


def told(answer: Answer | None) -> Told:
    held: tuple[HeldLines, ...] = answer.held[0].lines if answer and answer.held else ()
    return tuple((one.numbers, one.sure) for one in held)


@settings(max_examples=tries(25))
@given(st.randoms(use_true_random=False))
def test_every_number_answers_otherwise_where_a_plain_reading_says_so(chance: random.Random) -> None:
    old, new = random_list(chance), random_list(chance)
    found = compared(register(listing(old)), register(listing(new)))
    changes = {
        (one.series, number): (told(one.change.before), told(one.change.after))
        for one in found.answers
        if one.position == "cover"
        for number in range(one.change.first, (one.change.last or 60) + 1)
    }
    for series, numbers in ISSUED.items():
        for number in numbers:
            both = plain(old, series, number), plain(new, series, number)
            assert changes.get((series, number), (both[0], both[0])) == both


@pytest.mark.parametrize(("number", "added"), [(5, ["p-1", "p-3"]), (15, ["p-2", "p-3"])])
def test_what_is_missing_for_an_assembly_is_what_its_list_has_on_the_machine(
    number: int, added: list[str]
) -> None:
    made = register(listing(lids(10)))
    machine = reading_of(made.series["xa"], number)
    found = difference(made, None, made.assemblies["lid"], machine)
    assert [key.number for key, _ in found.added] == added


def test_a_line_that_either_serves_on_is_kept() -> None:
    either = {"number": "P-1", "name": "Ring", "or": [{"number": "S 1", "by": "castle-joint"}]}
    only = {"number": "S 1", "by": "castle-joint", "name": "Ring"}
    old: Record = listing([only], "old")
    made = register(old, listing([either], "new"))
    found = difference(made, made.assemblies["old"], made.assemblies["new"])
    assert (found.added, found.removed) == ((), ())
    assert found.kept == ((PartKey.of("castle-joint", "S 1"), 1),)
