"""The description of the CSV files: a Data Package with Table Schemas (datapackage.org, version 2.0)."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from hashlib import sha256
from typing import Any

from spanbook.ground.table import Column, Table
from spanbook.outputs.data.about import About

NAME = "datapackage.json"
_PROFILES = "https://datapackage.org/profiles/2.0/"


def path_of(table: Table) -> str:
    return f"csv/{table.name}.csv"


def as_bytes(tables: Sequence[Table], about: About, files: Mapping[str, bytes]) -> bytes:
    """`files` are the CSV files by their paths."""
    made = {
        "$schema": f"{_PROFILES}datapackage.json",
        "name": about.name,
        "title": about.title,
        "description": about.description,
        "homepage": about.address,
        "version": about.release,
        "created": f"{about.day}T00:00:00Z" if about.day else None,
        "licenses": [_licence(about)] if about.licence else None,
        "resources": [_resource(table, files[path_of(table)]) for table in tables],
    }
    told = {key: value for key, value in made.items() if value is not None}
    return f"{json.dumps(told, ensure_ascii=False, indent=1)}\n".encode()


def _licence(about: About) -> dict[str, str]:
    assert about.licence
    return {"name": about.licence.id, "title": about.licence.title, "path": about.licence.address}


def _resource(table: Table, data: bytes) -> dict[str, Any]:
    return {
        "$schema": f"{_PROFILES}dataresource.json",
        "name": table.name,
        "type": "table",
        "title": table.title,
        "description": table.description,
        "path": path_of(table),
        "format": "csv",
        "mediatype": "text/csv",
        "encoding": "utf-8",
        "bytes": len(data),
        "hash": f"sha256:{sha256(data).hexdigest()}",
        "schema": _schema(table),
    }


def _schema(table: Table) -> dict[str, Any]:
    made: dict[str, Any] = {
        "$schema": f"{_PROFILES}tableschema.json",
        "missingValues": [""],
        "fields": [_field(column) for column in table.columns],
    }
    if table.key:
        made["primaryKey"] = list(table.key)
    if table.refers:
        made["foreignKeys"] = [
            {
                "fields": list(one.columns),
                "reference": {"resource": one.table, "fields": list(one.there)},
            }
            for one in table.refers
        ]
    return made


def _field(column: Column) -> dict[str, Any]:
    limits: dict[str, Any] = {"required": True} if column.required else {}
    if column.choices:
        limits["enum"] = list(column.choices)
    made: dict[str, Any] = {"name": column.name, "type": str(column.type)}
    made |= {"title": column.title, "description": column.description}
    return {**made, "constraints": limits} if limits else made
