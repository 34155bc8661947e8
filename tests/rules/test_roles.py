"""Every field that means something is broken in turn, and the problem is told at its very place.

A record of each kind has every field; what a field means is asked of its schema, so that a new one is
broken too.
"""

from __future__ import annotations

import copy
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from spanbook import rules
from spanbook.answers.applicability import Fits
from spanbook.ground.part_numbers import PartKey, maker_id
from spanbook.reading import read_bytes
from spanbook.reading.files import Folder
from spanbook.reading.kinds import KINDS
from spanbook.reading.nodes import Step
from spanbook.reading.problems import Place, Problem
from spanbook.reading.records import Machine, Record
from spanbook.reading.roles import Role, UsedAs
from spanbook.reading.shapes import kinds_named, shape_of
from spanbook.reading.walk import Leaf, walk
from spanbook.reading.write import to_yaml
from spanbook.register.link import build
from spanbook.register.model import Part, Register
from spanbook.rules import drawings, photographs
from tests.support.full import full
from tests.support.rows import Test, each_row
from tests.support.tries import some

Steps = tuple[Step, ...]
# Two makers, so that a number without `by` may be either's, and one series for spans to lie in.
TWO_MAKERS = [
    {
        "kind": "machine",
        "id": f"of-{maker}",
        "title": "X",
        "maker": maker,
        "series": [{"id": f"{maker}-run", "stamped": "X {number}", "plate": "p", "first": 1, "last": 9}],
    }
    for maker in ("one", "two")
]
CAUTIONS: dict[str, Any] = {
    "kind": "cautions",
    "cautions": [
        {
            "id": "sharp",
            "title": "Edges",
            "text": "Wear gloves.",
            "words": ["razor"],
            "follows": [{"body": "B", "title": "T"}],
        }
    ],
}


NO_FILES = Folder(Path(__file__).parent / "no-such-folder")


def record_of(values: dict[str, Any]) -> Record:
    kind = values["kind"]
    stem = values.get("id", kind)
    made = read_bytes(to_yaml(values).encode(), f"{kind}-{stem}.yml", kind, stem)
    assert isinstance(made, Record), made
    return made


@cache
def leaves(kind: str) -> list[Leaf]:
    return walk(record_of(full(kind)), *Role)


def cases(*roles: Role) -> Callable[[Test], Test]:
    """Every field of these roles; every day one of each role in each kind, and of the others a share."""
    found = [(kind, leaf) for kind in KINDS for leaf in leaves(kind) if leaf.role in roles]
    assert {leaf.role for _, leaf in found} == set(roles)
    return each_row(("kind", "leaf"), some(found, lambda one: (one[0], one[1].role)))


def at(values: Any, steps: Steps) -> Any:
    for step in steps:
        values = values[step]
    return values


def broken(kind: str, change: Callable[[dict[str, Any]], None]) -> dict[str, Any]:
    values = full(kind)
    change(values)
    return values


def written(kind: str, steps: Steps, value: Any) -> dict[str, Any]:
    def change(values: dict[str, Any]) -> None:
        at(values, steps[:-1])[steps[-1]] = value

    return broken(kind, change)


def found(record: Record, *others: dict[str, Any]) -> tuple[Register, set[tuple[str, Place]]]:
    """The register of a record and others, and every problem by name and place."""
    register = build([record, *map(record_of, others)])
    return register, {(problem.name, problem.place) for problem in problems(register)}


def problems(register: Register) -> Iterator[Problem]:
    yield from rules.run(Fits(register))
    yield from photographs.find(register, NO_FILES, "content")
    yield from drawings.find(register, NO_FILES, "content")


@each_row("kind", KINDS)
def test_the_full_record_has_every_field_that_means_something(kind: str) -> None:
    assert {leaf.slot for leaf in leaves(kind)} == {slot for slot in shape_of(kind).inside() if slot.role}


@cases(Role.REFERENCE, Role.PLACE, Role.SENSE)
def test_what_is_named_and_is_not_there(kind: str, leaf: Leaf) -> None:
    record = record_of(written(kind, leaf.steps, "no-such-thing"))
    place = record.origin.place(*leaf.steps)
    told = {(p.name, p.read) for p in problems(build([record])) if p.place == place}
    assert ("reference-unknown", f"there is no {leaf.to} no-such-thing") in told


@cases(Role.PLACE)
def test_a_place_is_a_single_position(kind: str, leaf: Leaf) -> None:
    tree = {
        "kind": "positions",
        "positions": [{"id": "a", "title": "A", "positions": [{"id": "b", "title": "B"}]}],
    }
    record = record_of(written(kind, leaf.steps, "a"))
    assert ("position-not-a-leaf", record.origin.place(*leaf.steps)) in found(record, tree)[1]
    record = record_of(written(kind, leaf.steps, "a/b"))
    assert ("position-not-a-leaf", record.origin.place(*leaf.steps)) not in found(record, tree)[1]


@cases(Role.PLACE)
def test_assemblies_named_beside_a_place_are_there(kind: str, leaf: Leaf) -> None:
    record = record_of(full(kind))
    beside = [one.value for one in walk(record, Role.REFERENCE, to="assembly") if one.at == leaf.at]
    other = {
        "kind": "assembly",
        "title": "X",
        "position": "elsewhere",
        "serials": [{"series": "xa", "first": 1, "last": 2}],
    }
    group, place = leaf.value.split("/")
    inside = [{"id": place, "title": "P"}]
    tree = {"kind": "positions", "positions": [{"id": group, "title": "G", "positions": inside}]}
    for id_ in beside:
        names = found(record, {**other, "id": id_}, tree)[1]
        assert ("position-differs", record.origin.place(*leaf.steps)) in names
        there = {**other, "id": id_, "position": leaf.value}
        assert ("position-differs", record.origin.place(*leaf.steps)) not in found(record, there, tree)[1]
    # What only takes a part off a place names no assembly there.
    taken = "number" in at(full(kind), leaf.at)
    assert beside or taken or kind in kinds_named("assembly")


@cases(Role.NUMBER)
def test_a_number_that_may_be_either_makers(kind: str, leaf: Leaf) -> None:
    def nobodys(values: dict[str, Any]) -> None:
        at(values, leaf.at).pop("by", None)

    record = record_of(broken(kind, nobodys))
    place = record.origin.place(*(leaf.at or leaf.steps))
    # A machine's own record means its own maker.
    expected = leaf.use is not UsedAs.ITSELF and kind != "machine"
    assert (("maker-unclear", place) in found(record, *TWO_MAKERS)[1]) == expected
    assert ("maker-unclear", place) not in found(record, TWO_MAKERS[0])[1]


def test_where_by_has_no_place_the_series_tells_the_maker() -> None:
    values = full("teardown")
    del values["series"]
    register, _ = found(record_of(values), *TWO_MAKERS)
    todo = [p.todo for p in rules.run(Fits(register)) if p.name == "maker-unclear"]
    said = "add series with the series of the machine, which tells the maker, for example series: "
    assert f"{said}{min(register.series)}" in todo


@cases(Role.OWNER)
def test_whose_number_it_is_can_be_said(kind: str, leaf: Leaf) -> None:
    record = record_of(written(kind, leaf.steps, "castle"))
    register, names = found(record, *TWO_MAKERS)
    assert ("maker-unclear", record.origin.place(*(leaf.at or ("number",)))) not in names
    # Beside the alternative to a number nothing is anybody's.
    number = leaf.beside(Role.NUMBER)
    if leaf.use is UsedAs.ITSELF:
        # Another number of a part, or a misprint, has no page of its own.
        assert PartKey.of("castle", number) in register.numbering.leads
    else:
        assert number is None or PartKey.of("castle", number) in {key.plain for key in register.parts}


def mentions(part: Part) -> dict[UsedAs, tuple[Record | None, ...]]:
    return {
        UsedAs.OWN: (part.record,),
        UsedAs.LISTED: tuple(use.assembly for use in part.uses),
        UsedAs.OLD: part.old_in,
        UsedAs.NEW: part.new_in,
        UsedAs.NEEDED: part.needed_in,
        UsedAs.CONVERTED: part.conversions,
        UsedAs.SEEN: part.teardowns,
        UsedAs.MEASURED: part.teardowns,
        UsedAs.WHOLE: part.whole,
        UsedAs.BESIDE: part.beside,
        UsedAs.MENTIONED: part.mentioned,
        UsedAs.ITSELF: (),
    }


@cases(Role.NUMBER)
def test_a_number_has_a_page_that_tells_what_it_is_for(kind: str, leaf: Leaf) -> None:
    def changed(values: dict[str, Any]) -> None:
        values.pop("retired", None)  # what is retired only mentions a number
        at(values, leaf.at)["number"] = "ZZ-9"
        at(values, leaf.at).pop("by", None)

    record = record_of(broken(kind, changed))
    register, _ = found(record, TWO_MAKERS[0]) if kind != "machine" else found(record)
    key = PartKey.of(maker_id(record.maker if isinstance(record, Machine) else "one"), "ZZ-9")
    part = next((one for one in register.parts.values() if one.key.plain == key), None)
    if leaf.use is UsedAs.ITSELF:
        assert part is None
        return
    assert part
    assert [use for use, named in mentions(part).items() if record in named and use is leaf.use]
    elsewhere = {UsedAs.SEEN, UsedAs.MEASURED} if kind == "teardown" else {leaf.use}
    assert {use for use, named in mentions(part).items() if record in named} == elsewhere
    if name := leaf.beside(Role.NAME):
        assert part.names == (name,)


@cases(Role.ID)
def test_an_id_that_another_thing_has(kind: str, leaf: Leaf) -> None:
    if leaf.at:
        listed, last = leaf.at[:-1], leaf.at[-1]

        def twice(values: dict[str, Any]) -> None:
            entries = at(values, listed)
            entries.append(copy.deepcopy(entries[int(last)]))

        record = record_of(broken(kind, twice))
        steps = (*listed, int(last) + 1, leaf.slot.key)
        assert ("id-twice", record.origin.place(*steps)) in found(record)[1]
        return
    values = full(kind)
    other = read_bytes(to_yaml(values).encode(), "z.yml", kind, str(values.get("id", kind)))
    assert isinstance(other, Record)
    register = build([record_of(values), other])
    assert ("id-twice", other.origin.place("id")) in {(p.name, p.place) for p in rules.run(Fits(register))}


@cases(Role.FORMER)
def test_a_former_name_that_another_thing_has(kind: str, leaf: Leaf) -> None:
    """Each sort of name is another's today in turn; the record alone may have it."""
    todays: dict[str, dict[str, Any]] = {
        "": {key: value for key, value in full(kind).items() if key != "formerly"} | {"id": "the-other"},
        "series": full("machine")
        | {"id": "z", "series": [{**full("machine")["series"][0], "id": "the-other"}]},
        "position": {"kind": "positions", "positions": [{"id": "the-other", "title": "X"}]},
        "caution": {**CAUTIONS, "cautions": [{**CAUTIONS["cautions"][0], "id": "the-other"}]},
        "term": {"kind": "glossary", "terms": [{"id": "the-other", "term": "X", "meaning": "Y."}]},
        "sign": {"kind": "signs", "signs": [{"id": "the-other", "asks": "X", "answers": ["Y", "Z"]}]},
    }
    name = "former-anchor-taken" if leaf.to == "anchor" else "former-id-taken"
    del todays["series"]["formerly"], todays["series"]["series"][0]["formerly"]
    values = written(kind, leaf.steps, "the-other")
    if leaf.to == "number":
        del at(values, leaf.at)["means"]  # with it, it is one of several things by that number
    place = record_of(values).origin.place(*leaf.steps)
    if leaf.to == "anchor":
        assert (name, place) not in found(record_of(values))[1]
        twin = broken(kind, lambda v: _add_twin(v, leaf))
        at_twin = record_of(twin).origin.place(*leaf.at[:-1], 1, *leaf.steps[len(leaf.at) :])
        assert (name, at_twin) in found(record_of(twin))[1]
    elif leaf.to == "number":
        assert (name, place) not in found(record_of(values))[1]
        mentioned = {**full("part"), "id": "other", "number": "the-other", "by": at(values, leaf.at)["by"]}
        del mentioned["formerly-numbered"]
        assert (name, place) in found(record_of(values), mentioned)[1]
    else:
        other = todays[leaf.to]
        record = record_of(values)
        assert (name, place) not in found(record)[1]
        register = build([record, read_as(other, "z-other.yml")])
        assert (name, place) in {(p.name, p.place) for p in problems(register)}


def _add_twin(values: dict[str, Any], leaf: Leaf) -> None:
    """Another statement beside the one of a leaf, with another anchor and the same former one."""
    twin = copy.deepcopy(at(values, leaf.at))
    twin |= {"series": "z"} if "series" in twin else {"what": "Z"} if "what" in twin else {"number": "Z-1"}
    twin.pop("anchor", None)
    at(values, leaf.at[:-1]).append(twin)


def read_as(values: dict[str, Any], path: str) -> Record:
    made = read_bytes(to_yaml(values).encode(), path, values["kind"], values.get("id", values["kind"]))
    assert isinstance(made, Record), made
    return made


@cases(Role.ANCHOR)
def test_an_anchor_that_another_statement_has(kind: str, leaf: Leaf) -> None:
    def twice(values: dict[str, Any]) -> None:
        at(values, leaf.at[:-1]).append(copy.deepcopy(at(values, leaf.at)))

    record = record_of(broken(kind, twice))
    assert ("anchor-twice", record.origin.place(*leaf.at[:-1], 1)) in found(record)[1]


@cases(Role.MARKDOWN)
@pytest.mark.parametrize(
    ("link", "name"), [("ftp://example.org/", "link-not-allowed"), ("/sources/nothing/", "link-dead")]
)
def test_a_link_that_leads_nowhere(kind: str, leaf: Leaf, link: str, name: str) -> None:
    record = record_of(written(kind, leaf.steps, f"See [this]({link})."))
    assert (name, record.origin.place(*leaf.steps)) in found(record)[1]


@each_row("folder", [kind.folder for kind in KINDS.values() if kind.folder])
def test_links_to_every_folder_of_pages_are_followed(folder: str) -> None:
    record = record_of({**full("source"), "notes": f"See [this](/{folder}/no-such-thing/)."})
    assert ("link-dead", record.origin.place("notes")) in found(record)[1]


@cases(Role.PICTURE)
@pytest.mark.parametrize(
    ("file", "name"), [("a/lid.jpg", "photograph-missing"), ("a/lid.svg", "drawing-missing")]
)
def test_a_picture_that_is_not_there(kind: str, leaf: Leaf, file: str, name: str) -> None:
    if kind == "teardown" and file.endswith(".svg"):
        with pytest.raises(AssertionError, match="value-form"):  # there only photographs are taken
            record_of(written(kind, leaf.steps, file))
        return
    record = record_of(written(kind, leaf.steps, file))
    places = {(told, place) for told, place in found(record)[1] if place == record.origin.place(*leaf.steps)}
    assert places == {(name, record.origin.place(*leaf.steps))}


@cases(Role.SPAN)
@pytest.mark.parametrize(
    ("first", "last", "name", "end"),
    [(5, 2, "span-reversed", ()), (1, 99, "span-out-of-series", ("last",))],
)
def test_a_span_that_cannot_be(kind: str, leaf: Leaf, first: int, last: int, name: str, end: Steps) -> None:
    def changed(values: dict[str, Any]) -> None:
        at(values, leaf.steps).update(series="one-run", first=first, last=last)

    record = record_of(broken(kind, changed))
    assert (name, record.origin.place(*leaf.steps, *end)) in found(record, TWO_MAKERS[0])[1]


@cases(Role.NAME, Role.SIGN, Role.MARKDOWN)
def test_a_word_that_calls_for_a_caution(kind: str, leaf: Leaf) -> None:
    def changed(values: dict[str, Any]) -> None:
        at(values, leaf.steps[:-1])[leaf.steps[-1]] = "Like a razor"

    record = record_of(broken(kind, changed))
    cautioned = any(leaf.to == "caution" for leaf in walk(record, Role.REFERENCE) if not leaf.at)
    names = found(record, CAUTIONS)[1] if kind != "cautions" else set()
    assert (("caution-missing", record.origin.place("cautions")) in names) == cautioned


@cases(Role.NUMBER)
def test_a_number_worn_like_another_is_told_where_it_is_written(kind: str, leaf: Leaf) -> None:
    if leaf.use is UsedAs.ITSELF:
        return
    record = record_of(written(kind, leaf.steps, "Z-1O"))
    part = {"kind": "part", "id": "a", "number": "Z-10", "name": "Like it", "by": leaf.beside(Role.OWNER)}
    likeness = {key: value for key, value in part.items() if value}
    names = found(record, TWO_MAKERS[0], likeness)[1]
    assert ("names-worn-alike", record.origin.place(*leaf.steps)) in names
