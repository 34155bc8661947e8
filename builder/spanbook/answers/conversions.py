"""How to get from what is on a machine to what is wanted on it, by way of conversions.

A state says what each position holds. A conversion is a step from a state in which its position holds one
of its `from` and every need elsewhere is met to one in which it holds its `to`. Steps are neither
symmetric nor free: a way back exists only where a conversion says so.
"""

from __future__ import annotations

import heapq
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import count

from spanbook.answers.applicability import Fits, Reading, State
from spanbook.answers.bounds import reach_of
from spanbook.ground.intervals import Covers
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Assembly, Conversion, PositionNeed
from spanbook.register.model import Register

Holds = Mapping[str, str]  # the position's full name to the assembly's id; what is not known is left out
MOST_STATES = 20_000


@dataclass(frozen=True, slots=True)
class Step:
    """One conversion on the way; `maybe` when the machine is only possibly among those that may take it."""

    conversion: Conversion
    maybe: bool


@dataclass(frozen=True, slots=True)
class Plan:
    """The steps in order, and how many new parts they take in all."""

    steps: tuple[Step, ...]
    new_parts: int


@dataclass(frozen=True, slots=True)
class NoPlan:
    """Why there is no way: a need that cannot be met (with the conversion that has it), or that no
    conversion leads to the wanted assembly, with the parts that would have to be found."""

    position: str
    wanted: str
    unmet: tuple[Conversion, PositionNeed] | None
    missing: tuple[tuple[PartKey, int], ...]


@dataclass(frozen=True, slots=True)
class Difference:
    """The parts of two assemblies: what is added, taken off and kept on the way from one to the other."""

    added: tuple[tuple[PartKey, int], ...]
    removed: tuple[tuple[PartKey, int], ...]
    kept: tuple[tuple[PartKey, int], ...]


def applying(register: Register, reading: Reading) -> tuple[Step, ...]:
    """The conversions that a machine may take, by its number, in the order of their ids."""
    found = ((c, _covers(c, reading)) for c in register.conversions.values())
    return tuple(Step(c, covers is Covers.MAYBE) for c, covers in found if covers is not Covers.NO)


def _covers(conversion: Conversion, reading: Reading) -> Covers:
    spans = (span for span in conversion.serials if span.series == reading.series.id)
    found = {reach_of(span, reading.series).covers(reading.number) for span in spans}
    return next((c for c in (Covers.YES, Covers.MAYBE) if c in found), Covers.NO)


def chain(steps: Iterable[Step], start: Iterable[str], goal: str) -> tuple[Step, ...]:
    """The fewest steps that lead from one of some assemblies to another, whatever they need elsewhere.

    None where no steps do, and where the goal is among those to start from.
    """
    steps = tuple(steps)
    ways: dict[str, tuple[Step, ...]] = dict.fromkeys(start, ())
    waiting = list(ways)
    for at in waiting:
        for step in steps:
            to = step.conversion.to
            if at in step.conversion.start and to not in ways:
                ways[to] = (*ways[at], step)
                waiting.append(to)
    return ways.get(goal, ())


def convert(register: Register, reading: Reading, holds: Holds, wanted: Holds) -> Plan | NoPlan:
    """The steps from what a machine holds to what is wanted, of the fewest new parts.

    Of two ways with as many parts the one of fewer steps, then the first by the conversions' ids.
    """
    steps = applying(register, reading)
    found = _cheapest(steps, holds, wanted)
    return found if found else _why_not(register, steps, holds, wanted)


def _cheapest(steps: tuple[Step, ...], holds: Holds, wanted: Holds) -> Plan | None:
    """Uniform-cost search; the costs of a way are (parts, steps, the ids in order)."""
    ticket = count()
    start = frozenset(holds.items())
    waiting: list[tuple[tuple[int, int, tuple[str, ...]], int, frozenset[tuple[str, str]], tuple[Step, ...]]]
    waiting = [((0, 0, ()), next(ticket), start, ())]
    done: set[frozenset[tuple[str, str]]] = set()
    while waiting and len(done) < MOST_STATES:
        cost, _, state, way = heapq.heappop(waiting)
        if state in done:
            continue
        done.add(state)
        held = dict(state)
        if all(held.get(position) == assembly for position, assembly in wanted.items()):
            return Plan(way, cost[0])
        for step in steps:
            if _possible(step.conversion, held):
                parts = sum(use.quantity for use in step.conversion.adds)
                after = frozenset({**held, step.conversion.position: step.conversion.to}.items())
                further = (cost[0] + parts, cost[1] + 1, (*cost[2], step.conversion.id))
                heapq.heappush(waiting, (further, next(ticket), after, (*way, step)))
    return None


def _possible(conversion: Conversion, held: Holds) -> bool:
    return (
        held.get(conversion.position) in conversion.start
        and conversion.to != held.get(conversion.position)
        and all(held.get(need.position) in need.assemblies for need in conversion.needs)
    )


def _why_not(register: Register, steps: tuple[Step, ...], holds: Holds, wanted: Holds) -> NoPlan:
    """The first wanted position that cannot be had, and the first need in the way of it."""
    for position, assembly in sorted(wanted.items()):
        if holds.get(position) == assembly or _cheapest(steps, holds, {position: assembly}):
            continue
        unmet = next(iter(_unmet(steps, holds, position, assembly)), None)
        return NoPlan(position, assembly, unmet, _missing(register, holds.get(position), assembly))
    position, assembly = min(wanted.items())
    return NoPlan(position, assembly, None, _missing(register, holds.get(position), assembly))


def _unmet(
    steps: tuple[Step, ...], holds: Holds, position: str, assembly: str
) -> Iterator[tuple[Conversion, PositionNeed]]:
    for step in steps:
        conversion = step.conversion
        if (conversion.position, conversion.to) == (position, assembly):
            for need in conversion.needs:
                met = holds.get(need.position) in need.assemblies or any(
                    _cheapest(steps, holds, {need.position: one}) for one in need.assemblies
                )
                if not met:
                    yield conversion, need


def _missing(register: Register, held: str | None, wanted: str) -> tuple[tuple[PartKey, int], ...]:
    before = register.assemblies.get(held) if held else None
    return difference(register, before, register.assemblies[wanted]).added


def difference(register: Register, before: Assembly | None, after: Assembly) -> Difference:
    """The parts lists of two assemblies side by side; without a first, everything is added."""
    old = Counter[PartKey]()
    new = Counter[PartKey]()
    for assembly, counts in ((before, old), (after, new)):
        for use in assembly.parts if assembly else ():
            counts[register.key_of(assembly or after, use)] += use.quantity
    return Difference(_listed(new - old), _listed(old - new), _listed(old & new))


def _listed(counts: Counter[PartKey]) -> tuple[tuple[PartKey, int], ...]:
    return tuple(sorted(counts.items()))


def as_it_left_the_works(fits: Fits, reading: Reading) -> Holds:
    """What the machine surely left the works with: what is settled, and of a choice its one standard."""
    held: dict[str, str] = {}
    for place in fits.card(reading).positions:
        standards = {fit.assembly.id for fit in place.segment.fits if not fit.span.option}
        if place.state in (State.SETTLED, State.CHOICE) and len(standards) == 1:
            held[place.position] = standards.pop()
    return held


def as_late_as_it_can_be(register: Register, reading: Reading, holds: Holds) -> Holds:
    """The state after every conversion that can be done has been, the later in year first.

    Each position is converted at most once to each assembly, so it ends; a conversion without a year
    counts as the earliest.
    """
    steps = sorted(applying(register, reading), key=lambda s: (-(s.conversion.year or 0), s.conversion.id))
    held = dict(holds)
    been = set(held.items())
    while True:
        for step in steps:
            target = (step.conversion.position, step.conversion.to)
            forward = target not in been and not _goes_back(step, steps)
            if forward and _possible(step.conversion, held):
                held[target[0]] = target[1]
                been.add(target)
                break
        else:
            return held


def _goes_back(step: Step, steps: list[Step]) -> bool:
    """Whether a conversion only undoes another: to be late is not to be restored."""
    back = step.conversion
    return any(
        other.conversion.to in back.start and back.to in other.conversion.start
        for other in steps
        if other is not step and (other.conversion.year or 0) <= (back.year or 0)
    )
