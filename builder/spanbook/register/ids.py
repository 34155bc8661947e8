"""The ids that records give: to themselves, and to the things inside them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from spanbook.reading.kinds import KINDS
from spanbook.reading.nodes import Step
from spanbook.reading.records import Record
from spanbook.reading.roles import Role
from spanbook.reading.walk import Walk

_IDS = Walk(Role.ID)


def ids_inside(record: Record) -> Iterator[tuple[tuple[Step, ...], str, str]]:
    """Where a record gives an id to a thing inside it, the sort of thing, and its id.

    A thing that is inside another, a position in a group, goes by both their names.
    """
    names: dict[tuple[Step, ...], str] = {}
    for leaf in _IDS(record):
        if leaf.at:
            # What it is inside stands two steps up: the key of a list and a place in it.
            above = names.get(leaf.at[:-2])
            names[leaf.at] = f"{above}/{leaf.value}" if above else leaf.value
            yield leaf.steps, leaf.to, names[leaf.at]


def things_of(records: Iterable[Record]) -> dict[str, dict[str, Record]]:
    """Everything that can be referred to, by its sort and id; of two with one id the first is kept."""
    found: dict[str, dict[str, Record]] = {kind: {} for kind in KINDS}
    for record in records:
        found[record.kind].setdefault(record.id, record)
        for _, sort, id_ in ids_inside(record):
            found.setdefault(sort, {}).setdefault(id_, record)
    return found
