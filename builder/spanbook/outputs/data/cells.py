"""Cells for files that know fewer types than a table."""

from __future__ import annotations

import json
from collections.abc import Iterable

from spanbook.ground.table import Cell, Table, Type

_encoded = json.JSONEncoder(ensure_ascii=False).encode


def as_text(cell: Cell) -> str:
    """A list or a map as JSON, a truth as `true` or `false`, nothing as an empty text."""
    if cell is None:
        return ""
    return cell if isinstance(cell, str) else _encoded(cell)


def rows_with_text(table: Table, *types: Type) -> Iterable[tuple[Cell, ...]]:
    """The rows of a table, with what stands in columns of some types as text; nothing stays nothing."""
    at = [i for i, column in enumerate(table.columns) if column.type in types]
    return (_with_text(row, at) for row in table.rows) if at else table.rows


def _with_text(row: tuple[Cell, ...], at: list[int]) -> tuple[Cell, ...]:
    made = list(row)
    for i in at:
        if made[i] is not None:
            made[i] = as_text(made[i])
    return tuple(made)
