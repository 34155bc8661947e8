"""A world in which a machine can be anything: as recorded, converted, given a later part, a contradiction.

Of the cover: `early` XA 1 to 4..7, `late` from 5..8 to 15, then nothing known; `spare` was sold later for
XA 1 to 10, `kit` turns the early one into `made` and `second` that into `remade`; `far` was on XA 20 only.
"""

from __future__ import annotations

import random

from spanbook.answers.answers import Answers
from spanbook.answers.readings import reading_of
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


def seen(
    id_: str,
    serial: str,
    assembly: str | None,
    condition: str = "untouched",
    more: str = "",
    date: str = "2024",
) -> Record:
    held = f"{{position: cover, assembly: {assembly}{more}}}" if assembly else f"{{position: cover{more}}}"
    text = (
        f"kind: teardown\nid: {id_}\ndate: {date}\nseen-by: m\nserial: {serial}\nseries: xa\n"
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


def random_world(chance: random.Random) -> Answers:
    """A world of covers and drains with spans, conversions, teardowns and worn numbers at random."""

    def span(i: int) -> str:
        low = chance.randint(1, 14)
        first = chance.choice([str(low), f"[{low}, {low + 2}]", "unknown"])
        last = chance.choice([str(low + 5), f"[{low + 3}, {low + 6}]", "open", "unknown"])
        fitted = chance.choice(["factory", "factory", "factory", "service", "field"])
        option = ", option: true" if chance.random() < 0.2 else ""
        return f"first: {first}, last: {last}, fitted: {fitted}, anchor: s-{i}{option}"

    names = [f"a{i}" for i in range(chance.randint(3, 6))]
    held = [lid(name, span(i), chance.choice(["", "{source: book}"])) for i, name in enumerate(names)]
    held += [
        kit(f"k{i}", chance.choice(names), chance.choice(names), 1, chance.choice([9, "[3, 12]", "open"]))
        for i in range(chance.randint(0, 3))
    ]
    conditions = ["untouched", "likely-original", "altered", "unknown"]
    for i in range(chance.randint(2, 9)):
        number = chance.choice([str(chance.randint(1, 20)), f"{chance.randint(1, 9)}", "1?", "?", "??"])
        found = chance.choice([*names, *names, None])
        held.append(seen(f"t{i}", f"XA {number}", found, chance.choice(conditions)))
    return Answers(register(BOOK, *held))
