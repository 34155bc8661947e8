"""A number of an order, what ordering it comes to, and the sets in which some are sold."""

from __future__ import annotations

from collections.abc import Sequence

from spanbook.answers.orders import Alternative, Leaf, SetOrder, Supply
from spanbook.answers.sets import sets_of
from spanbook.ground.part_numbers import PartKey
from spanbook.register.model import Register
from spanbook.wording.grammar import counted, listed, stopped, times
from spanbook.wording.numbers import UNCLEAR, part_title

SUPPLIES = {
    Supply.SUPPLIED: "still supplied",
    Supply.GIVEN_UP: "no longer supplied",
    Supply.UNKNOWN: "supply not known",
    Supply.CIRCLE: "or what replaces it: its acts lead back to it",
    Supply.NEEDS_CIRCLE: "part of a circle of needs",
    Supply.TOO_MANY: "or what replaces it: too many acts to follow",
    Supply.IN_SET: "sold only in a set",
    Supply.UNCLEAR: UNCLEAR,
}


def leaf_words(register: Register, leaf: Leaf, *, quiet: bool = False) -> str:
    """A number of an order, with what that comes to unless it is told elsewhere."""
    return times(leaf.quantity, number_words(register, leaf.key)) + ("" if quiet else _supply(register, leaf))


def _supply(register: Register, leaf: Leaf) -> str:
    return f" ({supply_words(register, leaf)})"


def supply_words(register: Register, leaf: Leaf) -> str:
    """What ordering a number comes to; of one that is sold only in sets, in which."""
    if leaf.supply is not Supply.IN_SET:
        return SUPPLIES[leaf.supply]
    sets = [number_words(register, key) for key in sets_of(register, leaf.key)]
    return f"sold only in the set {listed(sets, 'or')}"


def number_words(register: Register, key: PartKey) -> str:
    """A number with its name, where it has one."""
    part = register.parts[key]
    return part_title(part) if key.sense else f"{part.number} {part.name}".strip()


def sets_words(register: Register, way: Alternative) -> str:
    """Which sets a way to order needs, what they hold and what is left over; empty where it needs none."""
    if not way.sets:
        return ""
    return stopped(f"Order {'; or '.join(_all_sets(register, sets) for sets in way.sets)}")


def _all_sets(register: Register, sets: Sequence[SetOrder]) -> str:
    return ", and ".join(set_words(register, one) for one in sets)


def set_words(register: Register, one: SetOrder) -> str:
    """So many of a set: `the set WH-2270 (still supplied) for WH-1181: it holds …; left over: nothing`."""
    need = one.needed
    covers = listed([number_words(register, key) for key in need.covers])
    named = times(need.quantity, f"the set {number_words(register, need.key)}")
    if not need.holds:
        return (
            f"{named}{_today(register, one)} for {covers}: what it holds is not recorded, nor how many to get"
        )
    holds = listed([counted(n, number_words(register, key)) for key, n in need.holds])
    left = listed([counted(n, number_words(register, key)) for key, n in need.left]) or "nothing"
    each = "each holds" if need.quantity > 1 else "it holds"
    return f"{named}{_today(register, one)} for {covers}: {each} {holds}; left over: {left}"


def _today(register: Register, one: SetOrder) -> str:
    """What ordering the set comes to, and what is ordered for it where it was itself replaced."""
    own = len(one.today) == 1 and [leaf.key for leaf in one.today[0]] == [one.needed.key]
    if own:
        return _supply(register, one.today[0][0])
    ways = "; or ".join(listed([leaf_words(register, leaf) for leaf in way]) for way in one.today)
    return f" (itself replaced: order {ways})" if ways else ""
