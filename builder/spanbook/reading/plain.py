"""A record as plain values (dict, list, text, number, truth): what its file says, and nothing else."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from spanbook.reading import nodes
from spanbook.reading.nodes import Node
from spanbook.reading.records import Record
from spanbook.reading.schemas import of_kind
from spanbook.reading.typed import typed


@dataclass(frozen=True, slots=True)
class Said:
    """What the file of a record says, by the keys of its schema, in the order of the file: `texts` are
    all as they were typed, `values` are plain values."""

    texts: object
    values: dict[str, Any]


def said(record: Record) -> Said:
    """Both ways from one reading of the file."""
    node = record.origin.node
    return Said(nodes.plain(node), _values(record, node))


def plain(record: Record) -> dict[str, Any]:
    """The plain values alone."""
    return _values(record, record.origin.node)


def _values(record: Record, node: Node) -> dict[str, Any]:
    values = typed(node, of_kind(record.kind).guide)
    assert isinstance(values, dict), "a record was read from it"
    return values
