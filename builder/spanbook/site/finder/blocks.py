"""Sorted tables in blocks, which stay as they are where nothing in them changed.

Where a block ends is decided by the keys that stand there, and what it is called by the key that it begins
with: what is added or taken away changes the block that it stands in, seldom one or two after it, and the
directory. Keys share their beginnings with the key before (front coding). Of the first key of each block the
directory holds as little as tells it from the last of the block before. `tables.js` reads them, and finds the
name of a block as `named` does.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Any

from spanbook.ground.cuts import ends

Table = list[tuple[str, Any]]


def in_blocks(
    name: str, table: Table, about: int, weight: Callable[[Any], int] | None = None
) -> Iterator[tuple[str, list[list[Any]]]]:
    """The blocks of a table, each of about so much weight by its keys' values, or so many keys, then their
    directory."""
    directory: Table = []
    weights = [weight(value) for _, value in table] if weight else [1] * len(table)
    for first, block in _cut(table, weights, about):
        directory.append((first, 0))
        yield named(name, first), front_coded(block)
    yield name, front_coded(directory)


def named(table: str, first: str) -> str:
    """What a block is called: by what the directory holds of its first key."""
    return f"{table}-{fnv(first):x}"


def fnv(text: str) -> int:
    """FNV-1a, 32 bits."""
    total = 2166136261
    for byte in text.encode():
        total = (total ^ byte) * 16777619 % 2**32
    return total


def _cut(table: Table, weights: Sequence[int], about: int) -> Iterator[tuple[str, Table]]:
    """The blocks, each with what the directory holds of its first key; no two of them are called alike."""
    begin = 0
    first = table[0][0][:1] if table else ""
    taken = {named("", first)}

    def free(i: int) -> bool:
        return named("", _told(table, i)) not in taken

    for end in ends([key for key, _ in table], weights, about, free):
        yield first, table[begin:end]
        begin, first = end, _told(table, end)
        taken.add(named("", first))
    if table:
        yield first, table[begin:]


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
    alike = 0
    for x, y in zip(a, b, strict=False):
        if x != y:
            break
        alike += 1
    return alike
