"""Conversions asked by series and by place are those that each, asked by itself, applies."""

from __future__ import annotations

from itertools import combinations_with_replacement

import pytest

from spanbook.answers.applying import Applying
from spanbook.answers.steps import of_conversions
from spanbook.reading.records import Record
from tests.answers.test_units import asked, world
from tests.support.registers import record, unit

# Of the engine XA 5 in the frame F 110: surely, possibly, not at all, by either number.
SPANS = (
    "{series: xa, first: 1, last: 9}",
    "{series: xa, first: [4, 6], last: 9}",
    "{series: xa, first: 10, last: 20}",
    "{series: xf, first: 100, last: 120}",
    "{series: xf, first: 100, last: [105, 115]}",
)


def kit(id_: str, place: str, *spans: str) -> Record:
    head = f"kind: conversion\nid: {id_}\ntitle: {id_}\nposition: {place}\nfrom: [a]\nto: b\n"
    return record(f"{head}serials: [{', '.join(spans)}]\n", "conversion", id_)


PLACES = ("engine/cover", "box")
KITS = [
    kit(f"k{i:02}", PLACES[i % 2], *spans) for i, spans in enumerate(combinations_with_replacement(SPANS, 2))
]


@pytest.mark.parametrize("serial", ["XA 5", "F 110", "XA 7", "XA 12"])
def test_those_that_a_machine_may_take_are_found_by_series_and_by_place(serial: str) -> None:
    made = world(unit("XA 5", "F 110"), *KITS[::-1])
    machine = asked(made, serial)
    every = [(step.id, step.maybe) for step in of_conversions(made, KITS, machine)]  # type: ignore[arg-type]
    assert 0 < len(every) < len(KITS)
    applying = Applying(made)
    assert [(step.id, step.maybe) for step in applying.to(machine)] == every
    for place in PLACES:
        here = [one for one in every if KITS[int(one[0][1:])].position == place]  # type: ignore[attr-defined]
        assert [(step.id, step.maybe) for step in applying.at(machine, place)] == here
    assert applying.at(machine, "any") == ()
