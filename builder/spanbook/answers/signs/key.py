"""The key of a position: what may be held, the signs that are recorded of it, and what each answer weighs.

It is made once; what somebody sees is then added up, and a script in a page does the same.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import combinations

from spanbook.answers.applicability import Fits
from spanbook.answers.readings import Reading
from spanbook.answers.signs import weights
from spanbook.answers.signs.gain import chance, gain, shares
from spanbook.answers.signs.things import Thing, parted
from spanbook.answers.signs.weights import Row
from spanbook.ground.memo import kept
from spanbook.ground.readings import Written
from spanbook.reading.records import Sign

# What it takes to look, beside looking at it from outside.
TROUBLE = {"outside": 1, "measured": 2, "opened": 3}
# Nothing is surer than that: signs that go together are counted as if each told by itself.
MOST_SURE = 0.9
NEAR = 0.1  # how likely something is beside the likeliest that is worth telling from it
LEAST_GAIN = 0.01  # bits: what tells less is not worth looking at


@dataclass(frozen=True, slots=True)
class Length:
    """A length as somebody read it, and what it is of."""

    what: str
    read: Written


@dataclass(frozen=True, slots=True)
class Seen:
    """What somebody sees of the thing: answers by the ids of signs (None: something else than its answers),
    the machine that it is from, lengths, and numbers or marks as they read."""

    answers: Mapping[str, str | None] = field(default_factory=dict)
    machine: Reading | None = None
    lengths: Sequence[Length] = ()
    marks: Sequence[str] = ()


@dataclass(frozen=True, slots=True)
class Likely:
    """How likely a thing is; None is something that nobody has recorded.

    `agrees` and `against` are the signs that were answered as recorded of it, and otherwise.
    """

    thing: Thing | None
    share: float
    agrees: tuple[Sign, ...]
    against: tuple[Sign, ...]

    @property
    def stated(self) -> float:
        """As it may be told."""
        return min(self.share, MOST_SURE)


@dataclass(frozen=True, slots=True)
class Look:
    """Something to look at, and how many bits that is expected to tell."""

    sign: Sign
    gain: float

    @property
    def worth(self) -> float:
        """What it tells for the trouble; ten digits are the same in every program."""
        return round(self.gain / TROUBLE[self.sign.look], 10)


@dataclass(frozen=True, slots=True)
class Told:
    """What it is likely to be, best first; what to look at, the next first; and what else is near and no
    sign parts from the likeliest."""

    likely: tuple[Likely, ...]
    looks: tuple[Look, ...]
    alike: tuple[Thing, ...]


@dataclass(frozen=True, eq=False)
class Key:
    """All that may be held from a position, and the signs that are recorded of any of it.

    What is recorded to be read on anything, also elsewhere, is looked up when a mark is asked about.
    """

    fits: Fits
    position: str
    things: tuple[Thing, ...]
    read_readable: Callable[[], frozenset[str]]

    @property
    def readable(self) -> frozenset[str]:
        """All that is recorded to be read on anything, as a worn stamp leaves it."""
        return self.read_readable()

    @kept
    def signs(self) -> tuple[Sign, ...]:
        """Those that are recorded of something here, in their order."""
        shown = {sign for thing in self.things for sign in thing.shows}
        return tuple(one for one in self.fits.register.signs.values() if one.id in shown)

    @kept
    def rows(self) -> Mapping[str, tuple[Row, ...]]:
        """What each answer of each sign weighs; the last is for something else than its answers."""
        return {one.id: weights.of_sign(one, self.things) for one in self.signs}

    @kept
    def chances(self) -> Mapping[str, list[list[float]]]:
        """How likely each answer of each sign is of each thing."""
        return {id_: [[chance(one) for one in row] for row in rows] for id_, rows in self.rows.items()}

    def row(self, sign: Sign, answer: str | None) -> Row:
        """What one answer weighs."""
        return self.rows[sign.id][len(sign.answers) if answer is None else sign.answers.index(answer)]

    def told(self, seen: Seen) -> Told:
        """What it is likely to be by what is seen, and what to look at next."""
        held = shares(weights.added(self._rows(seen)))
        likely = tuple(self._likely(seen, held))
        sure = max(held[:-1], default=0) >= MOST_SURE
        looks = () if sure else tuple(self._looks(seen, held))
        return Told(likely, looks, self._alike(likely))

    def _rows(self, seen: Seen) -> Iterator[Row]:
        yield (0,) * (len(self.things) + 1)
        for sign in self.signs:
            if sign.id in seen.answers:
                yield self.row(sign, seen.answers[sign.id])
        if seen.machine:
            yield weights.of_machine(self.fits, self.things, seen.machine, self.position)
        for length in seen.lengths:
            yield weights.of_size(self.things, length.what, length.read)
        for mark in seen.marks:
            yield weights.of_mark(self.readable, self.things, mark)

    def _likely(self, seen: Seen, held: Sequence[float]) -> Iterator[Likely]:
        things = (*self.things, None)
        answered = [sign for sign in self.signs if sign.id in seen.answers]
        for i in sorted(range(len(things)), key=lambda i: (-round(held[i], 10), i)):
            shows = thing.shows if (thing := things[i]) else {}
            told = [sign for sign in answered if sign.id in shows]
            agrees = tuple(sign for sign in told if seen.answers[sign.id] in shows[sign.id].every)
            yield Likely(thing, held[i], agrees, tuple(sign for sign in told if sign not in agrees))

    def _looks(self, seen: Seen, held: Sequence[float]) -> list[Look]:
        asked = (sign for sign in self.signs if sign.id not in seen.answers)
        looks = (Look(one, gain(held, self.chances[one.id])) for one in asked)
        return sorted((one for one in looks if one.gain >= LEAST_GAIN), key=lambda one: -one.worth)

    def _alike(self, likely: Sequence[Likely]) -> tuple[Thing, ...]:
        first, *others = likely
        if first.thing is None:
            return ()
        near = (one.thing for one in others if one.share >= NEAR * first.share)
        return tuple(one for one in near if one and not self.parted(first.thing, one))

    def parted(self, one: Thing, other: Thing) -> bool:
        """Whether some sign tells two things apart."""
        return parted(one, other, self.rows)

    @kept
    def unparted(self) -> tuple[tuple[Thing, Thing], ...]:
        """The pairs that no sign tells apart."""
        return tuple(pair for pair in combinations(self.things, 2) if not self.parted(*pair))
