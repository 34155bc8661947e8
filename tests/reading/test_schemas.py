"""The schemas as the contributor's manual, and the two validators held against one another."""

from __future__ import annotations

import copy
import json
import re
from collections.abc import Iterator
from typing import Any

from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from jsonschema_rs import meta

from spanbook.reading import schemas
from spanbook.reading.kinds import KINDS
from spanbook.reading.schemas import Schema
from tests.support.rows import each_row

ALL_KINDS = each_row("kind", KINDS)


def parts(schema: Schema, at: str = "") -> Iterator[tuple[str, Schema]]:
    """Every subschema with its place."""
    yield at, schema
    for key in ("properties", "patternProperties", "$defs"):
        for name, below in schema.get(key, {}).items():
            yield from parts(below, f"{at}/{key}/{name}")
    if "items" in schema:
        yield from parts(schema["items"], f"{at}/items")
    for i, choice in enumerate(schema.get("anyOf", ())):
        yield from parts(choice, f"{at}/anyOf/{i}")


def resolved(schema: Schema, root: Schema) -> Schema:
    """A subschema with what it refers to underneath its own words."""
    if ref := schema.get("$ref"):
        return {**resolved(root["$defs"][ref.removeprefix("#/$defs/")], root), **schema}
    return schema


@ALL_KINDS
def test_every_place_has_a_title_a_description_and_an_example(kind: str) -> None:
    root = schemas.bundled(kind)
    for at, part in parts(root):
        words = resolved(part, root)
        assert words.get("title"), at
        assert words.get("description"), at
        assert words.get("examples"), at


@ALL_KINDS
def test_examples_are_valid_where_they_stand(kind: str) -> None:
    root = schemas.bundled(kind)
    for at, part in parts(root):
        here = {**part, "$defs": root["$defs"]}
        for example in part.get("examples", ()):
            assert not list(Draft202012Validator(here).iter_errors(example)), (at, example)


@ALL_KINDS
def test_every_group_of_keys_is_closed(kind: str) -> None:
    for at, part in parts(schemas.bundled(kind)):
        if part.get("type") == "object":
            assert part.get("additionalProperties") is False, at


def never_a_number(choice: Schema) -> bool:
    """Whether a text has a form that no number has, however it is written: `about 588 ± 12`, `6-214/26`."""
    pattern = choice.get("pattern")
    numbers = ("0", "12", "-1", "+1", "012", "1_000", "1,000", "1.5", "1 000", "1e3", "0x1f", "18-22")
    return pattern is not None and not any(re.search(pattern, number) for number in numbers)


@ALL_KINDS
def test_no_place_takes_both_free_text_and_a_number(kind: str) -> None:
    """Otherwise how a value looks would decide what it is."""
    root = schemas.bundled(kind)
    for at, part in parts(root):
        choices = [resolved(choice, root) for choice in part.get("anyOf", [part])]
        free = [
            one for one in choices if "enum" not in one and "const" not in one and not never_a_number(one)
        ]
        kinds = {choice.get("type") for choice in free}
        assert not {"integer", "string"} <= kinds, at


@ALL_KINDS
def test_schemas_are_draft_2020_12(kind: str) -> None:
    schema = schemas.bundled(kind)
    meta.validate(schema)
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"


def paths(value: Any, at: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    yield at
    entries = (
        value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    )
    for key, below in entries:
        yield from paths(below, (*at, key))


odd = st.sampled_from(
    [
        0,
        -1,
        10**13,
        True,
        None,
        "",
        "x",
        "x\n",
        "X y",
        "1 1/2",
        [],
        [1],
        [2, 1],
        {},
        {"a": 1},
        "unknown",
        "open",
    ]
)


@given(st.sampled_from(list(KINDS)), st.data())
def test_the_two_validators_agree_on_mangled_records(kind: str, data: st.DataObject) -> None:
    """jsonschema-rs is the gate and jsonschema explains: what one refuses the other must."""
    schema = schemas.of_kind(kind)
    value = copy.deepcopy(data.draw(st.sampled_from(schema.schema["examples"])))
    for _ in range(data.draw(st.integers(0, 3))):
        path = data.draw(st.sampled_from(list(paths(value))[1:] or [()]))
        if path:
            target = value
            for step in path[:-1]:
                target = target[step]
            if data.draw(st.booleans()) and isinstance(target, dict):
                del target[path[-1]]
            else:
                target[path[-1]] = copy.deepcopy(data.draw(odd))
    assert schema.gate.is_valid(value) == schema.explainer.is_valid(value), json.dumps(value)


@each_row("id_", ["a\n", "A", "a_b", "-a", "a-", "a--b", "é", ""])
def test_ids_match_in_full_or_not_at_all(id_: str) -> None:
    value = {"kind": "source", "id": id_, "title": "T", "class": "manual"}
    schema = schemas.of_kind("source")
    assert not schema.gate.is_valid(value)
    assert not schema.explainer.is_valid(value)
