"""A world in which a machine can be anything: as recorded, converted, given a later part, a contradiction.

Of the cover: `early` XA 1 to 4..7, `late` from 5..8 to 15, then nothing known; `spare` was sold later for
XA 1 to 10, `kit` turns the early one into `made` and `second` that into `remade`; `far` was on XA 20 only.
"""

from __future__ import annotations

from spanbook.answers.answers import Answers
from spanbook.answers.applicability import reading_of
from spanbook.answers.this_machine import ThisMachine
from spanbook.reading.records import Record
from tests.support.registers import lid, record, register

# No span of these two is in the series XA.
ELSEWHERE = (
    lid("other", "first: 15, last: 20", series="xb"),
    lid("free", "first: 15, last: 20", series="xb"),
)
BOOK = record("kind: source\nid: book\ntitle: The book\nclass: parts-book\n", "source", "book")
KIT = (
    "kind: conversion\nid: {}\ntitle: The {}\nposition: cover\nfrom: [{}]\nto: {}\n"
    "serials: [{{series: xa, first: {}, last: {}}}]\n"
)


def kit(id_: str, start: str, to: str, first: object = 1, last: object = 15) -> Record:
    return record(KIT.format(id_, id_, start, to, first, last), "conversion", id_)


WORLD = (
    BOOK,
    lid("early", "first: 1, last: [4, 7]", "{source: book, at: p. 3}"),
    lid("late", "first: [5, 8], last: 15", "{source: book}"),
    lid("spare", "first: 1, last: 10, fitted: service"),
    lid("made", "first: 1, last: [4, 7], fitted: field"),
    lid("remade", "first: unknown, last: unknown, fitted: field, anchor: nowhere"),
    lid("far", "first: 20, last: 20"),
    kit("kit", "early", "made", 1, "[4, 7]"),
    kit("second", "made", "remade"),
)


def seen(id_: str, serial: str, assembly: str | None, condition: str = "untouched", more: str = "") -> Record:
    held = f"{{position: cover, assembly: {assembly}{more}}}" if assembly else f"{{position: cover{more}}}"
    text = (
        f"kind: teardown\nid: {id_}\ndate: 2024\nseen-by: m\nserial: {serial}\nseries: xa\n"
        f"condition: {condition}\nfound: [{held}]\n"
    )
    return record(text, "teardown", id_)


def answers(*records: Record) -> Answers:
    return Answers(register(*WORLD, *records))


def machine(serial: str, *records: Record) -> ThisMachine:
    """What is known of one machine of series XA in the world with some more records."""
    return machine_of(answers(*records), serial)


def machine_of(made: Answers, serial: str) -> ThisMachine:
    series = made.register.series["xa"]
    number = series.stamp.read(serial)
    assert number is not None
    return made.machines.of(reading_of(series, number))
