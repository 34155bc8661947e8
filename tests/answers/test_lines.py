"""Parts lists on machines: by hand, and against a plain reading of lists at random."""

from __future__ import annotations

import random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.answers.answers import Answers
from spanbook.answers.lines import Lists
from spanbook.answers.listed import listed
from spanbook.answers.readings import reading_of
from spanbook.ground.part_numbers import PartKey
from spanbook.register.model import Register
from tests.support.lists import ISSUED, listing, on_line, on_machine, places, random_list
from tests.support.registers import register

# The lid changed somewhere from XA 11 to XA 13, the glass did not; the ring is either of two suppliers'.
LIDS: list[dict[str, Any]] = [
    {"number": "P-1", "name": "Lid", "serials": [{"series": "xa", "first": 1, "last": [10, 12]}]},
    {"number": "P-2", "name": "Lid", "serials": [{"series": "xa", "first": [11, 13], "last": "open"}]},
    {"number": "P-3", "name": "Glass"},
    {"number": "P-4", "name": "Ring", "or": [{"number": "S 4", "by": "castle-joint"}]},
]


def key(number: str, by: str = "example-works") -> PartKey:
    return PartKey.of(by, number)


def has(made: Register, number: int, series: str = "xa") -> list[dict[str, str]]:
    """What each place of the lid's list has on a machine."""
    found = Lists(made).on(made.assemblies["lid"], reading_of(made.series[series], number))
    return [{one.line.part.number: str(one.covers) for one in held.lines} for held in found]


@pytest.mark.parametrize(
    ("number", "lids"),
    [
        (1, {"P-1": "yes"}),
        (10, {"P-1": "yes"}),
        (11, {"P-1": "maybe", "P-2": "maybe"}),
        (12, {"P-1": "maybe", "P-2": "maybe"}),
        (13, {"P-2": "yes"}),
        (20, {"P-2": "yes"}),
    ],
)
def test_the_lid_changed_and_the_glass_did_not(number: int, lids: dict[str, str]) -> None:
    made = register(listing(LIDS))
    assert has(made, number) == [lids, {"P-3": "yes"}, {"P-4": "yes"}]


def test_a_series_that_no_span_names_has_none_of_it() -> None:
    assert has(register(listing(LIDS)), 20, "xb") == [{"P-3": "yes"}, {"P-4": "yes"}]


def test_lines_of_one_name_that_are_on_one_machine_are_beside_each_other() -> None:
    both = [
        {"number": f"P-{n}", "name": "Stud", "serials": [{"series": "xa", "first": n, "last": 9 + n}]}
        for n in (1, 2)
    ]
    made = register(listing(both))
    assert [len(place.lines) for place in Lists(made).places(made.assemblies["lid"])] == [1, 1]


def test_claims_that_differ_are_claims_and_no_more() -> None:
    says = [{"series": "xa", "first": 1, "last": last, "anchor": f"a-{last}"} for last in (10, 14)]
    made = register(listing([{"number": "P-1", "name": "Lid", "serials": says}]))
    assert [has(made, n) for n in (10, 12, 15)] == [[{"P-1": "yes"}], [{"P-1": "maybe"}], []]


def test_what_a_list_says_of_a_number_on_any_machine_and_on_one() -> None:
    made = register(listing(LIDS))
    ever = Answers(made).ever
    (lid,) = listed(ever, key("P-1"))
    assert lid.covers == "yes"
    assert [other.line.part.number for other in lid.instead] == ["P-2"]
    (late,) = listed(ever, key("P-1"), reading_of(made.series["xa"], 15))
    assert late.covers == "no"
    assert [(other.line.part.number, str(other.covers)) for other in late.instead] == [("P-2", "yes")]
    (ring,) = listed(ever, key("S 4", "castle-joint"))
    assert (ring.either, ring.instead, ring.covers) == ((key("P-4"),), (), "yes")


def test_a_list_of_what_the_machine_never_had_is_not_told() -> None:
    made = register(listing(LIDS, span={"series": "xa", "first": 1, "last": 5}))
    ever = Answers(made).ever
    assert listed(ever, key("P-3"), reading_of(made.series["xa"], 5))
    assert not listed(ever, key("P-3"), reading_of(made.series["xa"], 6))


def test_where_a_part_may_ever_have_been_follows_its_line() -> None:
    made = register(listing(LIDS))
    ever = Answers(made).ever
    (use,) = made.parts[key("P-1")].uses
    numbers = ever.listed(made.series["xa"], made.parts[key("P-1")])
    assert (use.number, numbers.first, numbers.last) == ("P-1", 1, 12)


@given(st.randoms(use_true_random=False))
def test_a_list_is_read_as_plainly_as_it_can_be(chance: random.Random) -> None:
    lines = random_list(chance)
    made = register(listing(lines))
    lists, assembly = Lists(made), made.assemblies["lid"]
    grouped = [[line.part.number for line in place.lines] for place in lists.places(assembly)]
    assert grouped == [[line["number"] for line in place] for place in places(lines)]
    for series, numbers in ISSUED.items():
        for number in numbers:
            plain = [dict(place) for place in on_machine(lines, series, number) if place]
            assert has(made, number, series) == plain


@given(st.randoms(use_true_random=False))
def test_every_number_of_a_line_is_told_as_plainly(chance: random.Random) -> None:
    lines = random_list(chance)
    made = register(listing(lines))
    ever = Answers(made).ever
    for line in lines:
        others = [(other["number"], other["by"]) for other in line.get("or", ())]
        for number, by in ((line["number"], "example-works"), *others):
            for series, numbers in ISSUED.items():
                for n in chance.sample(numbers, 5):
                    (one,) = listed(ever, key(number, by), reading_of(made.series[series], n))
                    assert one.covers == on_line(line, series, n)
                    assert len(one.either) == len(others)
