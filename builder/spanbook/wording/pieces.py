"""A sentence in which something is named that a page leads to: text and references, without any markup."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from spanbook.reading.records import Record
from spanbook.register.model import Position
from spanbook.register.statements import Statement


@dataclass(frozen=True, slots=True)
class Ref:
    """What something is called in a sentence, and what it is."""

    text: str
    to: Record | Statement | Position


Pieces = tuple[str | Ref, ...]


def joined(named: Sequence[Ref], last: str) -> Pieces:
    """Several references in a row, before the last of them `and` or `or`."""
    joints = ["", *[", "] * (len(named) - 2), f" {last} "]
    return tuple(piece for joint, one in zip(joints, named, strict=False) for piece in (joint, one) if piece)


def plain(pieces: Pieces) -> str:
    """The sentence where nothing can be followed: in a terminal, in a file."""
    return "".join(piece if isinstance(piece, str) else piece.text for piece in pieces)
