"""The schemas say what their fields mean: every text has a role, and every role leads to an attribute."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.reading import read_bytes, schemas
from spanbook.reading.kinds import KINDS
from spanbook.reading.records import Record, Teardown
from spanbook.reading.roles import Role, UsedAs
from spanbook.reading.schemas import Schema
from spanbook.reading.shapes import shape_of
from spanbook.reading.walk import walk
from spanbook.reading.write import to_yaml
from spanbook.reading.yaml import read
from tests.reading.test_schemas import parts, resolved
from tests.support.demo import demo
from tests.support.full import full
from tests.support.rows import each_row

ALL_KINDS = each_row("kind", KINDS)
# What can be referred to and is no record of its own.
INSIDE = {"series", "position", "caution", "term", "sign"}


def texts(kind: str) -> Iterator[tuple[str, Schema]]:
    """Every place of a kind's schema that takes a text, with its words; definitions where they are used."""
    root = schemas.bundled(kind)
    for at, part in parts(root):
        words = resolved(part, root)
        if words.get("type") == "string" and not at.startswith("/$defs/"):
            yield at, words
    for name, definition in root["$defs"].items():
        for at, part in parts(definition):
            words = resolved(part, root)
            # What a definition says of itself is overridden where it is used; what is inside it is not.
            if at and words.get("type") == "string":
                yield f"{name}{at}", words


@ALL_KINDS
def test_every_text_has_a_role_or_is_a_choice(kind: str) -> None:
    for at, words in texts(kind):
        assert "enum" in words or words.get("x-role") in set(Role), at


@ALL_KINDS
def test_whatever_names_something_says_which_sort_of_thing(kind: str) -> None:
    named = {Role.ID, Role.REFERENCE, Role.PLACE, Role.SENSE}
    for at, words in texts(kind):
        former = words.get("x-role") == Role.FORMER  # of the record itself, unless it says of what
        assert (words.get("x-role") in named) == ("x-to" in words) or former, at
        assert words.get("x-to", "series") in {*KINDS, *INSIDE} | (
            {"anchor", "number"} if former else set()
        ), at


@ALL_KINDS
def test_what_a_number_is_for_is_known(kind: str) -> None:
    for at, part in parts(schemas.bundled(kind)):
        assert part.get("x-use", UsedAs.MENTIONED) in set(UsedAs), at


@ALL_KINDS
def test_the_class_of_a_kind_holds_every_key_of_its_schema(kind: str) -> None:
    root = schemas.bundled(kind)
    for key in root["properties"]:
        assert key in {slot.key for slot in shape_of(kind).slots}


def test_the_walk_finds_each_value_where_it_stands() -> None:
    """The steps to a value lead to the same text in the file, and back to the attribute."""
    roles = set(Role) - {Role.SPAN}
    for record in demo().records:
        tree = read(record.origin.data)
        leaves = [leaf for leaf in walk(record, *roles) if leaf.slot.key not in ("stamped",)]
        assert leaves, record.origin.path
        for leaf in leaves:
            at = tree
            for step in leaf.steps:
                at = at.values[str(step)] if isinstance(step, str) else at.items[step]  # type: ignore[union-attr]
            assert at.text == leaf.value, (record.origin.path, leaf.steps)  # type: ignore[union-attr]


def test_the_walk_can_keep_to_what_names_one_sort_of_thing() -> None:
    everything = record_of("assembly")
    assert {leaf.to for leaf in walk(everything, Role.REFERENCE)} > {"series", "caution"}
    for to in ("series", "caution"):
        assert {leaf.to for leaf in walk(everything, Role.REFERENCE, to=to)} == {to}


def test_a_find_is_in_the_machines_condition_unless_it_says_otherwise() -> None:
    values = full("teardown")
    values["condition"] = "untouched"
    values["found"] = [{"position": "a", "condition": "altered"}, {"position": "b"}]
    made = read_bytes(to_yaml(values).encode(), "t.yml", "teardown", values["id"])
    assert isinstance(made, Teardown)
    assert [find.condition for find in made.found] == ["altered", "untouched"]


def record_of(kind: str) -> Record:
    """A record with every field."""
    values = full(kind)
    made = read_bytes(to_yaml(values).encode(), "a.yml", kind, values["id"])
    assert isinstance(made, Record)
    return made
