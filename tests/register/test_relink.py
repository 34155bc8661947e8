"""A register of which some records were edited equals one linked anew, the order of its tables too."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import fields, is_dataclass

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from spanbook.reading import read_bytes
from spanbook.reading.records import Assembly, Machine, Record
from spanbook.register import relink
from spanbook.register.link import build
from spanbook.register.model import Register
from spanbook.register.numbering import Numbering
from spanbook.register.relink import linked
from tests.support.demo import demo
from tests.support.tries import tries

DEMO: Register = demo()
KINDS = ("assembly", "conversion", "source", "strip-down", "supersession", "teardown")
EDITABLE = [record for record in DEMO.records if record.kind in KINDS]
NUMBER = re.compile(rb'number: "?([^",}\n]+)"?')


def same(one: object, other: object) -> bool:
    """Whether two are alike in all they hold and its order; records are the very same."""
    if one is other:
        return True
    if type(one) is not type(other) or isinstance(one, Record):
        return False
    if isinstance(one, Numbering) and isinstance(other, Numbering):
        said = [{name: had for name, had in vars(each).items() if name != "_spoken"} for each in (one, other)]
        return same(*said)
    if isinstance(one, Mapping) and isinstance(other, Mapping):
        return same(tuple(one.items()), tuple(other.items()))
    if isinstance(one, tuple | list) and isinstance(other, tuple | list):
        return len(one) == len(other) and all(map(same, one, other))
    if is_dataclass(one):
        return all(same(getattr(one, f.name), getattr(other, f.name)) for f in fields(one))
    return one == other


def unlike(one: Register, other: Register) -> list[str]:
    return [f.name for f in fields(Register) if not same(getattr(one, f.name), getattr(other, f.name))]


def reread(record: Record, data: bytes) -> Record | None:
    made = read_bytes(data, record.origin.path, record.kind, record.id)
    return made if isinstance(made, Record) else None


@st.composite
def edits(draw: st.DrawFn) -> dict[str, bytes]:
    """New bytes of some records, by their paths: a line less, another part number, or only a space more."""
    found = {}
    for record in draw(st.lists(st.sampled_from(EDITABLE), min_size=1, max_size=3, unique=True)):
        lines = record.origin.data.splitlines(keepends=True)
        at = draw(st.integers(0, len(lines) - 1))
        number = draw(st.sampled_from((b"WH-1180", b"WH-1181", b"A203", b"NEW-1")))
        edited = draw(
            st.sampled_from(
                (
                    b"".join([*lines[:at], *lines[at + 1 :]]),
                    NUMBER.sub(b'number: "' + number + b'"', record.origin.data, count=1),
                    record.origin.data + b"\n",
                )
            )
        )
        found[record.origin.path] = edited
    return found


@given(st.lists(edits(), min_size=1, max_size=3))
@settings(max_examples=tries(60))
def test_after_any_edits_it_is_what_linking_all_gives(rounds: list[dict[str, bytes]]) -> None:
    before, records = DEMO, list(DEMO.records)
    for edited in rounds:
        new = {r.origin.path: reread(r, edited[r.origin.path]) for r in records if r.origin.path in edited}
        assume(all(new.values()))
        records = [new.get(record.origin.path) or record for record in records]
        before = linked(records, DEMO.unread, before)
        assert unlike(before, build(records, DEMO.unread)) == []


def test_an_edited_record_is_linked_without_the_others(monkeypatch: pytest.MonkeyPatch) -> None:
    record = next(one for one in EDITABLE if isinstance(one, Assembly) and one.parts)
    new = reread(record, record.origin.data.replace(b"title: ", b"title: Another "))
    assert new
    records = [new if one is record else one for one in DEMO.records]
    whole = build(records, DEMO.unread)

    def never(*_: object) -> Register:
        raise AssertionError("all is linked anew")

    monkeypatch.setattr(relink, "build", never)
    assert unlike(linked(records, DEMO.unread, DEMO), whole) == []
    assert linked(DEMO.records, DEMO.unread, DEMO).records == DEMO.records


@pytest.mark.parametrize("sort", [Machine, Assembly])
def test_what_others_are_read_by_has_all_linked_anew(sort: type[Record]) -> None:
    record = next(one for one in DEMO.records if isinstance(one, sort))
    data = record.origin.data.replace(b"title: ", b"formerly: [what-it-was]\ntitle: ", 1)
    new = reread(record, data)
    assert new
    assert relink.relinked(DEMO, {record: new}) is None
    records = [new if one is record else one for one in DEMO.records]
    assert unlike(linked(records, DEMO.unread, DEMO), build(records, DEMO.unread)) == []
    assert unlike(linked(records[1:], DEMO.unread, DEMO), build(records[1:], DEMO.unread)) == []
