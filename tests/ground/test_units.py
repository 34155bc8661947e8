"""The table of units beside the schema that lists them."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from spanbook.ground.units import UNITS
from spanbook.reading.schemas import folder


def listed(schema: Any) -> Iterator[str]:
    """Every unit that a schema lets a record have."""
    if isinstance(schema, dict):
        if schema.get("title") == "Unit" and "enum" in schema:
            yield from schema["enum"]
        for below in schema.values():
            yield from listed(below)
    elif isinstance(schema, list):
        for below in schema:
            yield from listed(below)


def test_every_unit_of_the_schemas_is_known() -> None:
    files = sorted(folder().glob("*.json"))
    assert {unit for file in files for unit in listed(json.loads(file.read_text()))} == set(UNITS)


def test_what_is_told_besides_is_of_the_same_sort() -> None:
    for unit in UNITS.values():
        assert unit.told_in is None or UNITS[unit.told_in].of is unit.of
