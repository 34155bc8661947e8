"""On whose word answers change: small registers side by side, each with one thing changed."""

from __future__ import annotations

import pytest

from spanbook.answers.diff.points import Sort, points
from spanbook.answers.reasons import Weight
from spanbook.answers.standing import Standing
from spanbook.ground.intervals import Run
from spanbook.reading.records import Record
from spanbook.register.link import build
from spanbook.register.model import Register
from tests.support.acts import act
from tests.support.comparisons import SOURCES, compared, seen
from tests.support.registers import lid, record, register
from tests.support.rows import each_row

BOOK, LETTER = "{source: book, at: p. 3}", "{source: letter}"
EARLY = lid("early", "first: 1, last: [10, 13]", BOOK)
LATE = lid("late", "first: [11, 14], last: 20", BOOK)


def world(*records: Record) -> Register:
    return register(*SOURCES, *records)


def sorts(old: Register, new: Register) -> list[Sort]:
    return [point.sort for point in points(compared(old, new))]


def test_a_find_on_another_machine_contradicts_once_for_all_that_it_is_against() -> None:
    found = compared(world(EARLY, LATE), world(EARLY, LATE, seen(18, "early")))
    (one,) = found.against
    assert (one.reason.by.id, one.fresh) == ("x-18-osk", True)
    assert {statement.record.id for statement in one.statements} == {"early", "late"}
    (look,) = found.looks
    assert (look.first, look.shown) == (True, (("cover", Weight.AGAINST),))
    # The standings fall for the same reason, and the teardown is the same: each is told once.
    assert {change.after for change in found.standings} == {Standing.DISPUTED}
    assert [p.sort for p in points(found)] == [Sort.AGAINST]


def test_a_span_that_no_longer_reaches_what_was_seen_contradicts_what_was_known() -> None:
    narrow = lid("early", "first: 1, last: 10", LETTER)
    known = seen(12, "early")
    old, new = world(EARLY, known), world(narrow, known)
    found = compared(old, new)
    (one,) = found.against
    assert (one.reason.by.id, one.fresh) == ("x-12-osk", False)
    assert not found.looks
    assert compared(new, new).against == compared(new, old).against == ()


def test_two_standards_on_the_same_numbers_are_a_conflict_and_no_contradiction_of_anybody() -> None:
    other = lid("other", "first: 15, last: 20", LETTER)
    found = compared(world(EARLY, LATE), world(EARLY, LATE, other))
    assert not found.against
    assert points(found)[0].sort is Sort.CONFLICT
    # Back again it is none: nothing is worse than it was.
    assert Sort.CONFLICT not in sorts(world(EARLY, LATE, other), world(EARLY, LATE))


def test_what_is_named_against_a_statement_contradicts_however_long_its_source_is_known() -> None:
    against = "{source: letter, against: true, note: It says 9}"
    doubted = lid("early", "first: 1, last: [10, 13]", f"{BOOK}, {against}")
    found = compared(world(EARLY, LATE), world(doubted, LATE))
    (one,) = found.against
    assert (one.reason.by.id, one.reason.note, one.fresh) == ("letter", "It says 9", True)
    assert found.statements == (), "the statement says what it said"
    # Evidence that turns against what it was for is other evidence.
    turned = lid("early", "first: 1, last: [10, 12]", BOOK.replace("}", ", against: true, note: No}"))
    (changed,) = compared(world(EARLY), world(turned)).statements
    assert changed.backed
    moved = compared(
        world(EARLY, LATE), world(lid("early", "first: 1, last: [10, 11]", against), LATE)
    ).breaks
    assert [by.id for one in moved for by in one.by] == []


def test_of_two_claims_on_one_run_the_older_is_contradicted() -> None:
    both = record(
        "kind: assembly\nid: early\ntitle: early\nposition: cover\nserials:\n"
        f"- {{series: xa, first: 1, last: [10, 13], evidence: [{BOOK}]}}\n"
        f"- {{series: xa, first: 1, last: 8, anchor: other, evidence: [{LETTER}]}}\n",
        "assembly",
        "early",
    )
    (one,) = compared(world(EARLY), world(both)).against
    assert (one.reason.by.id, one.fresh) == ("letter", True)
    assert [statement.anchor for statement in one.statements] == ["span-xa"]
    # Where both are new it is told once.
    (one,) = compared(world(), world(both)).against
    assert [statement.anchor for statement in one.statements] == ["other"]


@pytest.mark.parametrize(("condition", "weight"), [("untouched", Weight.SEEN), ("altered", Weight.SET_ASIDE)])
def test_what_was_looked_at(condition: str, weight: Weight) -> None:
    look_before = seen(3, "early", who="tolland")
    mine = seen(3, "early", condition)
    (look,) = compared(world(EARLY), world(EARLY, mine)).looks
    assert (look.first, look.shown) == (True, (("cover", weight),))
    (again,) = compared(world(EARLY, look_before), world(EARLY, look_before, mine)).looks
    assert not again.first
    assert compared(world(EARLY, mine), world(EARLY)).looks == ()


def test_a_find_that_bears_on_nothing_is_told_as_that() -> None:
    head = "kind: assembly\nid: stray\ntitle: stray\nposition: cover\n"
    stray = record(f"{head}serials:\n- {{series: xb, first: 15, last: 20}}\n", "assembly", "stray")
    (look,) = compared(world(stray), world(stray, seen(3, "stray"))).looks
    assert look.shown == (("cover", None),)


def test_a_standing_with_the_reasons_that_came_and_went() -> None:
    found = compared(world(EARLY), world(lid("early", "first: 1, last: [10, 13]", LETTER), seen(3, "early")))
    (change,) = found.standings
    assert (change.before, change.after) == (Standing.PRINTED, Standing.CONFIRMED)
    assert [reason.by.id for reason in change.gained] == ["letter", "x-3-osk"]
    assert [reason.by.id for reason in change.lost] == ["book"]
    assert [p.sort for p in points(found)] == [Sort.LOOK, Sort.RISEN]
    assert sorts(world(EARLY, seen(3, "early")), world(EARLY)) == [Sort.GONE, Sort.FALLEN]


def test_a_break_moves_on_the_word_of_a_teardown() -> None:
    found = compared(world(EARLY, LATE), world(EARLY, LATE, seen(12, "early")))
    (moved,) = found.breaks
    assert (moved.series.id, moved.position, moved.earlier, moved.later) == ("xa", "cover", "early", "late")
    assert (moved.before, moved.after) == (Run(11, 14), Run(13, 14))
    assert [by.id for by in moved.by] == ["x-12-osk"]
    back = compared(world(EARLY, LATE, seen(12, "early")), world(EARLY, LATE)).breaks[0]
    assert [by.id for by in back.by] == ["x-12-osk"], "what is taken away moves it, too"


def test_a_break_moves_on_the_word_of_what_a_changed_span_names() -> None:
    narrow = lid("early", "first: 1, last: [10, 11]", LETTER)
    remarked = record(
        "kind: assembly\nid: late\ntitle: late\nposition: cover\nnotes: Seen in a yard\nserials:\n"
        f"- {{series: xa, first: [11, 14], last: 20, evidence: [{BOOK}]}}\n",
        "assembly",
        "late",
    )
    (moved,) = compared(world(EARLY, LATE), world(narrow, remarked)).breaks
    assert [by.id for by in moved.by] == ["letter"]
    assert compared(world(EARLY, LATE), world(EARLY, remarked)).breaks == ()


def fields(old: Record, new: Record) -> list[tuple[object, ...]]:
    found = compared(world(old), world(new))
    return [change.steps for one in found.unbacked for change in one.fields]


@each_row(
    ("span", "evidence", "told"),
    [
        ("first: 1, last: [10, 13]", BOOK, []),
        ("first: 1, last: [10, 13], fitted: factory, option: false", BOOK, []),  # as it was without
        ("first: 1, last: [10, 13], note: Pencilled in", BOOK, []),
        ("first: 1, last: [10, 12]", BOOK, [("last",)]),
        ("first: 2, last: [10, 13], fitted: field", BOOK, [("first",), ("fitted",)]),
        ("first: 1, last: [10, 12]", LETTER, []),
        ("first: 1, last: [10, 12]", BOOK.replace("p. 3", "p. 4"), []),
        ("first: 1, last: [10, 12]", f"{BOOK}, {LETTER}", []),
        ("first: 1, last: [10, 12]", BOOK.replace("}", ", note: A slip}"), [("last",)]),
        ("first: 1, last: [10, 12]", "", []),
    ],
)
def test_a_span_that_changes_without_its_evidence(
    span: str, evidence: str, told: list[tuple[object, ...]]
) -> None:
    assert fields(EARLY, lid("early", span, evidence)) == told


def test_where_it_says_so_now_is_told() -> None:
    new = lid("early", "first: 1, last: [10, 12]", BOOK)
    (one,) = compared(world(EARLY), world(new)).unbacked
    assert (one.place.path, one.place.line) == ("early.yml", 6)
    assert (one.before.record, one.after.record) == (EARLY, new)


def test_a_span_that_never_had_evidence_changes_without_any_too() -> None:
    assert fields(lid("a", "first: 1, last: 5"), lid("a", "first: 1, last: 6")) == [("last",)]


def listing(*parts: str, evidence: str = BOOK) -> Record:
    held = "".join(f"- {{{part}}}\n" for part in parts)
    text = (
        "kind: assembly\nid: a\ntitle: a\nposition: cover\nserials:\n"
        f"- {{series: xa, first: 1, last: 5, evidence: [{evidence}]}}\nparts:\n{held}"
    )
    return record(text, "assembly", "a")


def test_a_part_of_a_list_rests_on_what_its_assembly_names() -> None:
    one, two = "number: P1, name: Lid, quantity: 1", "number: P2, name: Nut, quantity: 1"
    assert fields(listing(one), listing(one.replace("Lid", "Cover"))) == []
    assert fields(listing(one), listing(one.replace("quantity: 1", "quantity: 2"))) == [("quantity",)]
    assert fields(listing(one), listing(one.replace("quantity: 1", "quantity: 2"), evidence=LETTER)) == []
    # Another number in the line is a change of the line, told once.
    other = one.replace("P1", "P9")
    assert fields(listing(one, two), listing(other, two)) == [("number",)]
    assert sorts(world(listing(one, two)), world(listing(other, two))) == [Sort.UNBACKED]
    # With a line more nobody can tell which became which.
    assert fields(listing(one, two), listing(other, two, "number: P3, name: Pin")) == []
    assert Sort.GONE in sorts(world(listing(one, two)), world(listing(other, two, "number: P3, name: Pin")))


def test_in_a_list_of_an_act_the_line_that_changed_is_told() -> None:
    def made(new: str) -> Record:
        return record(act("on", "a", new, "evidence: [{source: book}]\n"), "supersession", "on")

    assert fields(made("b, c 2"), made("b, c 3")) == [("new", 1, "quantity")]
    assert fields(made("b, c 2"), made("b, c 2, d")) == [("new",)]


def test_a_reference_to_a_renamed_record_is_no_change() -> None:
    def kit(to: str) -> Record:
        text = (
            "kind: conversion\nid: kit\ntitle: Kit\nposition: cover\nfrom: [early]\n"
            f"to: {to}\nserials: [{{series: xa, first: 1, last: 20}}]\nevidence: [{{source: book}}]\n"
        )
        return record(text, "conversion", "kit")

    moved = record(
        "kind: assembly\nid: later\nformerly: [late]\ntitle: late\nposition: cover\nserials:\n"
        f"- {{series: xa, first: [11, 14], last: 20, evidence: [{BOOK}]}}\n",
        "assembly",
        "later",
    )
    old = world(EARLY, LATE, kit("late"))
    assert compared(old, world(EARLY, moved, kit("later"))).unbacked == ()
    (one,) = compared(old, world(EARLY, LATE, kit("early"))).unbacked
    assert [change.steps for change in one.fields] == [("to",)]


def test_a_removed_record_is_told_once_and_not_statement_by_statement() -> None:
    assert sorts(world(listing("number: P1, name: Lid")), world()) == [Sort.GONE, Sort.ANSWER]


def test_of_years_those_that_differ_are_told() -> None:
    def machine(years: str) -> Register:
        text = (
            "kind: machine\nid: x\ntitle: X\nmaker: Example Works\nseries:\n"
            '- {id: xa, stamped: "XA {number}", plate: machine, first: 1, last: 20, '
            f"years: {{{years}}}, evidence: [{{source: book}}]}}\n"
        )
        return build([*SOURCES, record(text, "machine", "x")])

    found = compared(machine("1931: 1, 1932: 8, 1933: 12"), machine("1931: 1, 1932: 9, 1934: 12"))
    (one,) = found.unbacked
    assert [change.steps for change in one.fields] == [
        ("years", "1932"),
        ("years", "1933"),
        ("years", "1934"),
    ]
    assert Sort.YEAR in [point.sort for point in points(found)]


def test_signs_that_change_without_their_evidence_are_told_and_nothing_else_of_the_record() -> None:
    def told(signs: str, title: str) -> Record:
        head = f"kind: assembly\nid: early\ntitle: {title}\nposition: cover\ntell: [{signs}]\n"
        held = f"tell-evidence: [{BOOK}]\nserials:\n- {{series: xa, first: 1, last: [10, 13]}}\n"
        return record(head + held, "assembly", "early")

    assert fields(told("Flat", "Lid"), told("Ribbed", "Cover")) == [("tell",)]
