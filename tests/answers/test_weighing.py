"""What bears on conversions, measurements and spans beside their evidence, in registers of a few records."""

from __future__ import annotations

from itertools import combinations

import pytest

from spanbook.answers.applicability import Fits
from spanbook.answers.reasons import Had, Measured, Reason, Weight
from spanbook.answers.standing import Standing, standing_of, standings, weakest
from spanbook.reading.records import Record, Source
from tests.support.registers import lid, record, register
from tests.support.rows import each_row

# xa has 1 to 20 without 8 and 9, xb 15 to 40; both are stamped XA.
LOW, HIGH = lid("low", "first: 1, last: 12"), lid("high", "first: 13, last: 20")


def look(serial: str, found: str, condition: str = "untouched", series: str = "xa") -> Record:
    text = f"kind: teardown\nid: look\ndate: 2024\nseen-by: m\nserial: {serial}\nseries: {series}\n"
    return record(
        f"{text}condition: {condition}\nfound:\n- {{position: cover, {found}}}\n", "teardown", "look"
    )


def kit(start: str, to: str, first: int = 1, last: int = 20) -> Record:
    text = f"kind: conversion\nid: kit\ntitle: K\nposition: cover\nfrom: [{start}]\nto: {to}\n"
    return record(f"{text}serials:\n- {{series: xa, first: {first}, last: {last}}}\n", "conversion", "kit")


def reasons(id_: str, anchor: str, *records: Record) -> list[Reason]:
    """What bears on a statement."""
    found = standings(Fits(register(*records)))
    return next(
        list(judged.reasons) for s, judged in found.items() if (s.record.id, s.anchor) == (id_, anchor)
    )


def weights(id_: str, anchor: str, *records: Record) -> list[Weight]:
    return [reason.weight for reason in reasons(id_, anchor, *records)]


@each_row(
    ("serial", "series", "first", "seen"),
    [
        ("XA 3", "xa", 1, True),
        ("XA 3", "xa", 4, False),  # the kit is not for it
        ("XA 15", "xa", 1, False),  # it left the works with what the kit makes
        ("XA 15", "xb", 1, False),
        ("XA ?", "xa", 1, True),
        ("XA ?", "xa", 4, False),  # of some that it may be it tells nothing
        ("XA 1?", "xa", 1, False),
        ("XA 9", "xa", 1, False),  # never issued
    ],
)
def test_a_conversion_was_seen_where_it_alone_explains_its_result(
    serial: str, series: str, first: int, seen: bool
) -> None:
    made = LOW, HIGH, kit("low", "high", first), look(serial, "assembly: high", series=series)
    found = reasons("kit", "", *made)
    assert [(r.weight, r.by.id, isinstance(r.shown, Had)) for r in found] == seen * [
        (Weight.SEEN, "look", True)
    ]


PART = "kind: part\nid: body\nnumber: P-1\nname: Body\nsizes:\n- {what: Bore, value: '20', unit: mm}\n"


@pytest.mark.parametrize(
    ("measured", "weighs"),
    [
        ("what: bore, number: P-1, value: '20', unit: mm", [Weight.SEEN]),
        ("what: BORE, number: p-1, value: '20.0', unit: mm", [Weight.SEEN]),
        ("what: bore, number: P-1, value: '25', unit: mm", [Weight.SET_ASIDE]),
        ("what: depth, number: P-1, value: '20', unit: mm", []),
        ("what: bore, number: P-2, value: '20', unit: mm", []),
        ("what: bore, value: '20', unit: mm", []),
    ],
)
def test_a_size_was_seen_where_the_same_was_measured_of_that_part(
    measured: str, weighs: list[Weight]
) -> None:
    other = "{what: depth, number: P-1, value: '5', unit: mm}"
    machine = look("XA 3", f"measurements: [{{{measured}}}, {other}]")
    found = reasons("body", "size-bore", record(PART, "part", "body"), machine)
    assert [reason.weight for reason in found] == weighs
    assert all(isinstance(r.shown, Measured) and r.shown.same == (r.weight is Weight.SEEN) for r in found)


@pytest.mark.parametrize(
    ("condition", "seen", "against", "explained"),
    [
        ("untouched", Weight.SEEN, Weight.AGAINST, Weight.EXPLAINED),
        ("likely-original", Weight.SEEN, Weight.AGAINST, Weight.EXPLAINED),
        ("altered", Weight.SET_ASIDE, Weight.SET_ASIDE, Weight.EXPLAINED),
        ("unknown", Weight.SET_ASIDE, Weight.SET_ASIDE, Weight.EXPLAINED),
    ],
)
def test_of_an_altered_machine_only_what_a_kit_explains_is_told(
    condition: str, seen: Weight, against: Weight, explained: Weight
) -> None:
    for held, weight in (("low", seen), ("high", against)):
        (reason,) = reasons("low", "span-xa", LOW, HIGH, look("XA 3", f"assembly: {held}", condition))
        assert reason.weight is weight
        assert isinstance(reason.shown, Had)
        assert (reason.shown.assembly.id, reason.shown.condition is None) == (
            held,
            weight is not Weight.SET_ASIDE,
        )
    (reason,) = reasons(
        "low", "span-xa", LOW, HIGH, kit("low", "high"), look("XA 3", "assembly: high", condition)
    )
    assert (reason.weight, reason.shown) == (explained, Had(reason.shown.assembly))  # type: ignore[union-attr]


@pytest.mark.parametrize("low", [LOW, lid("low", "first: 1, last: 20")])
@pytest.mark.parametrize("held", ["low", "hat"])
def test_a_machine_of_another_series_says_nothing(low: Record, held: str) -> None:
    hat = lid("hat", "first: 1, last: 2")
    machine = look("XA 16", f"assembly: {held}", series="xb")
    assert [r for r in reasons("low", "span-xa", low, hat, machine) if r.by.id == "look"] == []


def test_a_span_in_another_series_reaches_no_machine_of_this() -> None:
    text = "kind: assembly\nid: low\ntitle: low\nposition: cover\nserials:\n"
    both = f"{text}- {{series: xa, first: 1, last: 5}}\n- {{series: xb, first: 15, last: 40}}\n"
    made = record(both, "assembly", "low"), look("XA 16", "assembly: low")
    assert weights("low", "span-xa", *made) == [Weight.AGAINST]
    assert weights("low", "span-xb", *made) == []


def test_what_possibly_left_the_works_instead_is_a_contradiction() -> None:
    made = lid("low", "first: 1, last: 10"), lid("high", "first: [2, 18], last: 20")
    assert weights("low", "span-xa", *made, look("XA 3", "assembly: high")) == [Weight.AGAINST]


SUPPORT = {Weight.SEEN: Standing.SEEN, Weight.PRINTED: Standing.PRINTED, Weight.RECALLED: Standing.RECALLED}


@each_row("weights", [c for n in range(7) for c in combinations(Weight, n)])
def test_the_standing_that_weights_make(weights: tuple[Weight, ...]) -> None:
    """Somebody says otherwise: disputed. Printed and seen: confirmed. Else the best of what supports it."""
    source = record("kind: source\nid: b\ntitle: B\nclass: manual\n", "source", "b")
    assert isinstance(source, Source)
    best = next((standing for weight, standing in SUPPORT.items() if weight in weights), Standing.UNSUPPORTED)
    if Weight.PRINTED in weights and Weight.SEEN in weights:
        best = Standing.CONFIRMED
    if Weight.AGAINST in weights:
        best = Standing.DISPUTED
    assert standing_of(Reason(weight, source, None, None) for weight in weights) is best


def test_readings_that_do_not_agree_count_for_nothing() -> None:
    assert weights("low", "span-xa", LOW, HIGH, look("XA ?", "assembly: low")) == [Weight.SEEN]
    assert weights("low", "span-xa", LOW, HIGH, look("XA 1?", "assembly: low")) == []


@pytest.mark.parametrize(
    "span",
    ["first: 1, last: [2, 12]", "first: 1, last: 12, option: true", "first: 1, last: 12, fitted: field"],
)
def test_on_what_is_not_surely_there_another_is_no_contradiction(span: str) -> None:
    made = lid("low", span), lid("high", "first: 13, last: 20")
    assert weights("low", "span-xa", *made, look("XA 3", "assembly: high")) == []


def test_nothing_is_weaker_than_what_is_disputed_and_then_what_nothing_supports() -> None:
    ranked = [Standing.DISPUTED, *(s for s in Standing if s is not Standing.DISPUTED)]
    for i, one in enumerate(ranked):
        for other in ranked[i:]:
            assert weakest([one, other]) is weakest([other, one]) is one
