"""Every statement knows what it is about, by itself: nobody reads its place in the file again."""

from __future__ import annotations

from spanbook.ground.part_numbers import PartKey
from spanbook.reading.nodes import Step
from spanbook.reading.records import Conversion, PartRecord, Series, Supersession
from spanbook.register.statements import (
    Bears,
    BuiltAt,
    Fitting,
    Limit,
    Measurement,
    OfNumber,
    Passing,
    Shows,
    Statement,
    StraySpan,
    Subject,
    Supply,
    Telling,
    Use,
)
from tests.support.demo import demo
from tests.support.registers import record, register

ASSEMBLY = """\
kind: assembly
id: a
title: A
position: cover
serials:
- {series: xa, first: 1, last: 5, evidence: [{source: book}]}
- {series: nowhere, first: 1, last: 5, anchor: lost}
- {series: xa, first: 6, last: 9, anchor: later}
parts:
- {number: "P-1", name: P, evidence: [{source: letter}]}
- {number: "P-1", name: P, by: bearings}
"""
PART = """\
kind: part
id: p
name: P
number: "P-1"
sizes:
- {what: Bore, value: "20", unit: mm}
evidence: [{source: book}]
"""
ACT = (
    'kind: supersession\nid: s\nold: [{number: "P-1"}]\nnew: [{number: "P-2"}]\nevidence: [{source: book}]\n'
)
KIT = (
    "kind: conversion\nid: c\ntitle: C\nposition: drain\nfrom: [a]\nto: b\n"
    "serials: [{series: xa, first: 1, last: 5}]\n"
)
SMALL = register(
    record(ASSEMBLY, "assembly", "a"),
    record(PART, "part", "p"),
    record(ACT, "supersession", "s"),
    record(KIT, "conversion", "c"),
)


def said_in(kind: str) -> list[Statement]:
    return [s for s in SMALL.statements if s.record.kind == kind]


def test_an_assembly_says_its_spans_and_its_parts() -> None:
    first, stray, later, own, bought = said_in("assembly")
    assert isinstance(first.subject, Fitting)
    assert (first.subject.series, first.subject.span.last) == (SMALL.series["xa"], 5)
    assert (first.position, first.number, first.anchor) == ("cover", None, "span-xa")
    assert [evidence.source for evidence in first.evidence] == ["book"]
    assert isinstance(stray.subject, StraySpan)
    assert (stray.subject.span.series, stray.position, stray.anchor) == ("nowhere", "cover", "lost")
    assert isinstance(later.subject, Fitting)
    assert (later.subject.span.first, later.anchor, later.evidence) == (6, "later", ())
    assert isinstance(own.subject, Use)
    assert (own.subject.number, own.position, own.anchor) == ("P-1", "cover", "part-p-1")
    assert own.number == PartKey.of("example-works", "P-1")
    assert [evidence.source for evidence in own.evidence] == ["letter"]
    assert (bought.number, bought.anchor) == (PartKey.of("bearings", "P-1"), "part-bearings-p-1")


def test_two_spans_in_one_series_are_two_subjects() -> None:
    here = SMALL.fittings["xa", "cover"]
    assert [fitting.span.first for fitting in here] == [1, 6]
    assert list(SMALL.fittings_of(SMALL.assemblies["a"])) == list(here)
    assert [SMALL.said[fitting].anchor for fitting in here] == ["span-xa", "later"]


def test_a_part_says_itself_and_its_sizes() -> None:
    whole, bore = said_in("part")
    assert isinstance(whole.subject, PartRecord)
    assert isinstance(bore.subject, Measurement)
    assert (bore.subject.size.what, bore.anchor, bore.position) == ("Bore", "size-bore", None)
    assert whole.number == bore.number == PartKey.of("example-works", "P-1")
    assert whole.evidence == bore.evidence != ()


def test_acts_conversions_and_series_are_their_own_subjects() -> None:
    (act,), (kit,), series = said_in("supersession"), said_in("conversion"), said_in("machine")
    assert isinstance(act.subject, Supersession)
    assert [evidence.source for evidence in act.evidence] == ["book"]
    assert (act.position, act.anchor) == (None, "")
    assert isinstance(kit.subject, Conversion)
    assert (kit.position, kit.anchor) == ("drain", "")
    assert [run.anchor for run in series] == ["series-xa", "series-xb"]
    assert all(isinstance(run.subject, Series) for run in series)


def test_a_part_of_an_assembly_is_one_thing_from_both_sides() -> None:
    (own, bought) = SMALL.uses_of(SMALL.assemblies["a"])
    assert SMALL.parts[PartKey.of("example-works", "P-1")].uses == (own,)
    assert SMALL.parts[PartKey.of("bearings", "P-1")].uses == (bought,)


def test_every_subject_is_what_stands_at_its_path() -> None:
    """The path tells the place in the file of just the thing that the subject holds."""
    statements = demo().statements
    assert len(statements) > 500
    for statement in statements:
        where = f"{statement.record.id}#{statement.anchor}"
        assert demo().said[statement.subject] is statement, where
        typed: object = statement.record
        for step in statement.path:
            name = _ATTRIBUTES.get(step, str(step).replace("-", "_"))
            typed = typed[step] if isinstance(typed, tuple) else getattr(typed, name)  # type: ignore[index]
        assert typed is item_of(statement.subject), where


# Python keeps `or` for itself; the series of a machine are those that are not retired.
_ATTRIBUTES: dict[Step, str] = {"or": "others", "series": "every_series"}


def item_of(subject: Subject) -> object:
    match subject:
        case Fitting() | StraySpan() | Limit():
            return subject.span
        case Use():
            return subject.said
        case Measurement():
            return subject.size
        case BuiltAt():
            return subject.plant
        case OfNumber():
            return subject.said
        case Telling():
            return subject.record.tell
        case Shows():
            return subject.shown
        case Supply():
            return subject.part.supplied
        case Bears():
            return subject.number
        case Passing():
            return subject.way
        case _:
            return subject
