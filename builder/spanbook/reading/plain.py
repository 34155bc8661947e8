"""A record as plain values (dict, list, text, number, truth): what its file says, and nothing else."""

from __future__ import annotations

from typing import Any

from spanbook.reading.records import Record
from spanbook.reading.schemas import of_kind
from spanbook.reading.typed import typed


def plain(record: Record) -> dict[str, Any]:
    """By the keys of its schema, in the order of its file."""
    values = typed(record.origin.node, of_kind(record.kind).guide)
    assert isinstance(values, dict), "a record was read from it"
    return values
