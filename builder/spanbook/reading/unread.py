"""Files that could not be read as records: what they may hold, so that nobody is told that it is missing."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cache

from spanbook.ground.part_numbers import folded
from spanbook.reading.kinds import KINDS
from spanbook.reading.roles import Role
from spanbook.reading.shapes import shape_of

_WORD = re.compile("[a-z0-9]+(?:-[a-z0-9]+)*")


@dataclass(frozen=True, slots=True)
class Unread:
    """The words in such files; `by_sort`, of those that may hold a sort of thing; `text` is all, folded."""

    words: frozenset[str] = frozenset()
    by_sort: Mapping[str, frozenset[str]] = field(default_factory=dict)
    text: str = ""

    @classmethod
    def of(cls, files: Iterable[tuple[str, str, bytes]]) -> Unread:
        """Of each file the kind of its record, its name without ending, and what stands in it."""
        by_sort: dict[str, set[str]] = {}
        texts: list[str] = []
        for kind, stem, data in files:
            # Without the zeros what another encoding makes of plain letters is found as well.
            text = data.replace(b"\0", b"").decode("utf-8", "replace")
            texts.append(folded(text))
            for sort in _sorts(kind):
                by_sort.setdefault(sort, set()).update([stem, *_WORD.findall(text)])
        frozen = {sort: frozenset(words) for sort, words in by_sort.items()}
        return cls(frozenset().union(*frozen.values()), frozen, "\n".join(texts))

    def may_hold(self, sort: str, id_: str) -> bool:
        """Whether an id may be that of something in one of the files."""
        return all(word in self.by_sort.get(sort, ()) for word in id_.split("/"))

    def may_name(self, text: str) -> bool:
        """Whether one of the files may name something: an id, a file's path."""
        return self.words.issuperset(_WORD.findall(text))

    def may_number(self, number: str) -> bool:
        """Whether one of the files may name a part by a number, however it is written."""
        return folded(number) in self.text


@cache
def _sorts(kind: str) -> tuple[str, ...]:
    """The sorts of things that a record of a kind is and holds."""
    if kind not in KINDS:
        return (kind,)
    return (kind, *{slot.to for slot in shape_of(kind).inside() if slot.role is Role.ID} - {kind})
