"""What else would do: numbers usable instead of one, with the acts that say so.

Serving instead goes forward over any act, and back over one whose interchange is both where the new stands
alone for the old. It is claimed act by act, so each answer keeps its ways, each with its condition: a further
way is kept only where it holds for machines that no nearer one holds for.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from spanbook.answers.act_claims import counted
from spanbook.answers.condition import Applies, Asked, Condition, Machines
from spanbook.answers.onward import Ending, Following
from spanbook.answers.orders import Supply, supply_of
from spanbook.answers.readings import Reading
from spanbook.answers.supersession import DEEPEST
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Supersession
from spanbook.register.model import Register


class Fate(StrEnum):
    """What became of a number that would do: whether it is supplied, or that it is itself replaced."""

    SUPPLIED = "supplied"
    GIVEN_UP = "no-longer-supplied"
    UNKNOWN = "not-known"
    REPLACED = "itself-replaced"
    IN_SET = "only-in-a-set"
    UNCLEAR = "means-several-things"


@dataclass(frozen=True, slots=True)
class Hop:
    """An act on the way to another number; `back` when it is gone against its direction."""

    act: Supersession
    back: bool


@dataclass(frozen=True, slots=True)
class Way:
    """Acts in a row that lead to what would do, and for whom they all apply."""

    hops: tuple[Hop, ...]
    condition: Condition


@dataclass(frozen=True, slots=True)
class Instead:
    """What would do: one number, or all of several together, by any of its ways, the nearest first.

    `fates` is what became of each number: several where it depends on the machine, or on whose word is taken.
    """

    keys: tuple[PartKey, ...]
    fates: tuple[tuple[Fate, ...], ...]
    ways: tuple[Way, ...]

    @property
    def together(self) -> bool:
        return len(self.keys) > 1

    @property
    def path(self) -> tuple[Hop, ...]:
        """The nearest way."""
        return self.ways[0].hops


@dataclass(frozen=True, slots=True)
class Substitutes:
    """All that would do by at most so many acts in a row; `more` when there are others further away."""

    each: tuple[Instead, ...]
    more: bool


def would_do(
    register: Register, key: PartKey, reading: Reading | None = None, year: int | None = None
) -> Substitutes:
    """Everything usable instead of a number, nearest first; in a year by the acts made by then."""
    return substitutes(Following(Asked(register, reading, year)), key)


def substitutes(following: Following, key: PartKey) -> Substitutes:
    """Everything usable instead of a number, nearest first, for whom is asked of."""
    return _Search(following).from_(key)


@dataclass(frozen=True, slots=True)
class _At:
    key: PartKey
    hops: tuple[Hop, ...]
    machines: Machines
    after: frozenset[str]
    made: frozenset[str]


class _Search:
    def __init__(self, following: Following) -> None:
        self.following = following
        self.asked = following.asked

    def from_(self, key: PartKey) -> Substitutes:
        found: dict[tuple[PartKey, ...], list[_At]] = {}
        more = False
        waiting = deque([_At(key, (), self.asked.everyone, frozenset(), frozenset())])
        while waiting:
            at = waiting.popleft()
            for keys, hop in self._hops(at.key):
                if key in keys or not keys:
                    continue
                further = self._over(at, keys[0], hop)
                if further is None or _known(further, found.get(keys, [])):
                    continue
                if len(at.hops) == DEEPEST:
                    more = True
                    continue
                found.setdefault(keys, []).append(further)
                # Of several together none serves alone, so the way ends with them.
                if len(keys) == 1:
                    waiting.append(further)
        each = (
            Instead(keys, tuple(map(self._fates, keys)), tuple(map(self._way, ways)))
            for keys, ways in found.items()
        )
        return Substitutes(tuple(each), more)

    def _fates(self, key: PartKey) -> tuple[Fate, ...]:
        found = [
            Fate.REPLACED if branch.ending is None else Fate(self._supply(key, branch.ending))
            for branch in self.following.onward(key).branches
        ]
        return tuple(dict.fromkeys(found))

    def _supply(self, key: PartKey, ending: Ending) -> Supply:
        if ending is not Ending.CURRENT:
            return Supply.GIVEN_UP
        return supply_of(self.asked.register, key) if self.asked.year is None else Supply.UNKNOWN

    def _over(self, at: _At, key: PartKey, hop: Hop) -> _At | None:
        """One act further, if there is any machine for which all of the way may hold."""
        machines = at.machines & self.following.meant(hop.act) if hop.act.serials else at.machines
        by_then = self.following.by_then(hop.act)
        if Applies.NO in (self.asked.applies(machines), by_then):
            return None
        made = at.made | {hop.act.id} if by_then is Applies.MAYBE else at.made
        after = at.after.union(need.conversion for need in hop.act.needs if need.conversion)
        return _At(key, (*at.hops, hop), machines, after, made)

    def _way(self, at: _At) -> Way:
        applies = self.asked.applies(at.machines)
        machines = None if applies is Applies.YES else at.machines
        after, made = tuple(sorted(at.after)), tuple(sorted(at.made))
        return Way(at.hops, Condition(applies, machines, after, made=made))

    def _hops(self, key: PartKey) -> Iterator[tuple[tuple[PartKey, ...], Hop]]:
        register = self.asked.register
        part = register.parts.get(key)
        if part is None:
            return
        for act in part.old_in:
            yield tuple(counted(register, act, act.new)), Hop(act, back=False)
        for act in part.new_in:
            # Back over an act only where the old may serve for the new, and the new stands alone for it.
            if act.interchange == "both" and len(act.new) == 1:
                yield tuple(counted(register, act, act.old)), Hop(act, back=True)


def _known(at: _At, nearer: list[_At]) -> bool:
    """Whether nearer ways hold wherever this one does, with no conversion, and no act of unknown year, that
    this one goes without."""
    covered = Machines()
    for one in nearer:
        if one.after <= at.after and one.made <= at.made:
            if one.machines is at.machines:
                return True
            covered |= one.machines
    return bool(nearer) and at.machines <= covered
