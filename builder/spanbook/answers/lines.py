"""Parts lists as they stand on one machine: which lines it has, and which follow one another in one place.

A line without serial numbers is on every machine that has the assembly. One with them is on those that its
spans cover: of several that are claims on one run surely where one says so and none says no, possibly where
any says so.

Lines of one name that are limited follow one another in one place, unless two of them are surely on one
number: then they are beside each other, and each has a place of its own. So an engine has the one lid or the
other, and where it is not known which, either.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from itertools import combinations

from spanbook.answers.bounds import reach_of
from spanbook.answers.claims import runs_of
from spanbook.answers.condition import NOWHERE, Machines
from spanbook.answers.readings import Reading
from spanbook.ground.intervals import Covers, Reach, SpanSet
from spanbook.ground.memo import Memo
from spanbook.ground.part_numbers import PartKey, hyphened
from spanbook.reading.records import Assembly, ListedPart, Series
from spanbook.register.model import Register
from spanbook.register.statements import Limit, Use


@dataclass(frozen=True, slots=True)
class Line:
    """A line of the list of an assembly, with the numbers on it; any one of `keys` will do."""

    assembly: Assembly
    part: ListedPart = field(hash=False)  # its numbers tell it apart
    keys: tuple[PartKey, ...]
    limits: tuple[Limit, ...]

    @property
    def limited(self) -> bool:
        return bool(self.part.serials)


@dataclass(frozen=True, slots=True)
class OnMachine:
    """A line that a machine surely or possibly has, if it has the assembly."""

    line: Line
    covers: Covers


@dataclass(frozen=True, slots=True)
class ListPlace:
    """One place in a list: a line, or several that follow one another, as they stand in the list."""

    lines: tuple[Line, ...]

    @property
    def limited(self) -> bool:
        return self.lines[0].limited

    @property
    def keys(self) -> tuple[PartKey, ...]:
        """Every number that it may be met by."""
        return tuple(dict.fromkeys(key for line in self.lines for key in line.keys))


@dataclass(frozen=True, slots=True)
class Held:
    """What one place of a list has on one machine: one line surely, or one of several."""

    place: ListPlace
    lines: tuple[OnMachine, ...]


class Lists:
    """The parts lists of one register: whatever is asked again is computed once."""

    def __init__(self, register: Register) -> None:
        self.register = register
        self.places = Memo(self._places)
        self.place_of = Memo(self._place_of)
        self.reach_of = Memo(self._reach_of)
        self._limited = Memo(self._limited_places)
        self._line_of = Memo(self._lines_by_limit)
        self.reach = Memo(self._reach)

    def _places(self, assembly: Assembly) -> tuple[ListPlace, ...]:
        """The places of an assembly's list, in its order."""
        groups: dict[object, list[Line]] = {}
        for at, line in enumerate(self._lines(assembly)):
            name = hyphened(line.part.name or "") if line.limited else at
            groups.setdefault(name, []).append(line)
        return tuple(ListPlace(lines) for group in groups.values() for lines in self._following(group))

    def _lines(self, assembly: Assembly) -> Iterator[Line]:
        limits = tuple(self.register.limits_of(assembly))
        for part in assembly.parts:
            keys = tuple(self.register.key_of(assembly, said) for said in part.numbers)
            yield Line(assembly, part, keys, tuple(one for one in limits if one.line is part))

    def _following(self, group: list[Line]) -> Iterator[tuple[Line, ...]]:
        series = {limit.series for line in group for limit in line.limits}
        beside = any(
            self.reach((one, run)).surely & self.reach((other, run)).surely
            for one, other in combinations(group, 2)
            for run in series
        )
        yield from [(line,) for line in group] if beside else [tuple(group)]

    def _reach(self, asked: tuple[Line, Series]) -> Reach:
        """The numbers of a series that a line is surely and possibly on, where they have the assembly."""
        line, series = asked
        if not line.limited:
            return Reach(series.issued, series.issued)
        found = NOWHERE
        for run in runs_of((one for one in line.limits if one.series is series), series):
            reaches = [self.reach_of(one) for one in run]
            surely = possibly = SpanSet()
            for reach in reaches:
                surely, possibly = surely | reach.surely, possibly | reach.possibly
            for reach in reaches:
                surely &= reach.possibly
            found = Reach(found.surely | surely, found.possibly | possibly)
        return found

    def _reach_of(self, limit: Limit) -> Reach:
        """What one span of a line covers."""
        return reach_of(limit.span, limit.series)

    def line_of(self, limit: Limit) -> Line:
        """The line that a span limits."""
        return self._line_of(limit.assembly)[limit]

    def _lines_by_limit(self, assembly: Assembly) -> Mapping[Limit, Line]:
        lines = (line for place in self.places(assembly) for line in place.lines)
        return {limit: line for line in lines for limit in line.limits}

    def line_with(self, use: Use) -> Line:
        """The line that has a number."""
        lines = (line for place in self.places(use.assembly) for line in place.lines)
        return next(line for line in lines if line.part is use.line)

    def claims(self, limit: Limit) -> tuple[Limit, ...]:
        """Every claim on the run that a span of a line speaks of, itself too, rising."""
        alike = (one for one in self.line_of(limit).limits if one.series is limit.series)
        return next(run for run in runs_of(alike, limit.series) if limit in run)

    def beside(self, line: Line) -> tuple[Line, ...]:
        """The other lines of its place."""
        place = next(place for place in self.places(line.assembly) if line in place.lines)
        return tuple(one for one in place.lines if one is not line)

    def machines(self, line: Line) -> Machines | None:
        """The machines that a line is limited to; None where it is not."""
        series = dict.fromkeys(limit.series for limit in line.limits)
        return Machines.of((one.id, self.reach((line, one))) for one in series) if line.limited else None

    def reaching(self, line: Line, machine: Reading) -> tuple[Limit, ...]:
        """The spans of a line that surely or possibly cover a machine."""
        mine = (one for one in line.limits if one.series is machine.series)
        return tuple(one for one in mine if self.reach_of(one).covers(machine.number) is not Covers.NO)

    def covers(self, line: Line, machine: Reading) -> Covers:
        """Whether a machine has a line, if it has the assembly."""
        return self.reach((line, machine.series)).covers(machine.number)

    def on(self, assembly: Assembly, machine: Reading) -> tuple[Held, ...]:
        """What the list of an assembly has on one machine, place by place; empty places are left out."""
        return tuple(self._held(self.places(assembly), machine))

    def by_number(self, assembly: Assembly, machine: Reading) -> tuple[Held, ...]:
        """Those of them that go by the number."""
        return tuple(self._held(self._limited(assembly), machine))

    def _limited_places(self, assembly: Assembly) -> tuple[ListPlace, ...]:
        if not any(line.serials for line in assembly.parts):
            return ()
        return tuple(place for place in self.places(assembly) if place.limited)

    def _held(self, places: Iterable[ListPlace], machine: Reading) -> Iterator[Held]:
        for place in places:
            says = [OnMachine(line, self.covers(line, machine)) for line in place.lines]
            if there := tuple(one for one in says if one.covers is not Covers.NO):
                yield Held(place, there)

    def _place_of(self, assembly: Assembly) -> Mapping[PartKey, ListPlace]:
        """The place of a list that each of its numbers stands in; of one that has several, the first."""
        found: dict[PartKey, ListPlace] = {}
        for place in self.places(assembly):
            for key in place.keys:
                found.setdefault(key, place)
        return found

    def edges(self, assemblies: Iterable[Assembly], series: Series) -> Iterator[Reach]:
        """What the limited lines of some assemblies cover of a series."""
        for assembly in assemblies:
            for place in self._limited(assembly):
                yield from (self.reach((line, series)) for line in place.lines)
