"""The one running order of a series whose stamps have several parts.

Where the number begins again with every year, month, week or letter, each of these is a block of places, with
room to spare, so that a number which was never issued still has its place. A second issue of a number stands
after the first. What else the stamp says (the plant, a year where the number runs on) is what it may be at
each place: several forms where that is not known.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from itertools import islice, product
from math import prod

from spanbook.ground.serials import Stamp, Stretch
from spanbook.ground.stamped import Letters, Stamped, Value, Values, What, each_value, weeks_in

MOST_FORMS = 20_000  # of all stretches together: a stamp with more is none that a browser reads at once


class Restarts(StrEnum):
    """With what the number begins again."""

    YEAR = "year"
    MONTH = "month"
    WEEK = "week"
    LETTER = "letter"


_ORDERED = {
    Restarts.YEAR: (What.YEAR,),
    Restarts.MONTH: (What.YEAR, What.MONTH),
    Restarts.WEEK: (What.YEAR, What.WEEK),
    Restarts.LETTER: (What.LETTER,),
}
# What a part may say at a place, of all that it may say.
Allowed = Callable[[What, int, Sequence[Value]], Sequence[Value]]


@dataclass(frozen=True, slots=True)
class Block:
    """The numbers from one beginning again to the next: what the parts say that order them, its first place.

    `seconds` are the numbers issued again, rising, each with the mark of its second issue.
    """

    values: Values
    at: int
    room: int | None
    seconds: tuple[tuple[int, str], ...] = ()

    def place(self, number: int) -> int:
        """The place of the first issue of a number."""
        return self.at + number + sum(second < number for second, _ in self.seconds)


@dataclass(frozen=True, slots=True)
class Layout:
    """How a series is stamped, with what each part may say.

    `most` is the highest number of a block, as far as anything tells it; `restarts` says with what the number
    begins again, None where it never does.
    """

    stamped: Stamped
    years: tuple[int, ...] = ()
    restarts: Restarts | None = None
    most: int = 9
    letters: Letters = field(default_factory=Letters)
    plants: tuple[str, ...] = ()

    @property
    def ordered(self) -> tuple[What, ...]:
        """The parts that order the numbers, before the number itself."""
        return _ORDERED[self.restarts] if self.restarts else ()

    def blocks(self) -> tuple[Block, ...]:
        """All blocks in their order; one without an end where the number never begins again."""
        if self.restarts is None:
            return (Block({}, 0, None),)
        # A digit more than any number has: what was never issued has its place too.
        room = 10 ** (len(str(self.most)) + 1)
        values = islice(self._values(), MOST_FORMS + 1)
        return tuple(Block(said, i * room, room) for i, said in enumerate(values))

    def _values(self) -> Iterator[Values]:
        every = [each_value(what, self.years, self.letters) for what in self.ordered]
        for chosen in product(*every):
            values = dict(zip(self.ordered, chosen, strict=True))
            week, year = values.get(What.WEEK), values.get(What.YEAR)
            if week is None or not isinstance(year, int) or int(week) <= weeks_in(year):
                yield values

    def stamp(
        self,
        blocks: Sequence[Block] | None = None,
        allowed: Allowed | None = None,
        cuts: Sequence[int] = (),
    ) -> Stamp:
        """The stamp of the numbers in these blocks, or in all.

        `allowed` says what a part may say at a place, which changes at none but the `cuts`. Of a stamp with
        too many forms, which a rule refuses, it has one.
        """
        blocks = self.blocks() if blocks is None else blocks
        if self.size(len(blocks) + len(cuts)) > MOST_FORMS:
            blocks, cuts, allowed = blocks[:1], (), lambda what, place, every: every[:1]
        return Stamp(tuple(self._stretches(blocks, allowed, sorted(set(cuts)))))

    def size(self, pieces: int) -> int:
        """How many forms so many pieces of the running order may have."""
        return max(pieces, len(self.blocks())) * prod(max(1, len(every)) for _, every in self._free())

    def _stretches(
        self, blocks: Sequence[Block], allowed: Allowed | None, cuts: Sequence[int]
    ) -> Iterator[Stretch]:
        for block in blocks:
            for first, last, at, mark in _issues(block):
                for edge, number, end in _pieces(first, last, at, cuts):
                    said = ({**block.values, **free, What.ISSUE: mark} for free in self._said(edge, allowed))
                    forms = dict.fromkeys(self.stamped.form(values, self.letters) for values in said)
                    yield Stretch(tuple(forms), number, end, edge)

    def _said(self, place: int, allowed: Allowed | None) -> Iterator[Values]:
        """What the parts may say at a place that do not order the numbers."""
        every = [(what, allowed(what, place, all_) if allowed else all_) for what, all_ in self._free()]
        for chosen in product(*(values or [""] for _, values in every)):
            yield dict(zip((what for what, _ in every), chosen, strict=True))

    def _free(self) -> Iterator[tuple[What, Sequence[Value]]]:
        """The parts that do not order the numbers, each with everything it may say."""
        for what in (What.YEAR, What.MONTH, What.WEEK, What.LETTER, What.PLANT):
            if self.stamped.has(what) and what not in self.ordered:
                yield what, self.plants if what is What.PLANT else each_value(what, self.years, self.letters)


def _issues(block: Block) -> Iterator[tuple[int, int | None, int, str]]:
    """The numbers of a block in runs of one issue: first, last, the place of the first, the mark."""
    number, at = 0, block.at
    for second, mark in block.seconds:
        if number <= second:
            yield number, second, at, ""
            at += second - number + 1
            number = second + 1
        yield second, second, at, mark
        at += 1
    yield number, None if block.room is None else number + block.at + block.room - 1 - at, at, ""


def _pieces(
    first: int, last: int | None, at: int, cuts: Sequence[int]
) -> Iterator[tuple[int, int, int | None]]:
    """A run of numbers cut at places: the place of each piece, its first and its last number."""
    inside = [cut for cut in cuts if at < cut and (last is None or cut <= at + last - first)]
    edges = [at, *inside]
    for i, edge in enumerate(edges):
        number = first + edge - at
        yield edge, number, first + edges[i + 1] - 1 - at if i + 1 < len(edges) else last
