"""A small register with a source, teardowns and assemblies on one position, made from a few words."""

from __future__ import annotations

from spanbook.answers.assumed import Assumed
from spanbook.answers.diff.compute import compare
from spanbook.answers.diff.model import Comparison
from spanbook.reading.records import Record
from spanbook.register.model import Register
from tests.support.registers import record

SOURCES = tuple(
    record(f"kind: source\nid: {id_}\ntitle: The {id_}\nclass: parts-book\n", "source", id_)
    for id_ in ("book", "letter")
)


def seen(serial: int, assembly: str, condition: str = "untouched", who: str = "osk") -> Record:
    """A teardown of one machine of the small world: what its cover was."""
    id_ = f"x-{serial}-{who}"
    head = f"kind: teardown\nid: {id_}\ndate: 2026-01-02\nseen-by: {who}\nserial: XA {serial}\nseries: xa\n"
    found = f"condition: {condition}\nfound:\n- {{position: cover, assembly: {assembly}}}\n"
    return record(head + found, "teardown", id_)


def compared(old: Register, new: Register) -> Comparison:
    return compare(old, new, ((), ()), Assumed())
