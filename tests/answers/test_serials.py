"""Serial numbers as they are typed or were read on a plate, and the machines that they may be."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.answers.applicability import Fits
from spanbook.answers.readings import Reading, may_be, read_serial
from spanbook.ground.years import Years
from spanbook.reading.records import Record, Teardown
from spanbook.register.link import build
from tests.support.registers import MACHINE, assembly, record, register, teardown
from tests.support.rows import each_row

# xa has 1 to 20 without 8 and 9, xb 15 to 40; both are stamped XA.
MADE = register()


def told(readings: tuple[Reading, ...]) -> list[tuple[str, int]]:
    return [(reading.series.id, reading.number) for reading in readings]


def looked_at(*records: Record) -> tuple[Fits, Teardown]:
    fits = Fits(register(*records))
    (one,) = fits.register.teardowns.values()
    return fits, one


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("XA 16", [("xa", 16, True), ("xb", 16, True)]),
        ("XA 30", [("xb", 30, True), ("xa", 30, False)]),
        ("XA 3", [("xa", 3, True), ("xb", 3, False)]),
        ("XA 8", [("xa", 8, False), ("xb", 8, False)]),
        ("16", []),
    ],
)
def test_the_series_in_which_it_was_issued_come_first(text: str, read: list[tuple[str, int, bool]]) -> None:
    found = read_serial(MADE, text)
    assert [(one.series.id, one.number, one.issued) for one in found] == read


@each_row(
    ("text", "numbers"),
    [
        ("XA 16", [("xa", 16), ("xb", 16)]),
        ("XA 3", [("xa", 3)]),
        ("XA 8", []),
        ("XA ?", [("xa", n) for n in (1, 2, 3, 4, 5, 6, 7)]),
        ("XA 1?", [*(("xa", n) for n in range(10, 20)), *(("xb", n) for n in range(15, 20))]),
        ("XA ?0", [("xa", 10), ("xa", 20), ("xb", 20), ("xb", 30), ("xb", 40)]),
        ("XA 5?", []),
    ],
)
def test_what_a_worn_one_may_be_was_issued(text: str, numbers: list[tuple[str, int]]) -> None:
    found = may_be(MADE, text)
    assert told(found) == numbers
    assert all(reading.issued for reading in found)


@each_row(
    ("serial", "series", "number"),
    [
        ("XA 3", "", ("xa", 3)),
        ("XA 30", "", ("xb", 30)),
        ("XA 16", "", None),
        ("XA 16", "xb", ("xb", 16)),
        ("XA 3", "xb", None),
        ("XA ?", "", None),
        ("XA 4?", "", ("xb", 40)),
        ("XA 2?", "xa", ("xa", 20)),
        ("XA 8", "xa", None),
        ("QQ 3", "", None),
    ],
)
def test_a_teardown_is_of_one_machine_where_only_one_can_be_meant(
    serial: str, series: str, number: tuple[str, int] | None
) -> None:
    fits, one = looked_at(teardown(serial, series))
    reading = fits.reading(one)
    assert (reading and (reading.series.id, reading.number)) == number


def test_two_numbers_in_a_row_are_not_one_machine() -> None:
    fits = Fits(register(teardown("XA ?", "xa"), last="2"))
    assert fits.reading(fits.register.teardowns["t"]) is None


@pytest.mark.parametrize(("series", "numbers"), [("xa", [1, 4, 7]), ("xb", [1])])
def test_a_number_before_a_conversion_is_told_apart_from_those_after(series: str, numbers: list[int]) -> None:
    kit = "kind: conversion\nid: kit\ntitle: K\nposition: cover\nfrom: [a]\nto: b\nserials:\n"
    fits, one = looked_at(
        record(f"{kit}- {{series: {series}, first: 4, last: 6}}\n", "conversion", "kit"),
        teardown("XA ?", "xa"),
    )
    assert [sample.number for sample in fits.samples((one, "cover"))] == numbers


def test_what_was_found_is_kept_by_position() -> None:
    fits, one = looked_at(teardown("XA 3"))
    series = fits.register.series["xa"]
    assert [(found, find.note) for found, find in fits.finds(series, "cover")] == [(one, "A lid")]
    assert list(fits.finds(series, "drain")) == []
    assert list(fits.finds(fits.register.series["xb"], "cover")) == []


ends = st.integers(1, 20).map(str) | st.just("unknown")


@given(
    st.lists(st.tuples(ends, ends), max_size=4),
    st.text("012?", min_size=1, max_size=2),
    st.sampled_from("ab"),
)
def test_each_number_that_a_worn_one_may_be_is_told_as_one_of_the_samples(
    spans: list[tuple[str, str]], digits: str, series: str
) -> None:
    lids = (assembly(f"a{i}", f"first: {first}, last: {last}") for i, (first, last) in enumerate(spans))
    fits, one = looked_at(*lids, teardown(f"XA {digits}", f"x{series}"))
    samples = fits.samples((one, "cover"))
    every = [r for r in may_be(fits.register, one.serial) if r.series.id == one.series]

    def fitting(reading: Reading) -> list[tuple[str, str]]:
        at = fits.at(reading, "cover")
        return [(fit.assembly.id, fit.covers) for fit in at.fits]

    assert set(told(tuple(samples))) <= set(told(tuple(every)))
    assert {str(fitting(r)) for r in samples} == {str(fitting(r)) for r in every}
    assert len(samples) <= 4 * len(spans) + 1


def test_a_number_is_dated_by_its_series() -> None:
    dated = MACHINE.replace("last: %s, skipped", "last: 20, years: {1931: 2, 1932: 10}, skipped")
    made = build([record(dated, "machine", "x")])
    years = [reading.years for text in ("XA 1", "XA 2", "XA 10") for reading in read_serial(made, text)[:1]]
    assert years == [None, Years(1931, 1931), Years(1932, None)]
