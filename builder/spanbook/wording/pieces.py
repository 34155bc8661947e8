"""A sentence in which something is named that a page leads to: text and references, without any markup."""

from __future__ import annotations

from dataclasses import dataclass

from spanbook.reading.records import Record
from spanbook.register.statements import Statement


@dataclass(frozen=True, slots=True)
class Ref:
    """What something is called in a sentence, and what it is."""

    text: str
    to: Record | Statement


Pieces = tuple[str | Ref, ...]


def plain(pieces: Pieces) -> str:
    """The sentence where nothing can be followed: in a terminal, in a file."""
    return "".join(piece if isinstance(piece, str) else piece.text for piece in pieces)
