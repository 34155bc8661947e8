"""A register of which some records were edited equals one linked anew, the order of its tables too."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import fields, is_dataclass

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from spanbook.reading import read_bytes
from spanbook.reading.records import Assembly, Machine, PartRecord, Record
from spanbook.register import relink
from spanbook.register.link import build
from spanbook.register.model import Register
from spanbook.register.numbering import Numbering
from spanbook.register.relink import Edits, linked
from tests.support.demo import demo
from tests.support.tries import tries

DEMO: Register = demo()
KINDS = (
    "absence",
    "assembly",
    "circuit",
    "conversion",
    "part",
    "source",
    "strip-down",
    "supersession",
    "teardown",
)
EDITABLE = [record for record in DEMO.records if record.kind in KINDS]
ID = re.compile(rb"^id: .*", re.MULTILINE)
NUMBER = re.compile(rb'number: "?([^",}\n]+)"?')


def same(one: object, other: object) -> bool:
    """Whether two are alike in all they hold and its order; records are the very same."""
    if one is other:
        return True
    if type(one) is not type(other) or isinstance(one, Record):
        return False
    if isinstance(one, str | int):
        return one == other
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


def called(record: Record, id_: str) -> Record | None:
    """A record under another id, at the path of that."""
    data = ID.sub(f"id: {id_}".encode(), record.origin.data, count=1)
    path = record.origin.path.replace(record.id, id_)
    made = read_bytes(data, path, record.kind, id_)
    return made if isinstance(made, Record) else None


@st.composite
def edits(draw: st.DrawFn) -> dict[str, bytes | None]:
    """New bytes of some records, by their paths: a line less, another part number, or only a space more; none
    of what goes."""
    found: dict[str, bytes | None] = {}
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
                    None,
                )
            )
        )
        found[record.origin.path] = edited
    return found


@st.composite
def comers(draw: st.DrawFn) -> list[Record]:
    """Records like others under another id, or that went before."""
    made = [
        like if id_ == "itself" else called(like, id_)
        for like in draw(st.lists(st.sampled_from(EDITABLE), max_size=2))
        for id_ in [draw(st.sampled_from(("itself", "b", "c")))]
    ]
    return [record for record in made if record]


@pytest.mark.slow
@given(st.lists(st.tuples(edits(), comers()), min_size=1, max_size=3))
@settings(max_examples=tries(60))
def test_after_any_edits_it_is_what_linking_all_gives(
    rounds: list[tuple[dict[str, bytes | None], list[Record]]],
) -> None:
    """What went may come again, and what came be another; two may come under one name in two places."""
    before, records = DEMO, {record.origin.path: record for record in DEMO.records}
    for edited, more in rounds:
        for path, data in edited.items():
            if path in records and data is None:
                del records[path]
            elif path in records and data is not None:
                new = reread(records[path], data)
                assume(new)
                records[path] = new or records[path]
        records |= {record.origin.path: record for record in more}
        before = linked(list(records.values()), DEMO.unread, before)
        assert unlike(before, build(records.values(), DEMO.unread)) == []


def never(*_: object) -> Register:
    raise AssertionError("all is linked anew")


def alone(kind: str) -> Record:
    """A record of a kind that nothing besides stands in the way of being linked alone."""
    return next(
        one for one in EDITABLE if one.kind == kind and not one.formerly and NUMBER.search(one.origin.data)
    )


@pytest.mark.parametrize("kind", ["assembly", "part"])
def test_an_edited_record_is_linked_without_the_others(kind: str, monkeypatch: pytest.MonkeyPatch) -> None:
    record = alone(kind)
    new = reread(record, record.origin.data + b"notes: Another\n")
    assert new
    records = [new if one is record else one for one in DEMO.records]
    whole = build(records, DEMO.unread)
    monkeypatch.setattr(relink, "build", never)
    assert unlike(linked(records, DEMO.unread, DEMO), whole) == []
    assert linked(DEMO.records, DEMO.unread, DEMO).records == DEMO.records


@pytest.mark.parametrize(
    "kind",
    [kind if kind in ("assembly", "part") else pytest.param(kind, marks=pytest.mark.slow) for kind in KINDS],
)
def test_what_comes_and_goes_is_linked_without_the_others(kind: str, monkeypatch: pytest.MonkeyPatch) -> None:
    like = next(one for one in EDITABLE if one.kind == kind and not one.formerly)
    came = called(like, "that-came")
    assert came
    more = [*DEMO.records, came]
    whole = build(more, DEMO.unread)
    monkeypatch.setattr(relink, "build", never)
    with_it = linked(more, DEMO.unread, DEMO)
    assert unlike(with_it, whole) == []
    assert unlike(linked(DEMO.records, DEMO.unread, with_it), DEMO) == []


def test_another_number_of_a_part_is_read_wherever_it_stands(monkeypatch: pytest.MonkeyPatch) -> None:
    """WD-512 stands in lists, and leads to another part from now on."""
    part = next(one for one in EDITABLE if isinstance(one, PartRecord) and one.number == "WH-1722")
    new = reread(part, part.origin.data + b"also: [{number: WD-512}]\n")
    assert new
    records = [new if one is part else one for one in DEMO.records]
    whole = build(records, DEMO.unread)
    monkeypatch.setattr(relink, "build", never)
    made = linked(records, DEMO.unread, DEMO)
    assert unlike(made, whole) == []
    assert len(made.parts) == len(DEMO.parts) - 1


def test_what_was_called_so_once_has_all_linked_anew() -> None:
    """A name that something new takes is no longer that of what had it."""
    record = alone("assembly")
    renamed = called(record, "called-otherwise")
    assert renamed
    data = renamed.origin.data.replace(b"title: ", f"formerly: [{record.id}]\ntitle: ".encode(), 1)
    now = reread(renamed, data)
    assert now
    others = [one for one in DEMO.records if one is not record]
    before = build([*others, now], DEMO.unread)
    assert relink.relinked(before, Edits({}, [record])) is None
    both = build([*others, now, record], DEMO.unread)
    assert relink.relinked(both, Edits({}, [], [record])) is None


@pytest.mark.parametrize("sort", [Machine, Assembly])
def test_what_others_are_read_by_has_all_linked_anew(sort: type[Record]) -> None:
    record = next(one for one in DEMO.records if isinstance(one, sort))
    data = record.origin.data.replace(b"title: ", b"formerly: [what-it-was]\ntitle: ", 1)
    new = reread(record, data)
    assert new
    assert relink.relinked(DEMO, Edits({record: new})) is None
    records = [new if one is record else one for one in DEMO.records]
    assert unlike(linked(records, DEMO.unread, DEMO), build(records, DEMO.unread)) == []
    assert unlike(linked(records[1:], DEMO.unread, DEMO), build(records[1:], DEMO.unread)) == []
