"""Pages as the finder's tables name them: by their block, which lasts, and by their place in it.

The pages stand in blocks that are cut by what stands there, as keys are (`blocks.py`), and a block is called
by the page that it begins with: a page more or less changes its own block and the words that stand on the
pages behind it there, and no others. `pages.js` reads them.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from spanbook.answers.by_words import Document
from spanbook.ground.cuts import ends
from spanbook.site.finder.blocks import fnv, front_coded

ABOUT = 80  # pages of a block
# So near one another pages are told without a block's name, whichever block they stand in: what is on a great
# many pages is told in a few letters, and changes at every page more or less anyway.
NEAR = 8
_DIGITS = "0123456789abcdefghijklmnopqrstuvwxyz"
_FEW = 400_000  # pages, whose blocks are called by three letters: one in ten of what these can say


@dataclass(frozen=True, slots=True)
class Blocks:
    """The names of the blocks in their order, where each begins, and where the last one ends."""

    names: tuple[str, ...]
    begins: tuple[int, ...]
    end: int

    @property
    def directory(self) -> list[str | int]:
        """Each name, and how many pages the block has."""
        return [one for name, begin, end in self for one in (name, end - begin)]

    def __iter__(self) -> Iterator[tuple[str, int, int]]:
        """Each name with where the block begins and ends."""
        return zip(self.names, self.begins, [*self.begins[1:], self.end], strict=False)

    def told(self, numbers: Iterable[int]) -> list[str | int]:
        """Rising numbers of pages as steps between them; after the name of a block from where it begins."""
        made: list[str | int] = []
        before, end = -1, 0
        for number in numbers:
            if number >= end and (before < 0 or number - before > NEAR):
                at = bisect_right(self.begins, number) - 1
                end = self.begins[at + 1] if at + 1 < len(self.begins) else self.end
                before = self.begins[at]
                made.append(self.names[at])
            made.append(number - before)
            before = number
        return made


def block_of(documents: Sequence[Document], pictures: Mapping[str, str]) -> list[Any]:
    """The pages of a block: their titles; their addresses, each with its sort where the page before
    has another; and by their places the small pictures of those that have one."""
    before = ["", *(one.sort for one in documents)]
    sorts = (one.sort if one.sort != last else 0 for one, last in zip(documents, before, strict=False))
    titles = front_coded([(one.title, 0) for one in documents])
    addresses = front_coded([(one.address, sort) for one, sort in zip(documents, sorts, strict=True)])
    shown = {i: pictures[one.address] for i, one in enumerate(documents) if one.address in pictures}
    return [titles, addresses, *([shown] if shown else [])]


def in_blocks(addresses: Sequence[str]) -> Blocks:
    """No two blocks are called alike."""
    letters = 3 if len(addresses) < _FEW else 4
    begins = {_name(address, letters): i for i, address in enumerate(addresses[:1])}
    for end in ends(
        addresses, [1] * len(addresses), ABOUT, lambda i: _name(addresses[i], letters) not in begins
    ):
        begins[_name(addresses[end], letters)] = end
    return Blocks(tuple(begins), tuple(begins.values()), len(addresses))


def _name(address: str, letters: int) -> str:
    total, made = fnv(address), ""
    for _ in range(letters):
        total, digit = divmod(total, len(_DIGITS))
        made += _DIGITS[digit]
    return made
