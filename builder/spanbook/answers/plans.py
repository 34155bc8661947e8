"""How to get from what is on a machine to what is wanted on it, by way of conversions; or why not."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum

from spanbook.answers.conversions import Holds, Step, Steps, difference
from spanbook.answers.plan_search import GaveUpError, Search, Way, reachable
from spanbook.answers.readings import Reading
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Conversion, PositionNeed
from spanbook.register.model import Register


@dataclass(frozen=True, slots=True)
class Plan:
    """The steps in order, and how many new parts they take in all.

    `advised` are needs that are only advice and that the plan ends without. `others` are the other plans of
    as few parts and steps, each by different conversions; with `more` there may be some that are not listed.
    """

    steps: tuple[Step, ...]
    new_parts: int
    advised: tuple[tuple[Conversion, PositionNeed], ...] = ()
    others: tuple[Plan, ...] = ()
    more: bool = False


class Why(StrEnum):
    """none-recorded: no conversion leads there. unmet-need: one does, and what it needs elsewhere cannot be
    had. need-broken: the way would end with a need of its own broken. not-together: each need can be met, and
    not all of them in any order. gave-up: too many states to tell."""

    NONE = "none-recorded"
    UNMET = "unmet-need"
    BROKEN = "need-broken"
    NOT_TOGETHER = "not-together"
    GAVE_UP = "gave-up"


@dataclass(frozen=True, slots=True)
class NoPlan:
    """Why there is no way to what is wanted at a position.

    `need` is the one in the way with the conversion that has it, `unknown` a position of which nobody knows
    what it holds where that is in the way, `states` how many were looked at. `missing` are the parts that
    would have to be found where no conversion does it, `other_years` those that do it and were not offered in
    the year asked of.
    """

    position: str
    wanted: str
    why: Why
    need: tuple[Conversion, PositionNeed] | None = None
    unknown: str | None = None
    states: int = 0
    missing: tuple[tuple[PartKey, int], ...] = ()
    other_years: tuple[Conversion, ...] = ()

    @property
    def proven(self) -> bool:
        """Whether it is sure that none is recorded."""
        return self.why is not Why.GAVE_UP


def convert(
    register: Register, reading: Reading, holds: Holds, wanted: Holds, year: int | None = None
) -> Plan | NoPlan:
    """The steps from what a machine holds to what is wanted, of the fewest new parts; in a year when one is
    given, by what was offered then.

    Of two ways with as many parts the one of fewer steps, then the first by the conversions' ids; the others
    that are as cheap stand beside it.
    """
    search = Search(Steps(register, reading, year), holds, wanted)
    try:
        found = search.ways()
    except GaveUpError:
        return _out_of_reach(search) or NoPlan(*_not_yet(search), Why.GAVE_UP, states=search.states)
    if not found.each:
        none = _out_of_reach(search) or _not_together(search)
        return replace(none, other_years=search.steps.other_years(none.wanted))
    first, *others = (_plan(holds, way) for way in found.each)
    return Plan(first.steps, first.new_parts, first.advised, tuple(others), found.more)


def _plan(holds: Holds, way: Way) -> Plan:
    advice = [(step, need) for step in way for need in step.conversion.needs if need.advice]
    return Plan(way, sum(step.parts for step in way), tuple(dict.fromkeys(_broken(holds, way, advice))))


def _broken(
    holds: Holds, way: Way, needs: Iterable[tuple[Step, PositionNeed]]
) -> Iterator[tuple[Conversion, PositionNeed]]:
    """Of some needs of the steps of a way those that are broken when it ends with what the step made."""
    last = {step.conversion.position: step.conversion for step in way}
    for step, need in needs:
        ends_with = last[need.position].to if need.position in last else holds.get(need.position)
        if last[step.conversion.position] is step.conversion and ends_with not in need.assemblies:
            yield step.conversion, need


def _not_yet(search: Search) -> tuple[str, str]:
    """The first position that does not hold what is wanted there."""
    return min((position, to) for position, to in search.wanted.items() if search.holds.get(position) != to)


def _out_of_reach(search: Search) -> NoPlan | None:
    """What is wanted and out of reach, whatever else were done: the first need in the way, if one is."""
    reached = reachable(search)
    for position, to in sorted(search.wanted.items()):
        if position in reached and to not in reached[position]:
            return _in_the_way(search, reached, position, to)
    return None


def _in_the_way(search: Search, reached: Mapping[str, set[str]], position: str, wanted: str) -> NoPlan:
    register, held = search.steps.register, search.holds.get(position)
    before = register.assemblies.get(held) if held else None
    missing = difference(register, before, register.assemblies[wanted], search.steps.reading).added
    if held is None:
        return NoPlan(position, wanted, Why.NONE, unknown=position, missing=missing)
    leading = search.leading(position)
    begun = {step.id: step for at in reached[position] for step in leading.get(at, ())}
    for step in sorted(begun.values(), key=lambda step: (step.conversion.to != wanted, step.id)):
        for need in step.needs:
            if reached[need.position].isdisjoint(need.assemblies):
                unknown = None if need.position in search.holds else need.position
                return NoPlan(position, wanted, Why.UNMET, (step.conversion, need), unknown, missing=missing)
    return NoPlan(position, wanted, Why.NONE, missing=missing)


def _not_together(search: Search) -> NoPlan:
    """What would be broken at the end, where there is a way but for that."""
    careless = Search(search.steps, search.holds, search.wanted, keep=False)
    try:
        found = careless.ways().each
    except GaveUpError:
        found = ()
    for way in found:
        needs = ((step, need) for step in way for need in step.needs)
        for conversion, need in _broken(search.holds, way, needs):
            return NoPlan(conversion.position, conversion.to, Why.BROKEN, (conversion, need))
    return NoPlan(*_not_yet(search), Why.NOT_TOGETHER, states=search.states)
