"""A sentence in which something is named that a page leads to: text and references, without any markup."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from spanbook.answers.flow.pieces import Arranged
from spanbook.reading.records import Record
from spanbook.register.model import Position
from spanbook.register.statements import Statement


@dataclass(frozen=True, slots=True)
class Ref:
    """What something is called in a sentence, and what it is."""

    text: str
    to: Record | Statement | Position | Arranged


Pieces = tuple[str | Ref, ...]


def joined(named: Sequence[Ref | Pieces], last: str = "and") -> Pieces:
    """Several as a list in a sentence, before the last of them `and` or `or`."""
    made: list[str | Ref] = []
    for i, one in enumerate(named):
        if i:
            made.append(f" {last} " if i == len(named) - 1 else ", ")
        made += [one] if isinstance(one, Ref) else one
    return tuple(made)


def plain(pieces: Pieces) -> str:
    """The sentence where nothing can be followed: in a terminal, in a file."""
    return "".join(piece if isinstance(piece, str) else piece.text for piece in pieces)
