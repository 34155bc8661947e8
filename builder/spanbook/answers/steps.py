"""The steps open to one machine: each a conversion, and what it makes of what positions hold.

A conversion is a step from a state in which its position holds one of its `from`, the others that it changes
likewise, and every need elsewhere is met, to one in which each holds its `to`. What is inside an assembly
goes with it: it stays where the new one has the same place and is gone where that has none; what is in a
place that comes into being nobody knows, unless the conversion says so. Steps are neither symmetric nor free:
a way back exists only where a conversion says so. `plans` finds the way.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass

from spanbook.answers.condition import covered_by
from spanbook.answers.offered import offered
from spanbook.answers.readings import Reading
from spanbook.ground.intervals import Covers
from spanbook.ground.memo import Memo, kept
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Assembly, Change, Conversion, PositionNeed
from spanbook.register.model import Register

Missing = frozenset[PartKey]
Holds = Mapping[str, str]  # the position's full name to the assembly's id; what is not known is left out


Get = Callable[[str], str | None]  # what a position holds; None for what is not known, or has no place


@dataclass(frozen=True, slots=True)
class Taking:
    """A part that a step takes off what a position holds, which is one of these assemblies."""

    position: str
    part: PartKey
    quantity: int
    assemblies: tuple[str, ...]


@dataclass(frozen=True)
class Step:
    """One conversion on the way; `maybe` when the machine is only possibly among those that may take it,
    `perhaps` when it is not known whether it was offered in the year asked of.

    `inside` is what must be around the places that it changes, `taking` what it takes off elsewhere.
    """

    conversion: Conversion
    maybe: bool
    perhaps: bool = False
    inside: tuple[PositionNeed, ...] = ()
    taking: tuple[Taking, ...] = ()

    @property
    def id(self) -> str:
        return self.conversion.id

    @kept
    def parts(self) -> int:
        """How many new parts it takes."""
        return sum(use.quantity for use in self.conversion.adds)

    @kept
    def needs(self) -> tuple[PositionNeed, ...]:
        """What it cannot do without; what is only advised is no need."""
        return (*(need for need in self.conversion.needs if not need.advice), *self.inside)

    @kept
    def asks(self) -> tuple[PositionNeed | Taking, ...]:
        """What other positions must hold when it is begun."""
        return (*self.needs, *self.taking)

    @kept
    def changes(self) -> tuple[Change, ...]:
        return self.conversion.changes

    @kept
    def at(self) -> Mapping[str, Change]:
        """What it makes of each position that it changes."""
        return {change.position: change for change in self.changes}

    @kept
    def touches(self) -> frozenset[str]:
        """The positions that it changes or takes parts off."""
        return frozenset((*self.at, *(one.position for one in self.taking)))


def of_conversions(
    register: Register, conversions: Iterable[Conversion], reading: Reading, year: int | None = None
) -> tuple[Step, ...]:
    """Of some conversions those that a machine may take, in a year when one is given."""
    found = ((c, covered_by(c.serials, reading), _offered_in(c, year)) for c in conversions)
    return tuple(
        step_of(register, c, maybe=covers is Covers.MAYBE, perhaps=then is Covers.MAYBE)
        for c, covers, then in found
        if Covers.NO not in (covers, then)
    )


def step_of(
    register: Register, conversion: Conversion, *, maybe: bool = False, perhaps: bool = False
) -> Step:
    """A conversion as a step, whatever machine takes it."""
    inside, taking = tuple(_inside(register, conversion)), tuple(_taking(register, conversion))
    return Step(conversion, maybe, perhaps, inside, taking)


def _offered_in(conversion: Conversion, year: int | None) -> Covers:
    return Covers.YES if year is None else offered(conversion).in_year(year)


def _inside(register: Register, conversion: Conversion) -> Iterator[PositionNeed]:
    """What must be around the places that a conversion changes, where it does not put it there itself."""
    for change in conversion.changes:
        position = register.positions.get(change.position)
        housing = position.housing if position else None
        if housing and conversion.change_at(housing.position) is None:
            yield PositionNeed(housing.position, housing.assemblies, "", advice=False)


def _taking(register: Register, conversion: Conversion) -> Iterator[Taking]:
    for taken in conversion.takes:
        key = register.key_of(conversion, taken.use)
        having = (
            assembly.id
            for assembly in register.at_position.get(taken.position, ())
            if how_many(register, assembly, key) >= taken.quantity
        )
        yield Taking(taken.position, key, taken.quantity, tuple(having))


def how_many(register: Register, assembly: Assembly, part: PartKey) -> int:
    """How many of a part an assembly has, by its list; a line that either number serves has either."""
    keys = (({register.key_of(assembly, said) for said in line.numbers}, line) for line in assembly.parts)
    return sum(line.quantity for mine, line in keys if part in mine)


def there(register: Register, get: Get, position: str) -> bool | None:
    """Whether a machine has a place, by what it holds around it; None where that is not known."""
    found = register.positions.get(position)
    if found is None or found.housing is None:
        return True
    outer, held = there(register, get, found.housing.position), get(found.housing.position)
    if outer and held is not None:
        return held in found.housing.assemblies
    return None if outer else outer


def effects(register: Register, get: Get, step: Step) -> Mapping[str, str | None]:
    """What each position that a step changes holds afterwards, and each inside of them that comes or goes."""
    after: dict[str, str | None] = {position: change.to for position, change in step.at.items()}

    def now(position: str) -> str | None:
        return after[position] if position in after else get(position)

    for position in step.at:
        for inner in register.inside.get(position, ()):
            if inner.path not in step.at and inner.holds:
                was, is_ = there(register, get, inner.path), there(register, now, inner.path)
                if was is not is_:
                    after[inner.path] = None
    return after


def missing_after(register: Register, step: Step, position: str, missing: Missing) -> Missing:
    """The parts that are missing at a position when a step is done: those taken off it, and of what is put
    there those that were missing before."""
    change = step.at.get(position)
    if change is None:
        return missing | {one.part for one in step.taking if one.position == position}
    if missing:
        held = register.assemblies[change.to]
        listed = {register.key_of(held, said) for line in held.parts for said in line.numbers}
        missing = (missing & listed) - {register.key_of(step.conversion, use) for use in step.conversion.adds}
    return missing


def chain(steps: Iterable[Step], start: Iterable[str], goal: str) -> tuple[Step, ...]:
    """The fewest steps that lead from one of some assemblies to another, whatever they need elsewhere.

    None where no steps do, and where the goal is among those to start from. What starts from whatever is
    there leads there from the outset.
    """
    changes = [(step, change) for step in steps for change in step.changes]
    at = {change.position for _, change in changes if change.to == goal}
    changes = [(step, change) for step, change in changes if change.position in at]
    ways: dict[str, tuple[Step, ...]] = dict.fromkeys(start, ())
    for step, change in changes:
        if not change.start:
            ways.setdefault(change.to, (step,))
    waiting = sorted(ways, key=lambda id_: len(ways[id_]))
    for held in waiting:
        for step, change in changes:
            if held in change.start and change.to not in ways:
                ways[change.to] = (*ways[held], step)
                waiting.append(change.to)
    return ways.get(goal, ())


class Steps:
    """The steps open to one machine, in a year when one is given, each looked at only when something asks for
    where it begins."""

    def __init__(self, register: Register, reading: Reading, year: int | None = None) -> None:
        self.register = register
        self.reading = reading
        self.year = year
        self.at = Memo(self._at)
        self.leading_from = Memo(self._leading_from)

    def _at(self, position: str) -> tuple[Step, ...]:
        """The steps that change a position, in the order of their ids."""
        here = self.register.conversions_at.get(position, ())
        return of_conversions(self.register, here, self.reading, self.year)

    def _leading_from(self, held: tuple[str, str | None]) -> tuple[Step, ...]:
        """The steps that turn what a position holds into another, in the order of their ids."""
        position, assembly = held
        return tuple(
            step
            for step in self.at(position)
            if step.at[position].to != assembly
            and (not step.at[position].start or assembly in step.at[position].start)
        )

    def other_years(self, assembly: str) -> tuple[Conversion, ...]:
        """The conversions to an assembly that the machine may take, and that were not offered in the year."""
        return tuple(
            c
            for c in self.register.conversions_to.get(assembly, ())
            if _offered_in(c, self.year) is Covers.NO and covered_by(c.serials, self.reading) is not Covers.NO
        )

    def beyond(self, position: str, held: Iterable[str | None]) -> Mapping[str | None, tuple[Step, ...]]:
        """Everything that a position may come to hold, what it holds first, with the steps from each; needs
        aside."""
        found: dict[str | None, tuple[Step, ...]] = {}
        waiting = list(held)
        for at in waiting:
            if at not in found:
                found[at] = self.leading_from((position, at))
                waiting += [step.at[position].to for step in found[at]]
        return found
