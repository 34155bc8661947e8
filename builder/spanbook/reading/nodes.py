"""A YAML document as a tree that knows where every key and value stands. Nothing is guessed: all is text."""

from __future__ import annotations

from typing import NamedTuple

Step = str | int


class Scalar(NamedTuple):
    text: str
    line: int
    column: int


class Sequence(NamedTuple):
    items: tuple[Node, ...]
    line: int
    column: int


class Mapping(NamedTuple):
    """`keys` holds the key as written, with its place, `values` what stands under it."""

    keys: dict[str, Scalar]
    values: dict[str, Node]
    line: int
    column: int


Node = Scalar | Sequence | Mapping


def place_of(node: Node, path: tuple[Step, ...], *, key: bool = False) -> tuple[int, int]:
    """Line and column of the value at a path; where the path breaks off, of the last thing on it.

    With `key`, of the last key on the path rather than of its value.
    """
    at: Node = node
    for step in path:
        below: Node | None = None
        if isinstance(at, Mapping) and isinstance(step, str):
            below = at.values.get(step)
        elif isinstance(at, Sequence) and isinstance(step, int) and step < len(at.items):
            below = at.items[step]
        if below is None:
            break
        if key and step == path[-1] and isinstance(at, Mapping) and isinstance(step, str):
            below = at.keys[step]
        at = below
    return at.line, at.column


def at_path(node: Node, path: tuple[Step, ...]) -> Node | None:
    """The value at a path; None where the path breaks off."""
    at: Node | None = node
    for step in path:
        if isinstance(at, Mapping) and isinstance(step, str):
            at = at.values.get(step)
        elif isinstance(at, Sequence) and isinstance(step, int) and step < len(at.items):
            at = at.items[step]
        else:
            return None
    return at


def plain(node: Node) -> object:
    """A node as plain lists, dicts and texts, without its places."""
    if isinstance(node, Mapping):
        return {key: plain(below) for key, below in node.values.items()}
    return [plain(below) for below in node.items] if isinstance(node, Sequence) else node.text
