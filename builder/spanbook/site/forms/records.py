"""The records as they were typed, in tables from which a form is filled to correct one."""

from __future__ import annotations

import json
from hashlib import sha256
from typing import Any

from spanbook.reading.kinds import KINDS
from spanbook.reading.nodes import Mapping, Node, Scalar
from spanbook.reading.records import Record
from spanbook.register.model import Register
from spanbook.site.finder.tables import FOLDER, script

BLOCKS = 64


def block_of(id_: str) -> int:
    """In which block of its kind a record is; `form.js` works out the same from the id alone."""
    block = 0
    for character in id_:
        block = (block * 31 + ord(character)) % BLOCKS
    return block


def blocks_of(register: Register, kind: str) -> tuple[int, ...]:
    """The blocks that hold a record of a kind: a form asks for no other."""
    return tuple(sorted({block_of(record.id) for record in register.records if record.kind == kind}))


def files(register: Register) -> dict[str, bytes]:
    """Every block that holds a record, by its address."""
    blocks: dict[str, dict[str, Any]] = {}
    for record in register.records:
        if KINDS[record.kind].form:
            name = f"records-{record.kind}-{block_of(record.id)}"
            plain = _plain(record.origin.node)
            made = {"path": record.origin.path, "digest": digest(record), "record": plain}
            blocks.setdefault(name, {})[record.id] = made
    return {f"{FOLDER}records/{name}.js": script(name, block) for name, block in blocks.items()}


def digest(record: Record) -> str:
    """Told apart by what a form shows of a record: its remarks and its spacing do not count."""
    return sha256(json.dumps(_plain(record.origin.node)).encode()).hexdigest()[:16]


def _plain(node: Node) -> Any:
    if isinstance(node, Scalar):
        return node.text
    if isinstance(node, Mapping):
        return {key: _plain(below) for key, below in node.values.items()}
    return [_plain(item) for item in node.items]
