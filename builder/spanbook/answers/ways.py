"""Every complete way to order so many of a number: acts followed to their ends, however long and tangled.

Acts follow one another by the thousand and meet again, so they are followed by a stack of our own and
whatever is reached again is followed once. Each way keeps how it was made, so that the acts that a number on
it rests on can be told when somebody asks.
"""

from __future__ import annotations

from collections.abc import Generator, Iterable, Iterator
from dataclasses import dataclass, field
from typing import NamedTuple, cast

from spanbook.answers.onward import Branch, Ending, Following
from spanbook.answers.supersession import MOST_QUANTITY, multiplied
from spanbook.answers.terms import NONE, Terms
from spanbook.ground.memo import Followed
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Supersession

MOST_ALTERNATIVES = 40
MOST_LINES = 2000  # in all alternatives for one number: a longer order is read by nobody
MOST_FOLLOWED = 10_000  # needs for one order, beside those that were followed before

End = tuple[PartKey, Ending]


@dataclass(slots=True, eq=False)
class Made:
    """How a way is made: by one branch, of the way as far as it had come and that of one more number."""

    branch: Branch
    below: tuple[Way, ...] = ()


@dataclass(slots=True, eq=False)
class Way:
    """The same leaves on the same terms, in any of the manners it is made."""

    leaves: dict[End, int]
    terms: Terms
    made: list[Made]

    @property
    def sort(self) -> tuple[frozenset[tuple[End, int]], Terms]:
        return frozenset(self.leaves.items()), self.terms


@dataclass(slots=True, eq=False)
class Ways:
    """Ways from one need on; `anywhere` when they are the same wherever it is reached, which they are not
    where acts lead back to a number on the way."""

    each: list[Way]
    more: bool
    anywhere: bool


def within(ways: Iterable[Way], end: End | None) -> Iterator[Way]:
    """The ways and all that they are made of, each once; with an end only those that lead to it."""
    waiting = list(ways)
    seen = set(waiting)
    while waiting:
        way = waiting.pop()
        if end is None or end in way.leaves:
            yield way
            fresh = {below for made in way.made for below in made.below} - seen
            seen |= fresh
            waiting.extend(fresh)


_Need = tuple[PartKey, int, bool]  # a number, how many, and whether it only goes with the act that leads here


class _Followed(NamedTuple):
    """A number that is being followed; `beside`: how many numbers on the way to it only go with an act."""

    key: PartKey
    quantity: int
    beside: int
    ways: Generator[_Need, Ways, tuple[Ways, bool]]


@dataclass(slots=True)
class Follower:
    """Follows the acts from one number; `row` has the numbers on the way to where it is, each with how many
    of them up to it only go with an act."""

    following: Following
    known: Followed[tuple[PartKey, int], Ways]
    row: dict[PartKey, int] = field(default_factory=dict)
    followed: int = 0

    def follow(self, key: PartKey, quantity: int) -> Ways:
        if known := self.known.get((key, quantity)):
            return known
        stack: list[_Followed] = []
        self._begin(stack, key, quantity, 0)
        found: Ways | None = None
        while True:
            on = stack[-1]
            try:
                need = on.ways.send(found) if found else next(on.ways)
            except StopIteration as done:
                stack.pop()
                ended, keep = done.value
                self.known.done((on.key, on.quantity), ended, keep=keep)
                if not stack:
                    return cast(Ways, ended)
                found = ended
            else:
                key, quantity, with_act = need
                found = self.known.get((key, quantity))
                if found is None:
                    self._begin(stack, key, quantity, on.beside + with_act)

    def _begin(self, stack: list[_Followed], key: PartKey, quantity: int, beside: int) -> None:
        self.known.begin()
        stack.append(_Followed(key, quantity, beside, self._ways(key, quantity, beside)))

    def _ways(self, key: PartKey, quantity: int, beside: int) -> Generator[_Need, Ways, tuple[Ways, bool]]:
        """The ways from one number, and whether they hold wherever it stands."""
        if key in self.row:
            circle = Ending.NEEDS_CIRCLE if beside > self.row[key] else Ending.CIRCLE
            return _end(key, quantity, circle, anywhere=False), False
        self.followed += 1
        if self.followed > MOST_FOLLOWED:
            return _end(key, quantity, Ending.TOO_MANY, anywhere=False), False
        if quantity > MOST_QUANTITY:
            return _end(key, quantity, Ending.TOO_MANY), False
        found = Ways([], more=False, anywhere=True)
        self.row[key] = beside
        for branch in self.following.onward(key).branches:
            if branch.ending:
                ended = Way({(key, branch.ending): quantity}, branch.terms, [Made(branch)])
                found = self._with(found, [ended], more=False, anywhere=True)
            elif branch.act and (not found.more or len(found.each) < MOST_ALTERNATIVES):
                found = yield from self._by(branch, branch.act, key, quantity, found)
        del self.row[key]
        if _too_many(found.each):
            found = _end(key, quantity, Ending.TOO_MANY, anywhere=found.anywhere)
        return found, found.anywhere

    def _by(
        self, branch: Branch, act: Supersession, key: PartKey, quantity: int, found: Ways
    ) -> Generator[_Need, Ways, Ways]:
        """The ways found so far and those by one more act."""
        done = multiplied(self.following.asked.register, act, key, quantity)
        needs = (
            *((k, n, False) for k, n in done.new.items()),
            *((k, n, True) for k, n in done.besides.items()),
        )
        made = [Way({}, branch.terms, [])]
        more, anywhere = False, True
        for need in needs:
            below = yield need
            anywhere = anywhere and below.anywhere
            made, cut = self._each_with(made, branch, below.each)
            more = more or cut or below.more
        return self._with(found, made, more=more, anywhere=anywhere)

    def _each_with(self, ways: list[Way], branch: Branch, below: list[Way]) -> tuple[list[Way], bool]:
        """Every way so far with every way of one more number, where the two can go together."""
        if len(ways) == len(below) == 1 and ways[0].terms is below[0].terms is NONE:
            return [_added(ways[0], branch, below[0], NONE)], False
        alike: dict[object, Way] = {}
        for way in ways:
            for one in below:
                terms = way.terms | one.terms
                if self.following.possible(terms):
                    if len(alike) > MOST_ALTERNATIVES:
                        return list(alike.values()), True
                    _put(alike, _added(way, branch, one, terms))
        return list(alike.values()), False

    def _with(self, found: Ways, ways: list[Way], *, more: bool, anywhere: bool) -> Ways:
        """More ways beside those found so far; what is the same on the same terms is one way."""
        if not found.each and len(ways) == 1:
            return Ways(ways, more, found.anywhere and anywhere)
        alike: dict[object, Way] = {}
        for way in (*found.each, *ways):
            _put(alike, way)
        each = list(alike.values())
        cut = len(each) > MOST_ALTERNATIVES
        return Ways(each[:MOST_ALTERNATIVES], found.more or more or cut, found.anywhere and anywhere)


def _too_many(ways: list[Way]) -> bool:
    return sum(len(way.leaves) for way in ways) > MOST_LINES or any(
        way.terms is not NONE and way.terms.many for way in ways
    )


def _end(key: PartKey, quantity: int, ending: Ending, *, anywhere: bool = True) -> Ways:
    made = Made(Branch(None, ending, NONE))
    return Ways([Way({(key, ending): quantity}, NONE, [made])], ending is Ending.TOO_MANY, anywhere)


def _added(way: Way, branch: Branch, below: Way, terms: Terms) -> Way:
    """A way in the making with one more number's."""
    if not way.leaves:
        return Way(below.leaves, terms, [Made(branch, (below,))])
    leaves = dict(way.leaves)
    for leaf, quantity in below.leaves.items():
        leaves[leaf] = leaves.get(leaf, 0) + quantity
    return Way(leaves, terms, [Made(branch, (way, below))])


def _put(alike: dict[object, Way], way: Way) -> None:
    """A way beside others, or as one more manner to make what is there already."""
    if same := alike.get(way.sort):
        same.made += way.made
    else:
        alike[way.sort] = way
