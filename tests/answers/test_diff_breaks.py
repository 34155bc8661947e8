"""Breaks that lie elsewhere, and on whose word: by hand, in two series."""

from __future__ import annotations

from fractions import Fraction

import pytest

from spanbook.answers.assumed import Assumed
from spanbook.answers.changepoint import Rates
from spanbook.answers.diff.compute import compare
from spanbook.ground.intervals import Run
from spanbook.reading.records import Record
from tests.support.comparisons import SOURCES, compared, seen
from tests.support.registers import record, register

BOOK, LETTER = "{source: book}", "{source: letter}"


def fitted(id_: str, in_xa: str, evidence: str, in_xb: str = "", more: str = "") -> Record:
    """An assembly with its run in xa and its evidence, and in xb, always by the letter."""
    spans = f"- {{series: xa, {in_xa}, evidence: [{evidence}]}}\n"
    spans += f"- {{series: xb, {in_xb}, evidence: [{LETTER}]}}\n" if in_xb else ""
    head = f"kind: assembly\nid: {id_}\ntitle: {id_}\nposition: cover\n{more}"
    return record(f"{head}serials:\n{spans}", "assembly", id_)


def early(
    last: str = "[10, 13]", evidence: str = BOOK, in_xb: str = "", id_: str = "early", more: str = ""
) -> Record:
    return fitted(id_, f"first: 1, last: {last}", evidence, in_xb, more)


def late(first: str = "[11, 14]", evidence: str = BOOK, in_xb: str = "") -> Record:
    return fitted("late", f"first: {first}, last: 20", evidence, in_xb)


def moved(old: tuple[Record, ...], new: tuple[Record, ...]) -> list[tuple[str, str, str, list[str]]]:
    """Each break that moved: the series, what it is between, and the records that moved it."""
    found = compared(register(*SOURCES, *old), register(*SOURCES, *new)).breaks
    return [(one.series.id, one.earlier, one.later, [by.id for by in one.by]) for one in found]


def test_a_break_of_an_assembly_by_another_name_is_the_same_break() -> None:
    renamed = {"id_": "first", "more": "formerly: [early]\n"}
    assert moved((early(), late()), (early(**renamed), late())) == []
    assert moved((early(), late()), (early("[10, 11]", LETTER, **renamed), late())) == [
        ("xa", "first", "late", ["letter"])
    ]


def test_a_break_that_is_new_or_gone_has_not_moved() -> None:
    assert moved((early(),), (early(), late())) == moved((early(), late()), (early(),)) == []


def test_what_an_end_rests_on_moved_it_and_nothing_that_is_against_or_of_another_series() -> None:
    xb = {"in_xb": "first: 15, last: [20, 24]"}
    told = early("[10, 11]", "{source: book, against: true}, {teardown: x-3-osk}", **xb)
    (one,) = moved((early(**xb), late(), seen(3, "early")), (told, late(), seen(3, "early")))
    assert one == ("xa", "early", "late", ["x-3-osk"])


def test_an_end_that_moves_in_one_series_moves_no_break_of_another() -> None:
    def world(last: str, letter: str) -> tuple[Record, ...]:
        return (
            early("[10, 13]", BOOK, f"first: 15, last: {last}"),
            late("[11, 14]", BOOK, "first: [21, 25], last: 40"),
            *((seen(12, "early"),) if letter else ()),
        )

    assert moved(world("[20, 24]", ""), world("[20, 22]", "x")) == [
        ("xa", "early", "late", ["x-12-osk"]),
        ("xb", "early", "late", ["letter"]),
    ]


def test_either_assembly_may_have_been_seen_and_no_third() -> None:
    text = "kind: assembly\nid: hat\ntitle: hat\nposition: cover\n"
    hat = record(f"{text}serials: [{{series: xb, first: 15, last: 20}}]\n", "assembly", "hat")
    looks = seen(12, "early"), seen(13, "late"), seen(5, "hat"), seen(3, "early")
    told = moved((early(), late(), hat, looks[3]), (early(), late(), hat, *looks))
    assert told == [("xa", "early", "late", ["x-12-osk", "x-13-osk"])]


def test_what_does_not_count_moves_nothing() -> None:
    looks = seen(12, "early"), seen(13, "early", "altered")
    assert moved((early(), late()), (early(), late(), *looks)) == [("xa", "early", "late", ["x-12-osk"])]


def test_what_both_ends_rest_on_is_named_once() -> None:
    assert moved((early(), late()), (early("[10, 11]", LETTER), late("[11, 12]", LETTER))) == [
        ("xa", "early", "late", ["letter"])
    ]


@pytest.mark.parametrize("back", [False, True])
def test_what_was_seen_and_cannot_all_be_true_has_no_place(back: bool) -> None:
    """Nobody converts machines and nobody robs them here: the later one on 11 and the earlier on 12."""
    never = Assumed(Rates(*[Fraction(0)] * 4))
    bare = register(*SOURCES, early(), late())
    torn = register(*SOURCES, early(), late(), seen(11, "late"), seen(12, "early"))
    old, new = (torn, bare) if back else (bare, torn)
    (one,) = compare(old, new, ((), ()), never).breaks
    assert (one.before, one.after) == ((None, Run(11, 14)) if back else (Run(11, 14), None))
