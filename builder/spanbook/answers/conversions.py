"""Conversions: the steps open to one machine, what they change in parts, and the ready-made goals.

A state says what each position holds. A conversion is a step from a state in which its position holds one
of its `from` and every need elsewhere is met to one in which it holds its `to`. Steps are neither
symmetric nor free: a way back exists only where a conversion says so. `plans` finds the way.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from spanbook.answers.applicability import Fits, State
from spanbook.answers.condition import covered_by
from spanbook.answers.lines import Lists
from spanbook.answers.offered import earliest, offered
from spanbook.answers.readings import Reading
from spanbook.ground.intervals import Covers
from spanbook.ground.memo import Memo
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Assembly, Conversion, ListedPart, PositionNeed
from spanbook.register.model import Register

Holds = Mapping[str, str]  # the position's full name to the assembly's id; what is not known is left out


@dataclass(frozen=True, slots=True)
class Step:
    """One conversion on the way; `maybe` when the machine is only possibly among those that may take it,
    `perhaps` when it is not known whether it was offered in the year asked of."""

    conversion: Conversion
    maybe: bool
    perhaps: bool = False

    @property
    def id(self) -> str:
        return self.conversion.id

    @property
    def parts(self) -> int:
        """How many new parts it takes."""
        return sum(use.quantity for use in self.conversion.adds)

    @property
    def needs(self) -> tuple[PositionNeed, ...]:
        """What it cannot do without; what is only advised is no need."""
        return tuple(need for need in self.conversion.needs if not need.advice)


@dataclass(frozen=True, slots=True)
class Difference:
    """The parts of two assemblies: what is added, taken off and kept on the way from one to the other."""

    added: tuple[tuple[PartKey, int], ...]
    removed: tuple[tuple[PartKey, int], ...]
    kept: tuple[tuple[PartKey, int], ...]


def applying(register: Register, reading: Reading) -> tuple[Step, ...]:
    """The conversions that a machine may take, by its number, in the order of their ids."""
    return _steps(register.conversions.values(), reading)


def _steps(conversions: Iterable[Conversion], reading: Reading, year: int | None = None) -> tuple[Step, ...]:
    found = ((c, covered_by(c.serials, reading), _offered_in(c, year)) for c in conversions)
    return tuple(
        Step(c, covers is Covers.MAYBE, then is Covers.MAYBE)
        for c, covers, then in found
        if Covers.NO not in (covers, then)
    )


def _offered_in(conversion: Conversion, year: int | None) -> Covers:
    return Covers.YES if year is None else offered(conversion).in_year(year)


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


class Steps:
    """The steps open to one machine, in a year when one is given, each looked at only when something asks for
    where it begins."""

    def __init__(self, register: Register, reading: Reading, year: int | None = None) -> None:
        self.register = register
        self.reading = reading
        self.year = year
        self.leading_from = Memo(self._leading_from)
        self.beyond = Memo(self._beyond)

    def _leading_from(self, assembly: str) -> tuple[Step, ...]:
        """The steps that turn an assembly into another, in the order of their ids."""
        begun = self.register.conversions_from.get(assembly, ())
        return _steps((c for c in begun if c.to != assembly), self.reading, self.year)

    def other_years(self, assembly: str) -> tuple[Conversion, ...]:
        """The conversions to an assembly that the machine may take, and that were not offered in the year."""
        found = (c for c in self.register.conversions.values() if c.to == assembly)
        return tuple(
            c
            for c in found
            if _offered_in(c, self.year) is Covers.NO and covered_by(c.serials, self.reading) is not Covers.NO
        )

    def _beyond(self, assembly: str) -> Mapping[str, tuple[Step, ...]]:
        """Everything that an assembly may become, it itself first, with the steps from each; needs aside."""
        found: dict[str, tuple[Step, ...]] = {}
        waiting = [assembly]
        for at in waiting:
            if at not in found:
                found[at] = self.leading_from(at)
                waiting += [step.conversion.to for step in found[at]]
        return found


def difference(
    register: Register, before: Assembly | None, after: Assembly, machine: Reading | None = None
) -> Difference:
    """The parts lists of two assemblies side by side, as on one machine or whole; without a first, everything
    is added.

    A line that either serves on both sides is kept, whichever of its numbers the two have first.
    """
    lists = Lists(register)

    def parts(assembly: Assembly) -> Iterable[ListedPart]:
        if machine is None:
            return assembly.parts
        return (one.line.part for held in lists.on(assembly, machine) for one in held.lines)

    there = parts(before) if before else ()
    old = Counter[PartKey]()
    known: dict[PartKey, PartKey] = {}
    for line in there:
        keys = [register.key_of(before or after, said) for said in line.numbers]
        old[keys[0]] += line.quantity
        for key in keys:
            known.setdefault(key, keys[0])
    new = Counter[PartKey]()
    for line in parts(after):
        keys = [register.key_of(after, said) for said in line.numbers]
        new[next((known[key] for key in keys if key in known), keys[0])] += line.quantity
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


def as_late_as_it_can_be(
    register: Register, reading: Reading, holds: Holds, year: int | None = None
) -> Holds:
    """The state after every conversion that can be done has been, the later in year first.

    None is done that would break a need of one done before. Each position is converted at most once to each
    assembly, so it ends; a conversion without a year counts as the earliest.
    """
    steps = Steps(register, reading, year)
    held = dict(holds)
    been = set(held.items())
    kept: dict[str, dict[str, frozenset[str]]] = {}  # what a position may hold, by the positions that need it

    def is_open(step: Step) -> bool:
        at, to = step.conversion.position, step.conversion.to
        met = all(held.get(need.position) in need.assemblies for need in step.needs)
        spared = all(to in allowed for by, allowed in kept.get(at, {}).items() if by != at)
        return met and spared and (at, to) not in been and not _goes_back(step, steps)

    while True:
        leading = (step for assembly in held.values() for step in steps.leading_from(assembly))
        step = min(filter(is_open, leading), key=_lateness, default=None)
        if step is None:
            return held
        at, to = step.conversion.position, step.conversion.to
        held[at] = to
        been.add((at, to))
        for needers in kept.values():
            needers.pop(at, None)
        for need in step.needs:
            kept.setdefault(need.position, {})[at] = frozenset(need.assemblies)


def _lateness(step: Step) -> tuple[int, str]:
    return -earliest(step.conversion), step.id


def _goes_back(step: Step, steps: Steps) -> bool:
    return undoes(step.conversion, (other.conversion for other in steps.leading_from(step.conversion.to)))


def undoes(back: Conversion, others: Iterable[Conversion]) -> bool:
    """Whether a conversion only undoes another: to be late is not to be restored."""
    return any(
        other.to in back.start and back.to in other.start and earliest(other) <= earliest(back)
        for other in others
        if other is not back
    )
