"""What a proposal changes, in registers so small that all of it can be seen."""

from __future__ import annotations

from dataclasses import replace

import pytest

from spanbook.answers.assumed import Assumed
from spanbook.answers.diff.compute import compare
from spanbook.answers.diff.model import AnswerChange, OrderChange, RecordChange
from spanbook.answers.questions import About
from spanbook.ground.piecewise import Change
from spanbook.ground.years import Years
from spanbook.reading.records import Record
from spanbook.register.link import build
from spanbook.register.model import Register
from tests.support.acts import act, key
from tests.support.comparisons import compared, seen
from tests.support.registers import MACHINE, POSITIONS, assembly, lid, record, register
from tests.support.rows import each_row

EARLY = lid("early", "first: 1, last: 10")


def titled(title: str, more: str = "", id_: str = "book") -> Record:
    text = f"kind: source\nid: {id_}\ntitle: {title}\nclass: parts-book\n{more}"
    return record(text, "source", id_)


@each_row(
    ("new", "told"),
    [
        (titled("The book"), []),
        (titled("The book", "# looked at again\n"), []),
        (titled("A book"), [RecordChange("changed", "source", "book")]),
        (titled("The book", "year: 1934\n"), [RecordChange("changed", "source", "book")]),
        (titled("The book", "formerly: [tome]\n"), [RecordChange("changed", "source", "book")]),
        (
            titled("The book", "formerly: [book]\n", "tome"),
            [RecordChange("renamed", "source", "tome", "book")],
        ),
        (
            titled("The book", "", "tome"),
            [RecordChange("removed", "source", "book"), RecordChange("added", "source", "tome")],
        ),
        (
            titled("The book", "formerly: [other]\n", "tome"),
            [RecordChange("removed", "source", "book"), RecordChange("added", "source", "tome")],
        ),
    ],
)
def test_a_record_is_what_it_says_under_any_of_its_names(new: Record, told: list[RecordChange]) -> None:
    assert list(compared(build([titled("The book")]), build([new])).records) == told


@each_row(
    ("one", "other", "alike"),
    [
        ("first: 1, last: 10", "first: 1, last: 10", True),
        ("first: 1, last: 10", "first: 1, last: 10, fitted: factory", True),
        ("first: 1, last: [9, 10]", "first: 1, last: [10, 10]", False),
        ("first: 1, last: 10", "first: 1, last: [10, 10]", False),
        ("first: 1, last: about 10 ± 2", "first: 1, last: about 10 +- 2", True),
        ("first: 1, last: about 10 ± 2", "first: 1, last: [8, 12]", False),
        ("first: 1, last: [8, 12]", "first: 1, last: about 10 ± 2", False),
    ],
)
def test_a_span_is_what_it_says_however_it_is_written(one: str, other: str, alike: bool) -> None:
    found = compared(register(lid("a", one)), register(lid("a", other)))
    assert [change.sort for change in found.records] == ([] if alike else ["changed"])


def test_a_longer_list_says_more() -> None:
    longer = record(
        "kind: assembly\nid: early\ntitle: early\nposition: cover\nserials:\n"
        "- {series: xa, first: 1, last: 10}\n- {series: xa, first: 12, last: 13, anchor: again}\n",
        "assembly",
        "early",
    )
    for old, new in ((EARLY, longer), (longer, EARLY)):
        assert [c.sort for c in compared(register(old), register(new)).records] == ["changed"]


def test_a_renamed_assembly_gives_the_same_answers_and_leaves_the_same_open() -> None:
    def world(id_: str, more: str = "") -> Register:
        head = f"kind: assembly\nid: {id_}\ntitle: X\nposition: cover\n{more}serials:\n"
        held = record(f"{head}- {{series: xa, first: 1, last: [10, 13]}}\n", "assembly", id_)
        return register(held, lid("late", "first: [11, 14], last: 20"))

    found = compared(world("early"), world("first", "formerly: [early]\n"))
    assert (found.answers, found.standings, found.opened, found.closed) == ((), (), (), ())
    assert not found.nothing
    without = compared(world("early"), world("first"))
    assert without.answers
    assert without.opened
    assert without.closed


def dated(series: str, years: str) -> Register:
    text = "kind: machine\nid: x\ntitle: X\nmaker: Example Works\nseries:\n"
    line = f'- {{id: {series}, stamped: "XA {{number}}", plate: p, first: 1, last: 20{years}}}\n'
    return build([record(text + line, "machine", "x"), record(POSITIONS, "positions", "positions")])


@pytest.mark.parametrize(
    ("before", "after", "told"),
    [
        ("{1931: 1, 1932: 12}", "{1931: 1, 1932: 12}", []),
        (
            "{1931: 1, 1932: 12}",
            "{1931: 1, 1932: 10}",
            [Change(10, 11, Years(1931, 1931), Years(1932, None))],
        ),
        (
            "{1931: 1, 1932: 1, 1933: 12}",
            "{1931: 1, 1933: 12}",
            [Change(1, 11, Years(1932, 1932), Years(1931, 1932))],
        ),
        ("{1931: 5}", "{1931: 10}", [Change(5, 9, Years(1931, None), None)]),
    ],
)
def test_of_years_the_numbers_that_are_dated_otherwise(
    before: str, after: str, told: list[Change[Years]]
) -> None:
    found = compared(dated("xa", f", years: {before}"), dated("xa", f", years: {after}"))
    assert [(change.series, change.change) for change in found.years] == [("xa", change) for change in told]


def test_a_series_that_comes_or_goes_is_dated_where_nothing_was() -> None:
    found = compared(dated("xa", ", years: {1931: 12}"), dated("xc", ", years: {1931: 15}"))
    assert [(change.series, change.change) for change in found.years] == [
        ("xa", Change(12, 20, Years(1931, None), None)),
        ("xc", Change(15, 20, None, Years(1931, None))),
    ]
    assert {(change.series, change.change.after is None) for change in found.answers} == {
        ("xa", True),
        ("xc", False),
    }
    assert {(change.change.first, change.change.last) for change in found.answers} == {(1, 20)}


def test_a_position_that_a_machine_no_longer_has_is_asked_of_no_number() -> None:
    fewer = record(MACHINE.replace("series:", "positions: [cover]\nseries:") % 20, "machine", "x")
    plug = assembly("plug", "first: 1, last: 20", "drain")
    found = compared(register(plug), build([fewer, record(POSITIONS, "positions", "positions"), plug]))
    assert {(change.series, change.position) for change in found.answers} == {
        ("xa", "drain"),
        ("xb", "drain"),
    }
    in_xa = [change.change for change in found.answers if change.series == "xa"]
    assert [(change.first, change.last, change.after) for change in in_xa] == [(1, 7, None), (10, 20, None)]
    assert [change.before and change.before.state for change in in_xa] == ["settled", "settled"]


def test_numbers_that_answer_otherwise_are_told_place_by_place() -> None:
    old = register(EARLY, assembly("plug", "first: 1, last: 20", "drain"))
    new = register(lid("early", "first: 1, last: 12"), assembly("plug", "first: 1, last: 19", "drain"))
    assert [
        (type(c), c.series, c.position, c.change.first, c.change.last) for c in compared(old, new).answers
    ] == [
        (AnswerChange, "xa", "cover", 11, 12),
        (AnswerChange, "xa", "drain", 20, 20),
    ]


def ordered(*acts: tuple[str, str, str] | tuple[str, str, str, str]) -> Register:
    return register(*(record(act(*one), "supersession", one[0]) for one in acts))


def orders(old: Register, new: Register) -> dict[str, tuple[bool, bool]]:
    """Each number that is ordered otherwise, with whether acts named it and name it."""
    found = compared(old, new).orders
    assert all(isinstance(one, OrderChange) and one.before != one.after for one in found)
    return {one.key.number: (one.before is not None, one.after is not None) for one in found}


def test_what_an_act_changes_of_orders() -> None:
    on, further = ("on", "a", "b"), ("further", "b", "c 2")
    assert orders(ordered(on), ordered(on)) == {}
    assert orders(ordered(on), ordered(("on", "a", "b", "notes: Read again\n"))) == {}
    assert orders(ordered(), ordered(on)) == {"a": (False, True), "b": (False, True)}
    assert orders(ordered(on), ordered(on, further)) == {
        "a": (True, True),
        "b": (True, True),
        "c": (False, True),
    }
    assert orders(ordered(on), ordered()) == {"a": (True, False), "b": (True, False)}


@pytest.mark.parametrize(
    "terms",
    [
        "serials: [{series: xa, first: 1, last: 5}]\n",
        "needs: [{conversion: kit}]\n",
    ],
)
def test_an_order_on_other_terms_is_another_order(terms: str) -> None:
    made = compared(ordered(("on", "a", "b")), ordered(("on", "a", "b", terms)))
    (change,) = (one for one in made.orders if one.key == key("a"))
    assert change.before is not None
    assert change.after is not None
    ((before,), (after,)) = change.before.terms, change.after.terms
    assert (before.act, before.serials, before.conversions) == ("on", (), ())
    assert [len(after.serials), *after.conversions] == ([1] if "serials" in terms else [0, "kit"])


def test_questions_come_and_go() -> None:
    late = lid("late", "first: [11, 14], last: 20")
    early = lid("early", "first: 1, last: [10, 13]")
    narrower = lid("early", "first: 1, last: [10, 12]")

    def asked(old: Register, new: Register) -> list[list[About]]:
        found = compared(old, new)
        return [
            [q.about for q in questions if (q.series.id, q.position) == ("xa", "cover")]
            for questions in (found.opened, found.closed)
        ]

    both, less, known = (
        register(early, late),
        register(narrower, late),
        register(lid("early", "first: 1, last: 20")),
    )
    # A narrower break is the same question.
    assert asked(both, less) == [[], []]
    opened, closed = asked(both, known)
    assert About.BREAK in closed
    assert asked(known, both) == [closed, opened]
    # A blank on other numbers is another question.
    assert asked(register(EARLY), register(lid("early", "first: 1, last: 12"))) == [
        [About.BLANK],
        [About.BLANK],
    ]
    assert asked(register(), register(EARLY)) == [[About.BLANK, About.UNSUPPORTED], [About.BLANK]]


@pytest.mark.parametrize(
    ("before", "after", "born", "dead"),
    [
        (("a/", "b/"), ("b/", "a/"), (), ()),
        (("a/", "b/"), ("d/", "c/", "b/"), ("c/", "d/"), ("a/",)),
        (("a/",), ("a/", "b/"), ("b/",), ()),
        (("a/", "b/"), ("a/",), (), ("b/",)),
    ],
)
def test_addresses_that_come_and_go(
    before: tuple[str, ...], after: tuple[str, ...], born: tuple[str, ...], dead: tuple[str, ...]
) -> None:
    made = register()
    found = compare(made, made, (before, after), Assumed())
    assert (found.born, found.dead, found.nothing) == (born, dead, not (born or dead))


def test_a_proposal_that_touches_other_files_is_not_nothing() -> None:
    made = register()
    assert not replace(compared(made, made), besides=("README.md",)).nothing


def test_nothing_changes_where_nothing_is_said_otherwise() -> None:
    made = [EARLY, lid("late", "first: 11, last: 20"), seen(3, "early")]
    again = [lid("early", "first: 1, last: 10"), lid("late", "first: 11, last: 20"), seen(3, "early")]
    found = compared(register(*made), register(*again))
    assert found.nothing
    assert not any([found.answers, found.years, found.orders, found.standings, found.opened, found.closed])


def piped(number: str, bore: str = "0.5") -> Record:
    text = f"""\
kind: assembly
id: pipe
title: Pipe
position: cover
serials: [{{series: xa, first: 1, last: 10}}]
ways:
- id: w
  from: in
  to: out
  through: pipe
  sizes: [{{what: bore, value: "{bore}", unit: in}}]
  evidence: [{{source: book}}]
parts: [{{number: {number}, name: Pipe}}]
"""
    return record(text, "assembly", "pipe")


def borne(serial: str) -> Record:
    text = "kind: unit\nid: twin\nmachine: x\nnumbers:\n- {serial: XA 7, evidence: [{source: book}]}\n"
    return record(f"{text}- {{serial: {serial}, evidence: [{{source: book}}]}}\n", "unit", "twin")


def rewritten(was: Record, now: Record) -> list[tuple[str, list[tuple[object, ...]]]]:
    found = compared(register(titled("The book"), was), register(titled("The book"), now)).statements
    return [
        (type(one.after.subject).__name__, [change.steps for change in one.fields])
        for one in found
        if type(one.after.subject).__name__ in ("Passing", "Bears")
    ]


def test_a_way_and_a_number_borne_say_only_what_stands_in_them() -> None:
    """Not what else their records say: that changes without anybody having written the way anew."""
    assert rewritten(piped("K-1"), piped("K-2")) == []
    assert rewritten(piped("K-1"), piped("K-1", "0.6")) == [("Passing", [("sizes", 0, "value")])]
    assert rewritten(borne("XA 8"), borne("XA 8")) == []
    assert rewritten(borne("XA 8"), borne("XA 9")) == [("Bears", [("serial",)])]
