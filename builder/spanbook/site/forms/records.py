"""The records as they were typed, in tables from which a form is filled to correct one."""

from __future__ import annotations

import json
from collections.abc import Callable
from hashlib import sha256
from typing import Any

from spanbook.reading.kinds import KINDS
from spanbook.reading.nodes import plain
from spanbook.reading.records import Record
from spanbook.register.model import Register
from spanbook.site.finder.tables import FOLDER, script

BLOCKS = 64


def block_of(id_: str) -> int:
    """In which block of its kind a record is; `known.js` works out the same from the id alone."""
    block = 0
    for character in id_:
        block = (block * 31 + ord(character)) % BLOCKS
    return block


def texts_of(record: Record) -> object:
    """What the file of a record says, all of it as it was typed."""
    return plain(record.origin.node)


def files(register: Register, texts: Callable[[Record], object] = texts_of) -> dict[str, bytes]:
    """Every block that holds a record, by its address; `texts` for whoever has read the files already."""
    blocks: dict[str, dict[str, Any]] = {}
    for record in register.records:
        if KINDS[record.kind].form:
            name = f"records-{record.kind}-{block_of(record.id)}"
            typed = texts(record)
            one = {"path": record.origin.path, "digest": _digest(typed), "record": typed}
            blocks.setdefault(name, {})[record.id] = one
    made = {name: script(name, block) for name, block in blocks.items()}
    made["records-kinds"] = script("records-kinds", kinds(register))
    return {f"{FOLDER}records/{name}.js": data for name, data in made.items()}


def kinds(register: Register) -> dict[str, list[Any]]:
    """Of each kind that has a form its folder, and the blocks that hold a record: no other is asked for."""
    found: dict[str, set[int]] = {}
    for record in register.records:
        found.setdefault(record.kind, set()).add(block_of(record.id))
    return {kind: [KINDS[kind].folder, sorted(blocks)] for kind, blocks in found.items() if KINDS[kind].form}


def digest(record: Record) -> str:
    """Told apart by what a form shows of a record: its remarks and its spacing do not count."""
    return _digest(texts_of(record))


def _digest(typed: object) -> str:
    return sha256(json.dumps(typed).encode()).hexdigest()[:16]
