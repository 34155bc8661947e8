"""Sorted tables in blocks, which stay as they are where nothing in them changed.

Where a block ends is decided by the keys that stand there, and what it is called by the key that it begins
with: what is added or taken away changes the block that it stands in, seldom one or two after it, and the
directory. Keys share their beginnings with the key before (front coding). Of the first key of each block the
directory holds as little as tells it from the last of the block before. `tables.js` reads them, and finds the
name of a block as `named` does.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain
from typing import Any
from zlib import crc32

Table = list[tuple[str, Any]]


def in_blocks(name: str, table: Table, about: int) -> Iterator[tuple[str, list[list[Any]]]]:
    """The blocks of a table of about so many keys each, a third more at the most, then their directory."""
    directory: Table = []
    for first, block in _cut(table, about):
        directory.append((first, 0))
        yield named(name, first), front_coded(block)
    yield name, front_coded(directory)


def named(table: str, first: str) -> str:
    """What a block is called: by FNV-1a, 32 bits, of what the directory holds of its first key."""
    total = 2166136261
    for byte in first.encode():
        total = (total ^ byte) * 16777619 % 2**32
    return f"{table}-{total:x}"


def _cut(table: Table, about: int) -> Iterator[tuple[str, Table]]:
    """The blocks, each with what the directory holds of its first key; no two of them are called alike."""
    begins = 0
    first = table[0][0][:1] if table else ""
    taken = {named("", first)}
    while (end := _end(table, begins, about, taken)) is not None:
        yield first, table[begins:end]
        begins, first = end, _told(table, end)
        taken.add(named("", first))
    if table:
        yield first, table[begins:]


def _end(table: Table, begins: int, about: int, taken: set[str]) -> int | None:
    """Where a block ends, None where it is the last one.

    From two thirds of its size to four thirds, at the key of the least sum, wherever the block begins.
    """
    least, most = begins + about * 2 // 3, begins + about * 4 // 3
    if most >= len(table):
        return None
    ranked = sorted(range(least, most + 1), key=lambda i: crc32(table[i][0].encode()))
    anywhere = chain(ranked, range(most + 1, len(table)))
    return next((i for i in anywhere if named("", _told(table, i)) not in taken), None)


def _told(table: Table, i: int) -> str:
    """As little of a key as tells it from the one before."""
    return table[i][0][: _shared(table[i - 1][0], table[i][0]) + 1]


def front_coded(table: Table) -> list[list[Any]]:
    """Each entry as how many characters it shares with the key before, the rest of its key, its value."""
    coded: list[list[Any]] = []
    before = ""
    for key, value in table:
        shared = _shared(before, key)
        coded.append([shared, key[shared:]] if value == 0 else [shared, key[shared:], value])
        before = key
    return coded


def _shared(a: str, b: str) -> int:
    """How many characters two texts begin with alike."""
    return next((i for i, (x, y) in enumerate(zip(a, b, strict=False)) if x != y), min(len(a), len(b)))
