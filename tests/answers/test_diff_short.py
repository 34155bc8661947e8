"""What cannot differ is left out of a comparison without a difference.

Two registers that share the records that are the same in both are compared the short way; with every record
read anew nothing is left out.
"""

from __future__ import annotations

from collections.abc import Mapping

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.answers.diff.model import Comparison
from spanbook.reading.records import Record
from spanbook.register.link import build
from spanbook.register.model import Register
from tests.support.acts import act
from tests.support.comparisons import compared
from tests.support.registers import MACHINE, POSITIONS, record

Texts = Mapping[tuple[str, str], str]  # by kind and id
BOOK = "kind: source\nid: book\ntitle: The book\nclass: {}\n"
SPAN = "- {{series: xa, first: {}, last: {}, evidence: [{{source: {}}}]}}\n"
LID = "kind: assembly\nid: {}\ntitle: X\nposition: {}\nserials:\n"
LIST = "parts:\n- {{number: {}, name: Bolt}}\n"
LOOK = (
    "kind: teardown\nid: {}\ndate: 2024\nseen-by: m\nserial: XA {}\nseries: xa\ncondition: {}\n"
    "found: [{{position: {}, assembly: {}}}]\n"
)
PART = "kind: part\nid: bolt\nnumber: {}\nname: {}\nevidence: [{{source: {}}}]\n"
KIT = (
    "kind: conversion\nid: kit\ntitle: K\nposition: cover\nfrom: [a]\nto: b\nevidence: [{{source: letter}}]\n"
    "serials: [{{series: xa, first: {}, last: 20}}]\n"
)

ends = st.integers(1, 7).map(str) | st.sampled_from(["[2, 5]", "[3, 7]", "unknown"])
lasts = st.integers(10, 20).map(str) | st.sampled_from(["[10, 15]", "unknown", "open"])
sources = st.sampled_from(["book", "letter"])


@st.composite
def lid(draw: st.DrawFn, id_: str, position: str) -> str:
    number = draw(st.sampled_from(["P-1", "P-2"]))
    return (
        LID.format(id_, position) + SPAN.format(draw(ends), draw(lasts), draw(sources)) + LIST.format(number)
    )


@st.composite
def look(draw: st.DrawFn, id_: str) -> str:
    position, held = draw(st.sampled_from([("cover", "a"), ("cover", "b"), ("drain", "c")]))
    condition = draw(st.sampled_from(["untouched", "altered"]))
    return LOOK.format(id_, draw(st.integers(1, 7)), condition, position, held)


@st.composite
def machine(draw: st.DrawFn) -> str:
    years = draw(st.sampled_from(["", "years: {1931: 1, 1932: 5}, ", "years: {1931: 1, 1932: 7}, "]))
    maker = draw(st.sampled_from(["Example Works", "Other Works"]))
    return (MACHINE % 20).replace("skipped", f"{years}skipped", 1).replace("Example Works", maker)


ANY: dict[tuple[str, str], st.SearchStrategy[str]] = {
    ("machine", "x"): machine(),
    ("source", "book"): st.sampled_from(["parts-book", "recollection"]).map(BOOK.format),
    ("assembly", "a"): lid("a", "cover"),
    ("assembly", "b"): lid("b", "cover"),
    ("assembly", "c"): lid("c", "drain"),
    ("teardown", "t-1"): look("t-1"),
    ("teardown", "t-2"): look("t-2"),
    ("part", "bolt"): st.builds(PART.format, st.sampled_from(["P-1", "P-2"]), sources, sources),
    ("conversion", "kit"): st.integers(1, 12).map(KIT.format),
    ("supersession", "on"): st.sampled_from(["P-2", "P-3", "P-2 2"]).map(lambda new: act("on", "P-1", new)),
}
# What no other record names can be taken away.
UNNAMED = ("teardown", "part", "conversion", "supersession")
FIXED = {
    ("positions", "positions"): POSITIONS,
    ("source", "letter"): BOOK.format("correspondence").replace("book", "letter"),
}


def made(texts: Texts) -> dict[tuple[str, str], Record]:
    return {key: record(text, *key) for key, text in texts.items()}


def told(found: Comparison) -> list[object]:
    """All that is told, by what it is known by."""
    asked = (
        [
            (q.about, q.series.id, q.position, q.numbers, q.unsure, [a.id for a in q.assemblies])
            for q in questions
        ]
        for questions in (found.opened, found.closed)
    )
    return [
        found.answers,
        found.years,
        found.orders,
        [(s.kind, s.record, s.anchor, s.before, s.after) for s in found.standings],
        *asked,
        found.records,
        [(one.reason.by.id, one.reason.weight, len(one.statements)) for one in found.against],
        [(one.teardown.id, one.first, one.shown) for one in found.looks],
        [(one.after.record.id, [change.steps for change in one.fields]) for one in found.unbacked],
        [
            (one.series.id, one.position, one.earlier, one.later, one.before, one.after)
            for one in found.breaks
        ],
    ]


def held_to_the_long_way(old: Texts, new: Texts) -> Comparison:
    before = made(old)
    shared = {**made(new), **{key: before[key] for key, text in new.items() if old.get(key) == text}}

    def register(records: Mapping[tuple[str, str], Record]) -> Register:
        return build(records.values())

    short = compared(register(before), register(shared))
    assert told(short) == told(compared(register(made(old)), register(made(new))))
    return short


# Each record and what may be said in its place: every one of them changes what is told.
A = LID.format("a", "cover") + SPAN.format(1, "[10, 15]", "book") + LIST.format("P-1")
BASE = {
    **FIXED,
    ("machine", "x"): (MACHINE % 20).replace("skipped", "years: {1931: 1, 1932: 5}, skipped", 1),
    ("source", "book"): BOOK.format("parts-book"),
    ("assembly", "a"): A,
    ("assembly", "b"): LID.format("b", "cover") + SPAN.format("[11, 16]", "20", "letter"),
    ("assembly", "c"): LID.format("c", "drain") + SPAN.format(1, 20, "book"),
    ("teardown", "t-1"): LOOK.format("t-1", 3, "untouched", "cover", "a"),
    ("teardown", "t-2"): LOOK.format("t-2", 4, "untouched", "cover", "b"),
    ("part", "bolt"): PART.format("P-1", "Bolt", "book"),
    ("conversion", "kit"): KIT.format(1),
    ("supersession", "on"): act("on", "P-1", "P-2"),
}
CHANGED = {
    ("machine", "x"): BASE["machine", "x"].replace("1932: 5", "1932: 7"),
    ("source", "book"): BOOK.format("recollection"),
    ("assembly", "a"): A.replace("[10, 15]", "[10, 13]"),
    ("assembly", "c"): BASE["assembly", "c"].replace("book", "letter").replace("last: 20", "last: 19"),
    ("teardown", "t-1"): LOOK.format("t-1", 3, "altered", "cover", "a"),
    ("part", "bolt"): BASE["part", "bolt"].replace("evidence: [{source: book}]\n", ""),
    ("conversion", "kit"): KIT.format(5),
    ("supersession", "on"): act("on", "P-1", "P-3"),
}


@pytest.mark.parametrize("key", CHANGED)
def test_each_sort_of_record_changes_what_is_told(key: tuple[str, str]) -> None:
    new = {**BASE, key: CHANGED[key]}
    held_to_the_long_way(BASE, new)
    held_to_the_long_way(new, BASE)
    old = made(BASE)
    found = compared(build(old.values()), build({**old, key: record(CHANGED[key], *key)}.values()))
    assert any(told(found)[:6])


@given(st.fixed_dictionaries(ANY), st.sampled_from(sorted(ANY)), st.data())
def test_with_one_record_changed(old: Texts, key: tuple[str, str], data: st.DataObject) -> None:
    old = {**FIXED, **old}
    held_to_the_long_way(old, {**old, key: data.draw(ANY[key])})


@pytest.mark.slow
@given(st.fixed_dictionaries(ANY), st.sampled_from([key for key in sorted(ANY) if key[0] in UNNAMED]))
def test_with_one_record_taken_away_or_added(old: Texts, key: tuple[str, str]) -> None:
    old = {**FIXED, **old}
    less = {one: text for one, text in old.items() if one != key}
    held_to_the_long_way(old, less)
    held_to_the_long_way(less, old)


def test_what_is_ordered_of_another_maker_is_another_number() -> None:
    old = {**FIXED, ("machine", "x"): MACHINE % 20, ("supersession", "on"): act("on", "P-1", "P-2")}
    new = {**old, ("machine", "x"): old["machine", "x"].replace("Example Works", "Other Works")}
    found = held_to_the_long_way(old, new)
    makers = {"example-works": (True, False), "other-works": (False, True)}
    assert {(one.key.by, one.key.number.upper()) for one in found.orders} == {
        (maker, number) for maker in makers for number in ("P-1", "P-2")
    }
    assert all((one.before is not None, one.after is not None) == makers[one.key.by] for one in found.orders)


def test_what_is_inside_changes_with_what_is_around_it() -> None:
    tree = "kind: positions\npositions:\n- id: filter\n  title: Filter\n  positions:\n"
    lid_ = LID.format("b", "filter") + SPAN.format(4, 20, "book")
    old = {
        **FIXED,
        ("positions", "positions"): tree + "  - {id: valve, title: Valve, within: [b]}\n",
        ("machine", "x"): MACHINE % 20,
        ("source", "book"): BOOK.format("parts-book"),
        ("assembly", "b"): lid_,
    }
    found = held_to_the_long_way(old, {**old, ("assembly", "b"): lid_.replace("first: 4", "first: 5")})
    asked = [[(q.position, q.first) for q in each] for each in (found.closed, found.opened)]
    assert [("filter/valve", first) in each for first, each in zip((4, 5), asked, strict=True)] == [
        True,
        True,
    ]
