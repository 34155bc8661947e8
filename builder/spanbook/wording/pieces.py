"""A sentence in which something is named that a page leads to: text and references, without any markup."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from string import Formatter

from spanbook.answers.flow.pieces import Arranged
from spanbook.ground.language import gettext as _
from spanbook.reading.records import Record
from spanbook.register.model import Position
from spanbook.register.statements import Statement
from spanbook.wording.grammar import JOINTS, Joint


@dataclass(frozen=True, slots=True)
class Ref:
    """What something is called in a sentence, and what it is."""

    text: str
    to: Record | Statement | Position | Arranged


Pieces = tuple[str | Ref, ...]


def joined(named: Sequence[Ref | Pieces], joint: Joint = "and") -> Pieces:
    """Several as a list in a sentence, before the last of them `and` or `or`."""
    made: list[str | Ref] = []
    for one in named[:-1]:
        made += [*([", "] if made else []), *_pieces(one)]
    last = named[-1] if named else ()
    return filled(_(JOINTS[joint]), first=tuple(made), last=last) if made else _pieces(last)


def in_turn(named: Sequence[Ref]) -> Pieces:
    """One after the other: `a, then b, then c`."""
    message = _("{first}, then {then}")
    made: Pieces = tuple(named[:1])
    for one in named[1:]:
        made = filled(message, first=made, then=one)
    return made


def filled(message: str, **values: str | Ref | Pieces) -> Pieces:
    """A message with what it names in its places, as `str.format` would put it there."""
    made: list[str | Ref] = []
    for text, name, *_rest in Formatter().parse(message):
        made += [*([text] if text else []), *(_pieces(values[name]) if name is not None else ())]
    return tuple(made)


def _pieces(value: str | Ref | Pieces) -> Pieces:
    return value if isinstance(value, tuple) else (value,) if value else ()


def plain(pieces: Pieces) -> str:
    """The sentence where nothing can be followed: in a terminal, in a file."""
    return "".join(piece if isinstance(piece, str) else piece.text for piece in pieces)
