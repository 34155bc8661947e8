"""A watched register says the same, notes what is read of it, and knows where something else stands."""

from __future__ import annotations

import pickle
from collections.abc import Mapping
from dataclasses import fields, replace

import pytest

from spanbook.ground.notes import Name, Notes
from spanbook.reading.records import Assembly, Record, Teardown
from spanbook.register.cells import Cells, ground, lasting
from spanbook.register.link import build
from spanbook.register.model import Register
from spanbook.register.watched import Watched, Whole, watched
from tests.support.demo import demo
from tests.support.registers import lid, record, register

DEMO = demo().answers.register
# What is neither watched nor made of what is not: each a mapping, but for these.
NO_TABLES = {"units", "former", "numbering", "unread", "records", "statements"}
NOT_WATCHED = {
    *("machines", "series", "retired_series", "unit_records", "positions", "inside"),
    *("cautions", "terms", "signs", "gone", "makers", "owners", "possible", "said", "things"),
}


def names(read: Register) -> list[Name]:
    """Every cell of a register, by its lasting name."""
    notes = Notes()
    seen = watched(read, notes)
    for one in fields(seen):
        table = getattr(seen, one.name)
        for here in table.values() if one.name == "things" else [table]:
            if isinstance(here, Watched):
                for key in [*here]:
                    here.get(key)
                here.items()
    assert list(seen.records) == list(read.records)
    assert list(seen.statements) == list(read.statements)
    return [name for _, name in lasting(notes.since(0)).cells]


def again(read: Register, *edits: tuple[Record, str, str]) -> Register:
    """A register of other records that say the same, but where something is put for something."""
    swapped = {old: (was, now) for old, was, now in edits}
    made = []
    for one in read.records:
        text = one.origin.data.decode()
        new = record(text.replace(*swapped.get(one, ("", ""))), one.kind, one.id)
        made.append(replace(new, origin=replace(new.origin, path=one.origin.path)))
    return build(made)


def test_every_table_is_watched_or_ground() -> None:
    """A new one is watched, which is never wrong; what is ground has to be said here too."""
    seen = watched(DEMO, Notes())
    for one in fields(Register):
        table = getattr(seen, one.name)
        if one.name not in NO_TABLES:
            assert isinstance(table, Watched) == (one.name not in NOT_WATCHED), one.name
            assert isinstance(table, Mapping)


def test_it_says_the_same() -> None:
    seen = watched(DEMO, Notes())
    for one in fields(Register):
        was, now = getattr(DEMO, one.name), getattr(seen, one.name)
        if one.name not in NO_TABLES and one.name != "things":
            assert list(now.items()) == list(was.items())
            assert (list(now), len(now), list(now.keys())) == (list(was), len(was), list(was.keys()))
            assert [now[key] for key in was] == [now.get(key) for key in was] == list(now.values())
            assert all(key in now for key in was)
            assert object() not in now


@pytest.mark.parametrize(
    ("read", "name"),
    [
        (lambda one: one.assemblies["lid"], ("assemblies", "lid")),
        (lambda one: one.assemblies.get("a hat"), ("assemblies", "a hat")),
        (lambda one: "a hat" in one.assemblies, ("assemblies", "a hat")),
        (lambda one: list(one.assemblies), ("assemblies", Whole.KEYS)),
        (lambda one: len(one.assemblies), ("assemblies", Whole.KEYS)),
        (lambda one: one.assemblies.keys(), ("assemblies", Whole.KEYS)),
        (lambda one: one.assemblies.values(), ("assemblies", Whole.ALL)),
        (lambda one: one.assemblies.items(), ("assemblies", Whole.ALL)),
        (lambda one: one.things["assembly"].get("a hat"), ("things/assembly", "a hat")),
        (lambda one: [*one.records], ("records", Whole.ALL)),
        (lambda one: one.records[0], ("records", Whole.ALL)),
        (lambda one: "a hat" in one.records, ("records", Whole.ALL)),
        (lambda one: len(one.statements), ("statements", Whole.ALL)),
    ],
)
def test_what_is_read_is_noted(read: object, name: Name) -> None:
    notes = Notes()
    seen = watched(register(lid("lid", "first: 2, last: 5")), notes)
    notes.begin()
    read(seen)  # type: ignore[operator]
    notes.done()
    noted = notes.since(0)
    assert [one for at, one in noted.cells if at in noted.read] == [name]


@pytest.mark.slow
def test_in_another_run_the_same_stands_there() -> None:
    """Wherever it lies in memory, and whatever order sets have there."""
    one, other = again(DEMO), again(DEMO)
    every = names(DEMO)
    assert len(every) > 1000
    assert ground(one) == ground(other) == ground(DEMO)
    here, there = Cells(one, {}), Cells(other, {})
    assert [name for name in every if here.at(name) != there.at(name)] == []
    assert pickle.loads(pickle.dumps(every)) == every


@pytest.mark.slow
def test_another_title_stands_where_the_record_does_and_nowhere_else() -> None:
    old = next(one for one in DEMO.records if type(one) is Assembly and one.parts and not one.titles)
    new = again(DEMO, (old, f"title: {old.title}", f"title: {old.title}, mended"))
    before, after = Cells(DEMO, {}), Cells(new, {})
    other = {name for name in names(DEMO) if before.at(name) != after.at(name)}
    assert ("assemblies", old.id) in other
    assert ("things/assembly", old.id) in other
    assert ("at_position", old.position) in other
    assert ("assemblies", Whole.ALL) in other
    assert ("assemblies", Whole.KEYS) not in other
    assert not {(table, key) for table, key in other if table == "teardowns"}
    assert {key for table, key in other if table == "assemblies"} == {old.id, Whole.ALL}
    assert ground(new) == ground(DEMO)


def test_what_comes_and_goes_stands_where_it_is_looked_for() -> None:
    seen = next(one for one in DEMO.records if isinstance(one, Teardown))
    new = build([one for one in DEMO.records if one is not seen])
    before, after = Cells(DEMO, {}), Cells(new, {})
    for name in [("teardowns", seen.id), ("teardowns", Whole.KEYS), ("things/teardown", seen.id)]:
        assert before.at(name) != after.at(name)
        assert Cells(build(DEMO.records), {}).at(name) == before.at(name)


@pytest.mark.parametrize("kind", ["machine", "positions", "glossary", "cautions", "signs", "unit"])
def test_what_all_rests_on_is_ground(kind: str) -> None:
    one = next(one for one in DEMO.records if one.kind == kind)
    moved = replace(one, origin=replace(one.origin, data=one.origin.data + b"\n"))
    assert ground(build([moved if old is one else old for old in DEMO.records])) != ground(DEMO)


def test_what_a_number_means_is_ground() -> None:
    part = "kind: part\nid: p\nby: example-works\nname: P\nnumber: A1\n%s"
    two = (register(record(part % more, "part", "p")) for more in ("", "also: [{number: B2}]\n"))
    one, other = two
    assert ground(one) != ground(other)
