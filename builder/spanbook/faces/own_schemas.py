"""The schemas for one community's editors: its own ids are offered, and its own records are the examples."""

from __future__ import annotations

from copy import deepcopy
from pathlib import Path
from typing import Any

from spanbook.outputs import whole_file
from spanbook.outputs.json_text import json_text
from spanbook.reading.kinds import KINDS
from spanbook.reading.roles import Role
from spanbook.reading.schemas import Schema, bundled, of_kind
from spanbook.reading.shapes import kinds_named
from spanbook.reading.sheets.targets import paths_of
from spanbook.reading.typed import typed
from spanbook.register.model import Register
from spanbook.rules.checking import check_folder
from spanbook.wording.signs import sign_choice

FOLDER = ".schema"
SHEET_MAP = "sheet-map"
_NAMING = {Role.REFERENCE, Role.PLACE, Role.SENSE}
_Choices = dict[str, str]  # what each is called, by its id


def write_schemas(project: str | Path, into: Path | None = None) -> tuple[Path, ...]:
    """Write the schema of every kind, and that of a sheet's map, into a folder: `.schema` in the project
    unless it is named.

    Records that cannot be read are left out. What is not recorded yet stays allowed everywhere. Gives the
    files. Raises FileNotFoundError without the project, and OSError.
    """
    register = check_folder(Path(project)).register
    folder = into or Path(project) / FOLDER
    folder.mkdir(parents=True, exist_ok=True)
    made = []
    for name, schema in (*((kind, own_schema(kind, register)) for kind in KINDS), (SHEET_MAP, map_schema())):
        file = folder / f"{name}.json"
        whole_file.replace(file, json_text(schema, indent=1) + "\n")
        made.append(file)
    return tuple(made)


def map_schema() -> Schema:
    """The schema of a sheet's map, with the fields of the kind that its rows become as choices."""
    schema = deepcopy(bundled(SHEET_MAP))
    schema["allOf"] = [
        {
            "if": {"properties": {"kind": {"const": kind}}, "required": ["kind"]},
            "then": {"properties": {"columns": {"items": {"properties": {"field": _fields(kind)}}}}},
        }
        for kind in schema["properties"]["kind"]["enum"]
    ]
    return schema


def _fields(kind: str) -> Schema:
    # Editors offer the first; the second allows found.2.assembly.
    found = dict(paths_of(kind))
    offered = {"enum": [*found], "enumDescriptions": [field.title for field in found.values()]}
    return {"anyOf": [offered, {"type": "string"}]}


def own_schema(kind: str, register: Register) -> Schema:
    """The schema of a kind, with what there is as choices wherever something is named."""
    schema = deepcopy(bundled(kind))
    _offer(schema, register, {})
    found = next((record for record in register.records if record.kind == kind), None)
    if found:
        schema["examples"] = [typed(found.origin.node, of_kind(kind).guide)]
    return schema


def _offer(place: Any, register: Register, known: dict[str, _Choices]) -> None:
    if isinstance(place, list):
        for below in place:
            _offer(below, register, known)
    if not isinstance(place, dict):
        return
    if place.get("x-role") in _NAMING and isinstance(sort := place.get("x-to"), str):
        choices = known.setdefault(sort, _choices(sort, register))
        if choices:
            # Editors offer the first; the second allows what is not recorded yet.
            offered = {"enum": [*choices], "enumDescriptions": [*choices.values()]}
            place["anyOf"] = [offered, {"type": "string"}]
    for key, below in place.items():
        if key not in ("examples", "enum", "const", "anyOf"):
            _offer(below, register, known)


def _choices(sort: str, register: Register) -> _Choices:
    match sort:
        case "position":
            return {path: position.title for path, position in register.positions.items()}
        case "series":
            return {one.id: one.name for one in register.series.values()}
        case "caution":
            return {one.id: one.title for one in register.cautions.values()}
        case "sign":
            return {one.id: sign_choice(one) for one in register.signs.values()}
    kinds = kinds_named(sort)
    return {
        record.id: str(getattr(record, "title", "") or record.id)
        for record in register.records
        if record.kind in kinds
    }
