"""A number of an order, what ordering it comes to, and the sets in which some are sold."""

from __future__ import annotations

from collections.abc import Sequence
from functools import reduce

from spanbook.answers.orders import Alternative, Leaf, SetOrder, Supply
from spanbook.answers.sets import sets_of
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.part_numbers import PartKey
from spanbook.register.model import Register
from spanbook.wording.grammar import chained, counted, listed, stopped, times
from spanbook.wording.numbers import UNCLEAR, part_title

SUPPLIES = {
    Supply.SUPPLIED: marked("still supplied"),
    Supply.GIVEN_UP: marked("no longer supplied"),
    Supply.UNKNOWN: marked("supply not known"),
    Supply.CIRCLE: marked("or what replaces it: its acts lead back to it"),
    Supply.NEEDS_CIRCLE: marked("part of a circle of needs"),
    Supply.TOO_MANY: marked("or what replaces it: too many acts to follow"),
    Supply.IN_SET: marked("sold only in a set"),
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
        return _(SUPPLIES[leaf.supply])
    sets = [number_words(register, key) for key in sets_of(register, leaf.key)]
    return _("sold only in the set {number}").format(number=listed(sets, "or"))


def number_words(register: Register, key: PartKey) -> str:
    """A number with its name, where it has one."""
    part = register.parts[key]
    return part_title(part) if key.sense else f"{part.number} {part.name}".strip()


def sets_words(register: Register, way: Alternative) -> str:
    """Which sets a way to order needs, what they hold and what is left over; empty where it needs none."""
    if not way.sets:
        return ""
    sets = chained([_all_sets(register, sets) for sets in way.sets], "or")
    return stopped(_("Order {}").format(sets))


def _all_sets(register: Register, sets: Sequence[SetOrder]) -> str:
    told = [set_words(register, one) for one in sets]
    return reduce(lambda first, last: _("{first}, and {last}").format(first=first, last=last), told)


def set_words(register: Register, one: SetOrder) -> str:
    """So many of a set: `the set WH-2270 (still supplied) for WH-1181: it holds …; left over: nothing`."""
    need = one.needed
    covers = listed([number_words(register, key) for key in need.covers])
    named = times(need.quantity, _("the set {}").format(number_words(register, need.key)))
    sets = f"{named}{_today(register, one)}"
    if not need.holds:
        told = _("{sets} for {parts}: what it holds is not recorded, nor how many to get")
        return told.format(sets=sets, parts=covers)
    holds = listed([counted(n, number_words(register, key)) for key, n in need.holds])
    left = listed([counted(n, number_words(register, key)) for key, n in need.left]) or _("nothing")
    told = (
        _("{sets} for {parts}: each holds {held}; left over: {left}")
        if need.quantity > 1
        else _("{sets} for {parts}: it holds {held}; left over: {left}")
    )
    return told.format(sets=sets, parts=covers, held=holds, left=left)


def _today(register: Register, one: SetOrder) -> str:
    """What ordering the set comes to, and what is ordered for it where it was itself replaced."""
    own = len(one.today) == 1 and [leaf.key for leaf in one.today[0]] == [one.needed.key]
    if own:
        return _supply(register, one.today[0][0])
    ways = chained([listed([leaf_words(register, leaf) for leaf in way]) for way in one.today], "or")
    return f" ({_('itself replaced: order {}').format(ways)})" if ways else ""
