"""What each sort of statement says, in short."""

from __future__ import annotations

from spanbook.wording.pieces import plain
from spanbook.wording.statements import statement_words
from tests.support.acts import act
from tests.support.registers import lid, record, register

FLAP = """\
kind: assembly
id: flap
title: Flap
position: cover
serials: [{series: xa, first: 1, last: 4}]
parts: [{number: P-1, name: Hinge}]
"""
KIT = (
    "{kind: conversion, id: kit, title: Lid kit, position: cover, from: [flap], to: lid, "
    "serials: [{series: xa, first: 1, last: 4}]}"
)
PART = "{kind: part, id: hinge, number: P-1, name: Hinge, sizes: [{what: Depth, value: 1, unit: mm}]}"


def test_what_each_says() -> None:
    made = register(
        record(FLAP, "assembly", "flap"),
        lid("lid", "first: 5, last: 8"),
        record(KIT, "conversion", "kit"),
        record(PART, "part", "hinge"),
        record(act("on", "P-1", "P-2"), "supersession", "on"),
    )
    assert {plain(statement_words(statement)) for statement in made.statements} == {
        "X: the series XA …",
        "Flap: from XA 1 to XA 4",
        "Flap: contains P-1 Hinge",
        "lid: from XA 5 to XA 8",
        "Lid kit: conversion",
        "P-1: Hinge",
        "P-1: Depth",
        "P-1 replaced by P-2: supersession",
    }
