"""What conversions change in parts, and the ready-made goals: as it left the works, or as late as can be."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from spanbook.answers.applicability import AtPosition, Fits, State
from spanbook.answers.lines import Lists
from spanbook.answers.offered import earliest
from spanbook.answers.readings import Reading
from spanbook.answers.steps import Holds, Step, Steps, effects
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Assembly, Conversion, ListedPart
from spanbook.register.model import Register


@dataclass(frozen=True, slots=True)
class Difference:
    """The parts of two assemblies: what is added, taken off and kept on the way from one to the other."""

    added: tuple[tuple[PartKey, int], ...]
    removed: tuple[tuple[PartKey, int], ...]
    kept: tuple[tuple[PartKey, int], ...]


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
    told = ((place.position, surely_left_with(place)) for place in fits.card(reading).positions)
    return {position: assembly.id for position, assembly in told if assembly}


def surely_left_with(place: AtPosition) -> Assembly | None:
    """What one position surely had: what is settled, and of a choice its one standard."""
    if place.state not in (State.SETTLED, State.CHOICE):
        return None
    standards = {fit.assembly for fit in place.segment.fits if not fit.span.option}
    return standards.pop() if len(standards) == 1 else None


def as_late_as_it_can_be(
    register: Register, reading: Reading, holds: Holds, year: int | None = None
) -> Holds:
    """The state after every conversion that can be done has been, the later in year first.

    None is done that would break a need of one done before, or that takes parts off another position. Each
    position is converted at most once to each assembly, so it ends; a conversion without a year counts as the
    earliest.
    """
    steps = Steps(register, reading, year)
    held = dict(holds)
    been = set(held.items())
    kept: dict[str, dict[str, frozenset[str]]] = {}  # what a position may hold, by the positions that need it

    def is_open(step: Step) -> bool:
        begun = all(not one.start or held.get(one.position) in one.start for one in step.changes)
        met = all(held.get(need.position) in need.assemblies for need in step.needs)
        new = (step.conversion.position, step.conversion.to) not in been and not step.taking
        return begun and met and new and is_spared(step) and not _goes_back(step, steps)

    def is_spared(step: Step) -> bool:
        mine = {one.position for one in step.changes}
        return all(
            to in allowed
            for at, to in effects(register, held.get, step).items()
            for by, allowed in kept.get(at, {}).items()
            if by not in mine
        )

    while True:
        leading = (step for place in list(held.items()) for step in steps.leading_from(place))
        step = min(filter(is_open, leading), key=_lateness, default=None)
        if step is None:
            return held
        for at, to in effects(register, held.get, step).items():
            held.pop(at, None)
            for needers in kept.values():
                needers.pop(at, None)
            if to is not None:
                held[at] = to
        been.add((step.conversion.position, step.conversion.to))
        for need in step.needs:
            for one in step.changes:
                kept.setdefault(need.position, {})[one.position] = frozenset(need.assemblies)


def _lateness(step: Step) -> tuple[int, str]:
    return -earliest(step.conversion), step.id


def _goes_back(step: Step, steps: Steps) -> bool:
    place = step.conversion.position, step.conversion.to
    return undoes(step.conversion, (other.conversion for other in steps.leading_from(place)))


def undoes(back: Conversion, others: Iterable[Conversion]) -> bool:
    """Whether a conversion only undoes another: to be late is not to be restored."""
    return any(
        other.to in back.start and back.to in other.start and earliest(other) <= earliest(back)
        for other in others
        if other is not back
    )
