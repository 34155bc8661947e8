"""What to order now: the numbers at the ends of the acts, with quantities multiplied through.

`ways` follows the acts to their ends; the tree that shows them (`supersession.order_now`) stops where nobody
reads on. Ways with the same leaves are one alternative, for whom any of them is.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from enum import StrEnum

from spanbook.answers.condition import ALWAYS, Applies, Asked, Condition
from spanbook.answers.onward import Ending, Following
from spanbook.answers.readings import Reading
from spanbook.answers.sets import SetNeeded, sets_needed
from spanbook.answers.terms import NONE, Terms
from spanbook.answers.ways import End, Follower, Way, Ways, within
from spanbook.ground.memo import Followed
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Supersession
from spanbook.register.model import Register


class Supply(StrEnum):
    """What an order comes to at one of its numbers."""

    SUPPLIED = "supplied"
    GIVEN_UP = "no-longer-supplied"
    UNKNOWN = "not-known"
    CIRCLE = "leads-back-to-itself"
    NEEDS_CIRCLE = "part-of-a-circle-of-needs"
    TOO_MANY = "too-many-to-follow"
    IN_SET = "only-in-a-set"
    UNCLEAR = "means-several-things"


# Where the acts were followed to their end.
_FOLLOWED = {Supply.SUPPLIED, Supply.GIVEN_UP, Supply.UNKNOWN, Supply.IN_SET, Supply.UNCLEAR}


@dataclass(frozen=True, slots=True)
class Leaf:
    """A number to order, and what that comes to: whether it is supplied, or why nothing is known of it."""

    key: PartKey
    quantity: int
    supply: Supply

    @property
    def followed(self) -> bool:
        """Whether its acts were followed to their end."""
        return self.supply in _FOLLOWED


@dataclass(frozen=True, slots=True)
class SetOrder:
    """So many of a set, for the numbers of an order that are sold only in it, and what is left over.

    `today` is every way to order the set itself, today or in the year that is asked of, each as all that is
    ordered for it; empty where it is worked out for that same set, which would lead round in a circle.
    """

    needed: SetNeeded
    today: tuple[tuple[Leaf, ...], ...]


@dataclass(frozen=True, slots=True)
class Grounds:
    """What a number on an order, or a whole way to order, rests on: for whom (any one of `conditions`), the
    acts by their ids, and those that speak against any of them."""

    conditions: tuple[Condition, ...]
    acts: tuple[Supersession, ...]
    against: tuple[Supersession, ...]

    @property
    def applies(self) -> Applies:
        return next(a for a in Applies if any(one.applies is a for one in self.conditions))


@dataclass(frozen=True, slots=True)
class Alternative:
    """One complete way to order: all of its leaves together, for whom any one of `conditions` holds.

    `sets` are the ways to have those leaves that are sold only in sets, any one of them; `grounds` is what
    the whole way rests on.
    """

    leaves: tuple[Leaf, ...]
    conditions: tuple[Condition, ...]
    sets: tuple[tuple[SetOrder, ...], ...]
    grounds: Grounds = field(compare=False, repr=False)
    _ways: tuple[Way, ...] = field(compare=False, repr=False)
    _following: Following = field(compare=False, repr=False)

    @property
    def own(self) -> bool:
        """Whether it is the number that was asked for itself, because nothing applies to it."""
        return self.leaves[0].followed and all(m.branch.act is None for w in self._ways for m in w.made)

    @property
    def simple(self) -> bool:
        """Whether it is for everybody, and undisputed."""
        return self.conditions[0].plain and not self.grounds.against

    @property
    def of_leaf(self) -> tuple[Grounds, ...]:
        """What each of the leaves rests on, in their order."""
        return tuple(map(self._leaf, self._ways[0].leaves))

    def _leaf(self, end: End) -> Grounds:
        acts: set[Supersession | None] = set()
        terms = []
        for route in self._ways:
            makings = [made for way in within([route], end) for made in way.made]
            acts.update(made.branch.act for made in makings)
            terms.append(_together(made.branch.terms for made in makings))
        return _grounds(self._following, acts, _conditions(self._following, terms))


@dataclass(frozen=True, slots=True)
class Orders:
    """Every complete way to order, and whether there are more than are listed; in a year when one was asked.

    `first_named` is the year of the first act that gives the number, where nothing names it by that year.
    """

    alternatives: tuple[Alternative, ...]
    more: bool
    year: int | None = None
    first_named: int | None = None


def orders(
    register: Register,
    key: PartKey,
    quantity: int = 1,
    reading: Reading | None = None,
    year: int | None = None,
) -> Orders:
    """Every complete way to order so many of a number: today or in a year, on one machine or on any."""
    return Ordering(register, reading, year).of(key, quantity)


class Ordering:
    """Orders from one register, on one machine or on any, today or in a year: what is followed once is known
    afterwards."""

    def __init__(self, register: Register, reading: Reading | None = None, year: int | None = None) -> None:
        self.register = register
        self.following = Following(Asked(register, reading, year))
        self.known = Followed[tuple[PartKey, int], Ways]()
        self._row: set[PartKey] = set()  # of sets whose own order is being told

    def of(self, key: PartKey, quantity: int = 1) -> Orders:
        """Every complete way to order so many of a number; those with the same leaves are one. What is
        left for all other machines stands last."""
        found = Follower(self.following, self.known).follow(key, quantity)
        alike: dict[frozenset[tuple[End, int]], list[Way]] = {}
        for way in found.each:
            alike.setdefault(frozenset(way.leaves.items()), []).append(way)
        ways = map(self._alternative, alike.values())
        told = tuple(sorted(ways, key=lambda way: any(one.rest for one in way.conditions)))
        return Orders(told, found.more, self.following.asked.year, self._first_named(key))

    def _first_named(self, key: PartKey) -> int | None:
        part = self.register.parts.get(key)
        if part is None or part.uses or part.whole or not part.new_in:
            return None
        if any(self.following.by_then(act) is not Applies.NO for act in (*part.new_in, *part.old_in)):
            return None
        return min(made.first for act in part.new_in if (made := self.following.years.made(act)).first)

    def _alternative(self, ways: list[Way]) -> Alternative:
        leaves = tuple(Leaf(k, n, self._supply(k, ending)) for (k, ending), n in ways[0].leaves.items())
        conditions = _conditions(self.following, [way.terms for way in ways])
        acts = {made.branch.act for way in within(ways, None) for made in way.made}
        grounds = _grounds(self.following, acts, conditions)
        return Alternative(leaves, conditions, self._sets(leaves), grounds, tuple(ways), self.following)

    def _sets(self, leaves: tuple[Leaf, ...]) -> tuple[tuple[SetOrder, ...], ...]:
        wanted = {leaf.key: leaf.quantity for leaf in leaves if leaf.supply is Supply.IN_SET}
        found = sets_needed(self.register, wanted) if wanted else ()
        return tuple(tuple(SetOrder(need, self._today(need)) for need in way) for way in found)

    def _today(self, need: SetNeeded) -> tuple[tuple[Leaf, ...], ...]:
        if need.key in self._row:
            return ()
        self._row.add(need.key)
        found = self.of(need.key, need.quantity)
        self._row.discard(need.key)
        return tuple(way.leaves for way in found.alternatives)

    def _supply(self, key: PartKey, ending: Ending) -> Supply:
        if ending is not Ending.CURRENT:
            return Supply(ending)
        found = supply_of(self.register, key)
        # What a part's record says of its supply it says of today.
        dated = self.following.asked.year is None or found is Supply.UNCLEAR
        return found if dated else Supply.UNKNOWN


def supply_of(register: Register, key: PartKey) -> Supply:
    """What a number's own record says of its supply."""
    if key in register.numbering.senses:
        return Supply.UNCLEAR
    part = register.parts.get(key)
    if part and part.record and part.record.only_in:
        return Supply.IN_SET
    return _SUPPLIES[part.record.supplied if part and part.record else "unknown"]


_SUPPLIES = {"yes": Supply.SUPPLIED, "no": Supply.GIVEN_UP, "unknown": Supply.UNKNOWN}


_ALWAYS = (ALWAYS,)


def _conditions(following: Following, each: list[Terms]) -> tuple[Condition, ...]:
    """The conditions of several terms, of which any one will do; those after the same conversions as one."""
    if len(each) == 1:
        return _ALWAYS if each[0] is NONE else (following.condition(each[0]),)
    met: dict[tuple[tuple[str, ...], ...], Condition] = {}
    for terms in each:
        one = following.condition(terms)
        met[one.sort] = following.either(met[one.sort], one) if one.sort in met else one
    plain = next((one for one in met.values() if one.plain), None)
    return (plain,) if plain else tuple(met.values())


def _grounds(
    following: Following, acts: set[Supersession | None], conditions: tuple[Condition, ...]
) -> Grounds:
    named = sorted((act for act in acts if act), key=lambda act: act.id)
    against = {other for act in named for other in following.against(act)}
    return Grounds(conditions, tuple(named), tuple(sorted(against, key=lambda act: act.id)))


def _together(each: Iterable[Terms]) -> Terms:
    found = NONE
    for terms in each:
        found |= terms
    return found
