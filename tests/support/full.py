"""A record of each kind that has every field, made from the examples of its schema."""

from __future__ import annotations

from collections.abc import Iterator
from copy import deepcopy
from functools import cache
from typing import Any

from spanbook.reading import schemas
from spanbook.reading.schemas import Schema


def full(kind: str) -> dict[str, Any]:
    """Plain values under every key that the schema of a kind knows; of alternatives, one entry each.

    They are the caller's own, to be changed.
    """
    return deepcopy(_full(kind))


@cache
def _full(kind: str) -> dict[str, Any]:
    root = schemas.bundled(kind)
    return next(_objects(root, root, ()))


def _value(schema: Schema, root: Schema, above: tuple[str, ...]) -> Any:
    if (ref := schema.get("$ref")) in above:
        return None  # what holds itself holds itself once
    words = _resolved(schema, root)
    above = (*above, ref) if ref else above
    items = _resolved(words.get("items", {}), root)
    if "properties" in items:
        return list(_objects(items, root, above))
    if items.get("type") == "string":
        if words.get("minItems", 1) > 1:
            return words["examples"][0]
        return [words["items"].get("examples", items["examples"])[0]]
    return words.get("const", words["examples"][0])


def _objects(schema: Schema, root: Schema, above: tuple[str, ...]) -> Iterator[dict[str, Any]]:
    for_each = [one["required"][0] for one in schema.get("oneOf", ())]
    values = {key: _value(below, root, above) for key, below in schema["properties"].items()}
    whole = {key: value for key, value in values.items() if value is not None}
    for chosen in for_each or [""]:
        yield {key: value for key, value in whole.items() if key == chosen or key not in for_each}


def _resolved(schema: Schema, root: Schema) -> Schema:
    if ref := schema.get("$ref"):
        return {**_resolved(root["$defs"][ref.removeprefix("#/$defs/")], root), **schema}
    return schema
