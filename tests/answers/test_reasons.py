"""What speaks for or against a statement, worked out by hand: each way on a register of a few records."""

from __future__ import annotations

import pytest

from spanbook.answers.applicability import Fits
from spanbook.answers.reasons import Reason, SameNumbers
from spanbook.answers.standing import standings
from spanbook.reading.records import Record
from spanbook.register.statements import Statement
from tests.support.registers import assembly, lid, record, register

BOOK = record("kind: source\nid: book\ntitle: B\nclass: parts-book\n", "source", "book")
LIST = record("kind: source\nid: list\ntitle: L\nclass: parts-book\n", "source", "list")


def seen(serial: str, held: str, more: str = "", condition: str = "untouched") -> Record:
    id_ = serial.lower().replace(" ", "-")
    text = f"kind: teardown\nid: {id_}\ndate: 2024\nseen-by: m\nserial: {serial}\nseries: xa\n"
    text += f"condition: {condition}\nfound:\n- {{position: cover, assembly: {held}{more}}}\n"
    return record(text, "teardown", id_)


def kit(start: str, to: str) -> Record:
    text = f"kind: conversion\nid: kit\ntitle: K\nposition: cover\nfrom: [{start}]\nto: {to}\n"
    return record(f"{text}serials:\n- {{series: xa, first: 1, last: 20}}\n", "conversion", "kit")


def statement(fits: Fits, id_: str, anchor: str) -> Statement:
    return next(s for s in fits.register.statements if (s.record.id, s.anchor) == (id_, anchor))


def reasons(id_: str, anchor: str, *records: Record) -> list[Reason]:
    fits = Fits(register(BOOK, LIST, *records))
    asked = statement(fits, id_, anchor)
    assert standings(fits, [asked]) == {asked: standings(fits)[asked]}  # alone or among all
    return list(standings(fits)[asked].reasons)


def weights(id_: str, anchor: str, *records: Record) -> dict[str, str]:
    return {reason.by.id: str(reason.weight) for reason in reasons(id_, anchor, *records)}


def test_what_evidence_remarks_is_kept() -> None:
    noted = lid("low", "first: 1, last: 12", "{source: book, at: p. 3, note: Smudged}, {source: list}")
    found = [(r.by.id, r.at, r.shown, r.note) for r in reasons("low", "span-xa", noted)]
    assert found == [("book", "p. 3", None, "Smudged"), ("list", None, None, None)]


@pytest.mark.parametrize(
    ("other", "told"),
    [
        ("first: 12, last: 20", True),  # 12 with both
        ("first: 13, last: 20", False),
        ("first: [12, 13], last: 20", False),  # 12 only possibly
        ("first: 12, last: 20, option: true", False),
        ("first: 12, last: 20, fitted: field", False),
    ],
)
def test_another_standard_on_the_same_numbers_is_against_both(other: str, told: bool) -> None:
    made = lid("low", "first: 1, last: 12"), lid("high", other)
    for mine, theirs in (("low", "high"), ("high", "low")):
        found = [(r.by.id, str(r.weight), r.shown) for r in reasons(mine, "span-xa", *made)]
        assert found == ([(theirs, "against", SameNumbers())] if told else [])


def test_an_assembly_found_where_another_of_its_spans_reaches_is_not_against_the_first() -> None:
    text = (
        "kind: assembly\nid: twice\ntitle: T\nposition: cover\nserials:\n"
        "- {series: xa, first: 1, last: 5}\n- {series: xa, first: 12, last: 20, anchor: again}\n"
    )
    twice = record(text, "assembly", "twice")
    assert weights("twice", "span-xa", twice, seen("XA 15", "twice")) == {}
    assert weights("twice", "again", twice, seen("XA 15", "twice")) == {"xa-15": "seen"}
    # Where none of them reaches, all are doubted.
    for anchor in ("span-xa", "again"):
        assert weights("twice", anchor, twice, seen("XA 7", "twice")) == {"xa-7": "against"}


def test_an_assembly_found_past_its_span_is_explained_by_a_kit_that_makes_it() -> None:
    made = lid("low", "first: 1, last: 12"), lid("high", "first: 13, last: 20"), seen("XA 15", "low")
    assert weights("low", "span-xa", *made) == {"xa-15": "against"}
    assert weights("low", "span-xa", *made, kit("high", "low")) == {"xa-15": "explained"}
    assert weights("high", "span-xa", *made) == {"xa-15": "against"}
    assert weights("high", "span-xa", *made, kit("high", "low")) == {"xa-15": "explained"}


def test_what_left_the_works_with_it_shows_no_fitting_in_the_field() -> None:
    text = (
        "kind: assembly\nid: low\ntitle: Low\nposition: cover\nserials:\n"
        "- {series: xa, first: 1, last: 12}\n"
        "- {series: xa, first: 1, last: 20, fitted: field, anchor: later}\n"
    )
    low = record(text, "assembly", "low")
    assert weights("low", "later", low, seen("XA 3", "low")) == {}
    assert weights("low", "later", low, seen("XA 15", "low")) == {"xa-15": "seen"}
    assert weights("low", "span-xa", low, seen("XA 3", "low")) == {"xa-3": "seen"}


@pytest.mark.parametrize("fitted", ["option: true", "fitted: field", "fitted: service"])
def test_what_may_stand_beside_it_is_not_against_it(fitted: str) -> None:
    made = lid("low", "first: 1, last: 20"), lid("extra", f"first: 1, last: 20, {fitted}")
    assert weights("low", "span-xa", *made, seen("XA 3", "extra")) == {"xa-3": "explained"}
    elsewhere = lid("low", "first: 1, last: 20"), lid("extra", f"first: 10, last: 20, {fitted}")
    assert weights("low", "span-xa", *elsewhere, seen("XA 3", "extra")) == {"xa-3": "against"}


def test_a_part_rests_on_the_evidence_of_its_line_or_else_of_the_spans() -> None:
    text = (
        "kind: assembly\nid: low\ntitle: Low\nposition: cover\nserials:\n"
        "- {series: xa, first: 1, last: 12, evidence: [{source: book}]}\nparts:\n"
        "- {number: P-1, name: A, quantity: 1}\n"
        "- {number: P-2, name: B, quantity: 1, evidence: [{source: list}]}\n"
    )
    low = record(text, "assembly", "low")
    looks = (
        seen("XA 3", "low", ", parts: [{number: P-1}]"),
        seen("XA 4", "low", ", parts: [{number: P-2}]", "altered"),
        seen("XA 5", "low"),
    )
    found = Fits(register(BOOK, LIST, low, *looks))
    parts = {
        s.number.number: {r.by.id: str(r.weight) for r in judgement.reasons}
        for s, judgement in standings(found).items()
        if s.number and s.record.id == "low"
    }
    assert parts == {
        "p-1": {"book": "printed", "xa-3": "seen"},
        "p-2": {"list": "printed", "xa-4": "set-aside"},
    }


def test_what_lies_elsewhere_says_nothing() -> None:
    made = lid("low", "first: 1, last: 12"), assembly("plug", "first: 1, last: 12", "drain")
    assert weights("plug", "span-xa", *made, seen("XA 3", "low")) == {}
