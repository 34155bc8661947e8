"""How to get from what is on a machine to what is wanted on it, by way of conversions; or why not."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum

from spanbook.answers.conversions import difference
from spanbook.answers.plan_costs import distances
from spanbook.answers.plan_reach import reachable
from spanbook.answers.plan_search import GaveUpError, Search
from spanbook.answers.plan_ways import Way
from spanbook.answers.readings import Reading
from spanbook.answers.steps import Holds, Missing, Step, Steps, effects, missing_after, there
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Conversion, PositionNeed
from spanbook.register.model import Register


@dataclass(frozen=True, slots=True)
class Plan:
    """The steps in order, and how many new parts they take in all.

    `advised` are needs that are only advice and that the plan ends without. `others` are the other plans of
    as few parts and steps, each by different conversions; with `more` there may be some that are not listed.
    `left` are the parts that positions end without, since a step used them elsewhere. `back` is the way from
    there to what the machine held before, as far as that was known and with what is `left` put back; None
    where nothing changes that was known, and of `others`.
    """

    steps: tuple[Step, ...]
    new_parts: int
    advised: tuple[tuple[Conversion, PositionNeed], ...] = ()
    others: tuple[Plan, ...] = ()
    more: bool = False
    left: tuple[tuple[str, PartKey, int], ...] = ()
    back: Plan | NoPlan | None = None


class Why(StrEnum):
    """none-recorded: no conversion leads there. unmet-need: one does, and what it needs elsewhere cannot be
    had. need-broken: the way would end with a need of its own broken. not-together: each need can be met, and
    not all of them in any order. gave-up: too many states to tell. no-place: what is around the position has
    none for it, and nothing recorded brings one."""

    NONE = "none-recorded"
    UNMET = "unmet-need"
    BROKEN = "need-broken"
    NOT_TOGETHER = "not-together"
    GAVE_UP = "gave-up"
    NO_PLACE = "no-place"


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
    found = _convert(register, reading, holds, wanted, year)
    if isinstance(found, NoPlan):
        return found
    held = _end(register, holds, found.steps).holds
    now = {position: assembly for position, assembly in held.items() if assembly is not None}
    before = {position: assembly for position, assembly in holds.items() if now.get(position) != assembly}
    return replace(found, back=_convert(register, reading, now, before, year)) if before else found


def _convert(
    register: Register, reading: Reading, holds: Holds, wanted: Holds, year: int | None
) -> Plan | NoPlan:
    search = Search(Steps(register, reading, year), holds, wanted)
    try:
        found = search.ways()
    except GaveUpError:
        return _out_of_reach(search) or NoPlan(*_not_yet(search), Why.GAVE_UP, states=search.states)
    if not found.each:
        none = _out_of_reach(search) or _not_together(search)
        return replace(none, other_years=search.steps.other_years(none.wanted))
    first, *others = (_plan(register, holds, way) for way in found.each)
    return replace(first, others=tuple(others), more=found.more)


def _plan(register: Register, holds: Holds, way: Way) -> Plan:
    advice = [(step, need) for step in way for need in step.conversion.needs if need.advice]
    advised = dict.fromkeys(_broken(register, holds, way, advice))
    return Plan(way, sum(step.parts for step in way), tuple(advised), left=_left(register, holds, way))


@dataclass(frozen=True, slots=True)
class _End:
    """How a way ends: what each position holds, the last step there, and what is missing of it."""

    holds: Mapping[str, str | None]
    last: Mapping[str, Step]
    missing: Mapping[str, Missing]

    def whole(self, need: PositionNeed) -> bool:
        held = self.holds.get(need.position) in need.assemblies
        return held and not self.missing.get(need.position)


def _end(register: Register, holds: Holds, way: Way) -> _End:
    held: dict[str, str | None] = dict(holds)
    last: dict[str, Step] = {}
    missing: dict[str, Missing] = {}
    for step in way:
        for at in {one.position for one in step.taking if one.position not in step.at}:
            missing[at] = missing_after(register, step, at, missing.get(at, frozenset()))
        for position, to in effects(register, held.get, step).items():
            held[position] = to
            last.pop(position, None)
            missing[position] = missing_after(register, step, position, missing.get(position, frozenset()))
            if to is None:
                missing[position] = frozenset()
            else:
                last[position] = step
    return _End(held, last, missing)


def _left(register: Register, holds: Holds, way: Way) -> tuple[tuple[str, PartKey, int], ...]:
    """The parts that positions end without: each is taken off once, until what lacks it is gone."""
    taken = {(one.position, one.part): one.quantity for step in way for one in step.taking}
    missing = _end(register, holds, way).missing
    return tuple((at, key, taken[at, key]) for at in sorted(missing) for key in sorted(missing[at]))


def _broken(
    register: Register, holds: Holds, way: Way, needs: Iterable[tuple[Step, PositionNeed]]
) -> Iterator[tuple[Conversion, PositionNeed]]:
    """Of some needs of the steps of a way those that are broken when it ends with what the step made."""
    end = _end(register, holds, way)
    for step, need in needs:
        stays = any(end.last.get(change.position) is step for change in step.changes)
        if stays and not end.whole(need):
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


def _in_the_way(search: Search, reached: Mapping[str, set[str | None]], position: str, wanted: str) -> NoPlan:
    register, held = search.steps.register, search.holds.get(position)
    before = register.assemblies.get(held) if held else None
    to = register.assemblies.get(wanted)  # none where the way back leads to what no record has
    missing = difference(register, before, to, search.steps.reading).added if to else ()
    leading = search.leading(position)
    near = distances(leading, position, wanted)
    begun = {
        step.id: step
        for at in reached[position]
        for step in leading.get(at, ())
        if step.at[position].to in near  # what leads elsewhere is not in the way
    }
    if held is None and there(register, search.holds.get, position) is False and not begun:
        return NoPlan(position, wanted, Why.NO_PLACE, missing=missing)
    if held is None and not begun:
        return NoPlan(position, wanted, Why.NONE, unknown=position, missing=missing)
    for step in sorted(begun.values(), key=lambda step: (step.at[position].to != wanted, step.id)):
        for need in (*step.needs, *_takings(step)):
            if reached[need.position].isdisjoint(need.assemblies):
                unknown = None if need.position in search.holds else need.position
                return NoPlan(position, wanted, Why.UNMET, (step.conversion, need), unknown, missing=missing)
    return NoPlan(position, wanted, Why.NONE, missing=missing)


def _takings(step: Step) -> Iterator[PositionNeed]:
    """What has to be where a step takes parts off, as a need."""
    for one in step.taking:
        yield PositionNeed(one.position, one.assemblies, "", advice=False)


def _not_together(search: Search) -> NoPlan:
    """What would be broken at the end, where there is a way but for that."""
    careless = Search(search.steps, search.holds, search.wanted, keep=False)
    try:
        found = careless.ways().each
    except GaveUpError:
        found = ()
    for way in found:
        needs = ((step, need) for step in way for need in step.needs)
        for conversion, need in _broken(search.steps.register, search.holds, way, needs):
            return NoPlan(conversion.position, conversion.to, Why.BROKEN, (conversion, need))
    return NoPlan(*_not_yet(search), Why.NOT_TOGETHER, states=search.states)
