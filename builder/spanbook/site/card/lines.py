"""The sentences of a card as its script takes them: text, and pairs of text and address that lead on."""

from __future__ import annotations

from collections.abc import Hashable, Iterable
from dataclasses import dataclass, field
from itertools import groupby
from typing import Any

from spanbook.site import addresses
from spanbook.wording.pieces import Pieces, Ref

Said = list[Any]  # of str and [str, address]


def said(pieces: Pieces) -> Said:
    """A sentence with the addresses of what it names; text beside text is one text."""
    made: Said = []
    for text, group in groupby(pieces, key=lambda one: isinstance(one, str)):
        if text:
            made.append("".join(map(str, group)))
        else:
            made += ([one.text, addresses.of(one.to)] for one in group if isinstance(one, Ref))
    return made


@dataclass(slots=True)
class Once:
    """A list in which everything stands once, by its place in it: what many numbers share is not repeated."""

    held: list[Any] = field(default_factory=list)
    _known: dict[Hashable, int] = field(default_factory=dict)

    def place(self, key: Hashable, made: Any) -> int:
        if key not in self._known:
            self._known[key] = len(self.held)
            self.held.append(made)
        return self._known[key]


@dataclass(slots=True)
class Lines:
    """All sentences of a series' table, and the sections of them: a heading with its lines."""

    lines: Once = field(default_factory=Once)
    sections: Once = field(default_factory=Once)

    def section(self, heading: str, lines: Iterable[Pieces]) -> int:
        places = [self.lines.place(pieces, said(pieces)) for pieces in lines]
        return self.sections.place((heading, *places), [heading, places])
