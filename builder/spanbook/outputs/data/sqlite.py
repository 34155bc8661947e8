"""The tables as an SQLite database, with a full-text index (FTS5) over the words of the records.

`found` answers `SELECT kind, record FROM found WHERE found MATCH 'strainer' ORDER BY rank`.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Mapping, Sequence
from contextlib import closing
from typing import Any

from spanbook.ground.table import Table, Type
from spanbook.outputs.data.about import About
from spanbook.outputs.data.cells import rows_with_text

SEARCH = "found"
_TYPES = {Type.INTEGER: "INTEGER", Type.NUMBER: "REAL", Type.YES_NO: "INTEGER"}


Found = tuple[str, str | None, str]  # what the index has of a record: its kind, its id, its words


def found_of(record: Mapping[str, Any]) -> Found:
    return record["kind"], record.get("id"), "\n".join(_words(record))


def as_bytes(tables: Sequence[Table], about: About, found: Iterable[Found]) -> bytes:
    """Text columns are text: a number `0012` stays so. Lists and maps are JSON, truths 1 or 0."""
    with closing(sqlite3.connect(":memory:")) as base:
        base.execute("PRAGMA page_size = 1024")  # most tables are small
        _say(base, about)
        unique = _referred(tables)
        for table in tables:
            base.execute(_made(table, unique.get(table.name, set())))
        for table in tables:
            marks = ", ".join("?" * len(table.columns))
            rows = rows_with_text(table, Type.LIST, Type.MAP)
            base.executemany(f"INSERT INTO {_quoted(table.name)} VALUES ({marks})", rows)
        base.execute(f"CREATE VIRTUAL TABLE {SEARCH} USING fts5(kind UNINDEXED, record UNINDEXED, words)")
        base.executemany(f"INSERT INTO {SEARCH} VALUES (?, ?, ?)", found)
        base.commit()
        return base.serialize()


def _say(base: sqlite3.Connection, about: About) -> None:
    base.execute('CREATE TABLE "about" ("what" TEXT PRIMARY KEY, "value" TEXT)')
    licence = about.licence.id if about.licence else None
    day = about.day.isoformat() if about.day else None
    told = {"title": about.title, "address": about.address, "licence": licence}
    told |= {"release": about.release, "day": day}
    base.executemany("INSERT INTO about VALUES (?, ?)", told.items())


def _referred(tables: Sequence[Table]) -> dict[str, set[str]]:
    """The columns of each table that others refer to by their one value."""
    found: dict[str, set[str]] = {}
    for table in tables:
        for one in table.refers:
            found.setdefault(one.table, set()).update(one.there)
    return found


def _made(table: Table, referred: set[str]) -> str:
    lines = []
    for column in table.columns:
        alone = " UNIQUE" if column.name in referred and table.key != (column.name,) else ""
        lines.append(f"{_quoted(column.name)} {_TYPES.get(column.type, 'TEXT')}{alone}")
    if table.key:
        lines.append(f"PRIMARY KEY ({_listed(table.key)})")
    for one in table.refers:
        there = f"{_quoted(one.table)} ({_listed(one.there)})"
        lines.append(f"FOREIGN KEY ({_listed(one.columns)}) REFERENCES {there}")
    return f"CREATE TABLE {_quoted(table.name)} ({', '.join(lines)})"


def _quoted(name: str) -> str:
    return f'"{name}"'


def _listed(names: Sequence[str]) -> str:
    return ", ".join(map(_quoted, names))


def _words(record: Mapping[str, object]) -> dict[str, None]:
    """Every text in a record, each once."""
    found: dict[str, None] = {}
    _gather(record, found)
    return found


def _gather(value: object, found: dict[str, None]) -> None:
    if isinstance(value, str):
        found[value] = None
    elif isinstance(value, Mapping):
        for one in value.values():
            _gather(one, found)
    elif isinstance(value, list):
        for one in value:
            _gather(one, found)
