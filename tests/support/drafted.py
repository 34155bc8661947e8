"""Sheets written as rows, maps to read them by, and what becomes of them in a small world."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from spanbook.editing.sheets import Filled, Names, filled
from spanbook.editing.sheets.columns import laid
from spanbook.reading.sheets import Cell, CellSort, Sheet, read_map
from spanbook.register.model import Register
from tests.support import worlds
from tests.support.command import LID

PARTS = """\
kind: part
id: [No.]
columns:
- {column: No., field: number}
- {column: Name, field: name}
- {column: Supplied, field: supplied}
"""
LIDS = """\
kind: assembly
source: {id: book}
columns:
- {column: Lid, field: title, above: true}
- {column: No., field: parts.number}
- {column: Name, field: parts.name}
- {column: Qty, field: parts.quantity}
fixed: {position: body/cover, serials.1.series: xa, serials.1.first: unknown, serials.1.last: unknown}
"""
SEEN = """\
kind: teardown
columns:
- {column: Serial, field: serial}
- {column: Day, field: date}
- {column: Who, field: seen-by}
- {column: State, field: condition}
- {column: Cover, field: found.1.assembly, words: {flat: lid}}
- {column: Drain, field: found.2.note}
fixed: {found.1.position: body/cover, found.2.position: body/drain}
"""


@cache
def world() -> Register:
    with TemporaryDirectory() as folder:
        return worlds.check(Path(folder), LID).register


def sheet(*rows: list[Any]) -> Sheet:
    return Sheet(
        "list.xlsx",
        "Old",
        ("Old",),
        {
            n: {c: cell(value) for c, value in enumerate(row, 1) if value is not None}
            for n, row in enumerate(rows, 1)
        },
    )


def cell(value: object) -> Cell:
    if isinstance(value, Cell):
        return value
    return (
        Cell(CellSort.NUMBER, str(value), exact=False)
        if isinstance(value, int)
        else Cell(CellSort.TEXT, str(value))
    )


def run(register: Register, text: str, *rows: list[Any]) -> Filled:
    map_, read = read_map(text.encode(), "a.yml"), sheet(*rows)
    return filled(read, map_, laid(read, map_), Names(register))


def values(found: Filled) -> dict[str, Any]:
    return {draft.id: dict(draft.values) for draft in found.drafts}


def left(found: Filled) -> list[tuple[str, int, int, str, str]]:
    return [(str(one.why), one.row, one.column, one.read, one.about) for one in found.left]


HEAD = ["No.", "Name", "Supplied"]
FROM = "list.xlsx, sheet Old, row {}"
