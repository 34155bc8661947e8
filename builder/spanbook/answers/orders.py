"""What to order now: the numbers at the ends of the acts, with quantities multiplied through.

Acts follow one another by the thousand and meet again, so they are followed by a stack of our own and
whatever is reached again is followed once; the tree that shows the acts (`supersession.order_now`) stops
where nobody reads on.
"""

from __future__ import annotations

from collections.abc import Generator
from dataclasses import dataclass, field
from itertools import product

from spanbook.answers.applicability import Reading
from spanbook.answers.supersession import MOST_QUANTITY, Ending, multiplied, onward_from
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Supersession
from spanbook.register.model import Register

MOST_ALTERNATIVES = 40
MOST_LINES = 2000  # in all alternatives for one number: a longer order is read by nobody
MOST_FOLLOWED = 10_000  # needs for one order, beside those that were followed before


@dataclass(frozen=True, slots=True)
class Leaf:
    """A number to order; `supplied` is yes, no or unknown. Not `followed`: it was replaced, and whatever
    replaces it was too much to follow or leads back to it."""

    key: PartKey
    quantity: int
    supplied: str
    followed: bool = True


@dataclass(frozen=True, slots=True)
class Orders:
    """Every complete way to order, and whether there are more than are listed."""

    alternatives: tuple[tuple[Leaf, ...], ...]
    more: bool


def orders(register: Register, key: PartKey, quantity: int = 1, reading: Reading | None = None) -> Orders:
    """Every complete way to order so many of a number today, on one machine when a reading is given."""
    return Ordering(register, reading).of(key, quantity)


_Way = dict[tuple[PartKey, Ending], int]


@dataclass(frozen=True, slots=True)
class _Ways:
    """Ways from one need on; `anywhere` when they are the same wherever it is reached, which they are not
    where acts lead back to a number on the way."""

    each: list[_Way]
    more: bool
    anywhere: bool


@dataclass(frozen=True, slots=True)
class Ordering:
    """Orders from one register, on one machine or on any: what is followed once is known afterwards."""

    register: Register
    reading: Reading | None = None
    _known: dict[tuple[PartKey, int], _Ways] = field(default_factory=dict)

    def of(self, key: PartKey, quantity: int = 1) -> Orders:
        found = _Follower(self).follow(key, quantity)
        flat = (
            tuple(self._leaf(key, quantity, ending) for (key, ending), quantity in way.items())
            for way in found.each
        )
        return Orders(tuple(dict.fromkeys(flat)), found.more)

    def _leaf(self, key: PartKey, quantity: int, ending: Ending) -> Leaf:
        followed = ending in (Ending.CURRENT, Ending.GIVEN_UP)
        if ending is Ending.GIVEN_UP:
            return Leaf(key, quantity, "no")
        part = self.register.parts.get(key)
        return Leaf(key, quantity, part.record.supplied if part and part.record else "unknown", followed)


_Need = tuple[PartKey, int]


@dataclass(slots=True)
class _Follower:
    """Follows the acts from one number; `row` has the numbers on the way to where it is."""

    ordering: Ordering
    row: set[PartKey] = field(default_factory=set)
    followed: int = 0

    def follow(self, key: PartKey, quantity: int) -> _Ways:
        stack = [self._ways(key, quantity)]
        found: _Ways | None = None
        while True:
            try:
                need = stack[-1].send(found) if found else next(stack[-1])
            except StopIteration as done:
                stack.pop()
                ended: _Ways = done.value
                if not stack:
                    return ended
                found = ended
            else:
                stack.append(self._ways(*need))
                found = None

    def _ways(self, key: PartKey, quantity: int) -> Generator[_Need, _Ways, _Ways]:
        if known := self.ordering._known.get((key, quantity)):
            return known
        if key in self.row:
            return _end(key, quantity, Ending.CIRCLE, anywhere=False)
        self.followed += 1
        if self.followed > MOST_FOLLOWED:
            return _end(key, quantity, Ending.TOO_MANY, anywhere=False)
        if quantity > MOST_QUANTITY:
            return _end(key, quantity, Ending.TOO_MANY)
        onward = onward_from(self.ordering.register, key, self.ordering.reading)
        if onward.ending:
            return _end(key, quantity, onward.ending)
        self.row.add(key)
        found = _Ways([], more=False, anywhere=True)
        for act, _ in onward.giving:
            if not found.more or len(found.each) < MOST_ALTERNATIVES:
                found = yield from self._by(act, key, quantity, found)
        self.row.remove(key)
        if sum(map(len, found.each)) > MOST_LINES:
            found = _end(key, quantity, Ending.TOO_MANY, anywhere=found.anywhere)
        if found.anywhere:
            self.ordering._known[key, quantity] = found
        return found

    def _by(
        self, act: Supersession, key: PartKey, quantity: int, found: _Ways
    ) -> Generator[_Need, _Ways, _Ways]:
        """The ways found so far and those by one more act."""
        done = multiplied(self.ordering.register, act, key, quantity)
        each: list[_Ways] = []
        for need in (*done.new.items(), *done.besides.items()):
            each.append((yield need))
        ways, more = list(found.each), found.more or any(one.more for one in each)
        for together in product(*(one.each for one in each)):
            if len(ways) == MOST_ALTERNATIVES:
                more = True
                break
            ways.append(_added(together))
        return _Ways(ways, more, found.anywhere and all(one.anywhere for one in each))


def _end(key: PartKey, quantity: int, ending: Ending, *, anywhere: bool = True) -> _Ways:
    return _Ways([{(key, ending): quantity}], ending is Ending.TOO_MANY, anywhere)


def _added(ways: tuple[_Way, ...]) -> _Way:
    total: _Way = {}
    for way in ways:
        for leaf, quantity in way.items():
            total[leaf] = total.get(leaf, 0) + quantity
    return total
