"""The records as they were typed, in tables from which a form is filled to correct one."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Iterator
from hashlib import sha256
from typing import Any

from spanbook.reading.kinds import KINDS
from spanbook.reading.nodes import plain
from spanbook.reading.records import Record
from spanbook.register.model import Register
from spanbook.site.finder.tables import FOLDER, script

BLOCKS = 64
Block = tuple[str, list[Record]]  # by what its table is called


def block_of(id_: str) -> int:
    """In which block of its kind a record is; `known.js` works out the same from the id alone."""
    block = 0
    for character in id_:
        block = (block * 31 + ord(character)) % BLOCKS
    return block


def texts_of(record: Record) -> object:
    """What the file of a record says, all of it as it was typed."""
    return plain(record.origin.node)


def blocks(register: Register) -> Iterable[Block]:
    """What has a form, in the blocks of its kind."""
    found: dict[str, list[Record]] = {}
    for record in register.records:
        if KINDS[record.kind].form:
            found.setdefault(f"records-{record.kind}-{block_of(record.id)}", []).append(record)
    return found.items()


def files(block: Block, texts: Callable[[Record], object]) -> Iterator[tuple[str, bytes]]:
    """A block by its address; `texts` gives what the file of a record says."""
    name, records = block
    yield address_of(name), script(name, {one.id: _typed(one, texts(one)) for one in records})


def of_kinds(register: Register) -> Iterator[tuple[str, bytes]]:
    """What tells which blocks there are."""
    yield address_of("records-kinds"), script("records-kinds", kinds(register))


def address_of(table: str) -> str:
    return f"{FOLDER}records/{table}.js"


def _typed(record: Record, texts: object) -> dict[str, Any]:
    return {"path": record.origin.path, "digest": _digest(texts), "record": texts}


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
