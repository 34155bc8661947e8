"""The cheapest ways from one state of a machine to another: the fewest new parts, then the fewest steps.

The search begins with each position that has to change for itself, with nothing needed elsewhere: what it
finds then costs no more than the true cheapest. Where a way found so needs of another position what that does
not hold all along, the two are searched together from then on, and so forth; when nothing is needed any more
the ways found are the cheapest there are. So the work grows with what the goal touches, not with the machine.

Each search is A* (Hart, Nilsson and Raphael, IEEE Transactions on Systems Science and Cybernetics 4, 1968,
100-107; from memory) with the sum, over the positions of the goal, of what each would cost without any needs:
a step that changes several counts at its own alone, so this is never too much and never falls faster than the
steps cost. A place inside an assembly, and one that a step may change whatever is there, count for nothing.
While what is around a place is not searched with it, that may be changed in between and the place be as new:
what was taken off it and what it needs are forgotten. Where a way is none without that, both are searched
together.

The needs of the last step at a position hold at the end as well: what it put there stays. What parts were
taken off meets no need, is not what is wanted, and is robbed of the same part once.
"""

from __future__ import annotations

import heapq
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import chain, count

from spanbook.answers.plan_costs import Cost, Leading, distances, plus, towards
from spanbook.answers.plan_ways import MOST_WAYS, Way, Ways, first, together
from spanbook.answers.steps import Holds, Missing, Step, Steps, effects, missing_after
from spanbook.ground.knots import knots
from spanbook.reading.records import Conversion

Group = tuple[str, ...]  # positions, in the order of their names
Kept = frozenset[tuple[str, frozenset[str]]]  # positions, and what they may hold
Held = tuple[str | None, Kept, Missing]  # the assembly, what it needs elsewhere, and what was taken off it
State = tuple[Held, ...]  # by position
AS_NEW: tuple[Kept, Missing] = (frozenset(), frozenset())

MOST_STATES = 200_000  # some seconds


class GaveUpError(Exception):
    """As many states as may be were looked at, and nothing was found."""


@dataclass(slots=True)
class Search:
    """A search for the ways of one machine. Without `keep` a need is met when its step is taken, and no more.

    `states` counts those that were looked at.
    """

    steps: Steps
    holds: Holds
    wanted: Holds
    keep: bool = True
    states: int = 0
    _known: dict[Group, Ways] = field(default_factory=dict)
    _wider: dict[Group, frozenset[str]] = field(default_factory=dict)
    _plain: dict[str, bool] = field(default_factory=dict)

    def ways(self) -> Ways:
        """The cheapest ways; none where there is no way. Raises GaveUpError."""
        moving = (position for position, to in self.wanted.items() if self.holds.get(position) != to)
        groups: list[Group] = sorted((position,) for position in moving)
        while True:
            found = {group: self._apart(group) for group in groups}
            if not all(ways.each for ways in found.values()):
                return Ways((), more=False)
            joints = list(self._joints(found))
            if not joints:
                return together(found.values())
            groups = _joined(groups, joints)

    def leading(self, position: str) -> Leading:
        """The steps that can be of use at a position: on the way to what is wanted there, if anything is."""
        held = self.holds.get(position)
        if not self.is_plain(position):
            return self.steps.beyond(position, {held, None})
        beyond = self.steps.beyond(position, [held])
        return towards(beyond, position, self.wanted[position]) if position in self.wanted else beyond

    def is_plain(self, position: str) -> bool:
        """Whether what a position holds changes only by steps that begin with it."""
        if position not in self._plain:
            found = self.steps.register.positions.get(position)
            housed = found is not None and found.housing is not None
            begun = all(step.at[position].start for step in self.steps.at(position))
            self._plain[position] = begun and not housed
        return self._plain[position]

    def _apart(self, group: Group) -> Ways:
        if group not in self._known:
            search = _GroupSearch(self, group)
            ways = self._known[group] = search.cheapest()
            if not all(search.allows(way) for way in ways.each):
                self._wider[group] = search.around
        return self._known[group]

    def _joints(self, found: Mapping[Group, Ways]) -> Iterator[tuple[str, str]]:
        """Positions that cannot be searched apart: one has a way that changes the other too, or that needs
        what the other may not hold."""
        taken = {group: {step for way in ways.each for step in way} for group, ways in found.items()}
        moved = {at for steps in taken.values() for step in steps for at in self._moved(step)}
        for group, steps in taken.items():
            for other in self._wider.get(group, ()):
                yield group[0], other
            for step in steps:
                for other in self._moved(step) - set(group):
                    if other in step.touches or other in self.wanted:
                        yield group[0], other
                for need in step.asks:
                    other = need.position
                    if other not in group and (
                        other in moved or self.holds.get(other) not in need.assemblies
                    ):
                        yield group[0], other

    def around(self, position: str) -> frozenset[str]:
        """The positions that one is inside of."""
        found = self.steps.register.positions.get(position)
        if found is None or found.housing is None:
            return frozenset()
        return self.around(found.housing.position) | {found.housing.position}

    def _moved(self, step: Step) -> frozenset[str]:
        """The positions that a step touches, and those inside of them."""
        inside = (self.steps.register.inside.get(change.position, ()) for change in step.changes)
        return step.touches | {one.path for each in inside for one in each}


def _joined(groups: Iterable[Group], joints: Iterable[tuple[str, str]]) -> list[Group]:
    pairs = [*joints, *((group[0], one) for group in groups for one in group)]
    both_ways = chain(pairs, ((other, one) for one, other in pairs))
    return sorted(tuple(sorted(group)) for group in knots(both_ways))


class _GroupSearch:
    """The search over some positions, while all others are as they have to be."""

    def __init__(self, search: Search, positions: Group) -> None:
        self.search = search
        self.positions = positions
        self.at = {position: i for i, position in enumerate(positions)}
        self.start: State = tuple((search.holds.get(position), *AS_NEW) for position in positions)
        around = {position: search.around(position) - self.at.keys() for position in positions}
        self.around = frozenset[str]().union(*around.values())
        self.renewed = {position for position, outside in around.items() if outside}
        self.leading = [search.leading(position) for position in positions]
        self.wanted = [search.wanted.get(position) for position in positions]
        self.left = [
            distances(leading, position, to) if to and search.is_plain(position) else None
            for position, leading, to in zip(positions, self.leading, self.wanted, strict=True)
        ]

    def cheapest(self) -> Ways:
        best: dict[State, Cost] = {self.start: (0, 0)}
        into: dict[State, list[tuple[State, Step]]] = {self.start: []}
        ends: list[State] = []
        done: set[State] = set()
        ticket = count()
        first = self._left(self.start)
        waiting = [(first, first, next(ticket), self.start)] if first else []
        while waiting:
            total, left, _, state = heapq.heappop(waiting)
            if ends and total > best[ends[0]]:
                break
            if state in done:
                continue
            done.add(state)
            if self._ended(state):
                ends.append(state)
                continue
            if self.search.states >= MOST_STATES:
                if not ends:
                    raise GaveUpError
                return Ways(_ordered(ends, into, best).each, more=True)
            for step, after in self._onward(state):
                self.search.states += 1
                cost = plus(best[state], (step.parts, 1))
                if best.get(after) == cost:
                    into[after].append((state, step))
                elif after not in best or cost < best[after]:
                    best[after], into[after] = cost, [(state, step)]
                    still = self._still(left, state, after)
                    heapq.heappush(waiting, (plus(cost, still), still, next(ticket), after))
        return _ordered(ends, into, best)

    def allows(self, way: Way) -> bool:
        """Whether a way that was found is one when nothing is forgotten."""
        state = self.start
        for step in way:
            if not self._is_open(step, state):
                return False
            state = self._after(step, state, forgetful=False)
        return self._ended(state)

    def _onward(self, state: State) -> Iterator[tuple[Step, State]]:
        """The steps from a state, each once, and the state after it."""
        seen: set[Conversion] = set()  # at each position it stands as a step of its own
        for (assembly, _, _), leading in zip(state, self.leading, strict=True):
            for step in leading.get(assembly, ()):
                if step.conversion not in seen:
                    seen.add(step.conversion)
                    if self._is_open(step, state):
                        yield step, self._after(step, state)

    def _is_open(self, step: Step, state: State) -> bool:
        """Whether a step may be taken, as far as the positions of the group go."""
        for change in step.changes:
            held = state[self.at[change.position]][0] if change.position in self.at else None
            if change.position in self.at and change.start and held not in change.start:
                return False
        for need in step.needs:
            if need.position in self.at and not _whole(state[self.at[need.position]], need.assemblies):
                return False
        for one in step.taking:
            if one.position in self.at:
                assembly, _, missing = state[self.at[one.position]]
                if assembly not in one.assemblies or one.part in missing:
                    return False
        return self._within_reach(step)

    def _within_reach(self, step: Step) -> bool:
        """Whether what a step puts somewhere can still become what is wanted there."""
        lefts = ((self.left[self.at[c.position]], c.to) for c in step.changes if c.position in self.at)
        return all(left is None or to in left for left, to in lefts)

    def _after(self, step: Step, state: State, *, forgetful: bool = True) -> State:
        def get(position: str) -> str | None:
            return state[self.at[position]][0] if position in self.at else self.search.holds.get(position)

        register = self.search.steps.register
        needs = (
            (need.position, frozenset(need.assemblies)) for need in step.needs if need.position in self.at
        )
        kept = frozenset(needs if self.search.keep else ())
        held = list(state)
        forgotten = self.renewed if forgetful else ()
        for one in step.taking:
            if one.position in self.at and one.position not in step.at and one.position not in forgotten:
                i = self.at[one.position]
                held[i] = (*held[i][:2], held[i][2] | {one.part})
        for position, to in effects(register, get, step).items():
            if position in self.at:
                i = self.at[position]
                missing = missing_after(register, step, position, held[i][2])
                held[i] = (to, kept, missing) if to and position not in forgotten else (to, *AS_NEW)
        return tuple(held)

    def _left(self, state: State) -> Cost | None:
        """What is still to pay at the least; None where the goal is out of reach."""
        total = (0, 0)
        for (assembly, _, _), left in zip(state, self.left, strict=True):
            if left is not None:
                if assembly not in left:
                    return None
                total = plus(total, left[assembly])
        return total

    def _still(self, left: Cost, before: State, after: State) -> Cost:
        """What is still to pay after a step, from what it was before."""
        for was, now, distance in zip(before, after, self.left, strict=True):
            if was[0] != now[0] and distance is not None:
                left = (
                    left[0] - distance[was[0]][0] + distance[now[0]][0],
                    left[1] - distance[was[0]][1] + distance[now[0]][1],
                )
        return left

    def _ended(self, state: State) -> bool:
        reached = all(to is None or _whole(held, (to,)) for to, held in zip(self.wanted, state, strict=True))
        return reached and all(
            _whole(state[self.at[position]], allowed) for _, kept, _ in state for position, allowed in kept
        )


def _whole(held: Held, assemblies: Collection[str]) -> bool:
    """Whether a position holds one of some assemblies, and nothing was taken off it."""
    return held[0] in assemblies and not held[2]


def _ordered(
    ends: Iterable[State], into: Mapping[State, Sequence[tuple[State, Step]]], best: Mapping[State, Cost]
) -> Ways:
    """The ways that end so, the first by their ids in order; of one set of steps the first order alone."""
    on_the_way = set(ends)
    waiting = list(on_the_way)
    for state in waiting:
        before = {one for one, _ in into[state]} - on_the_way
        on_the_way |= before
        waiting += before
    ways: dict[State, list[Way]] = {}
    for state in sorted(on_the_way, key=lambda state: best[state][1]):
        longer = [(*way, step) for before, step in into[state] for way in ways[before]]
        ways[state] = first(longer) if into[state] else [()]
    each = first(way for end in ends for way in ways[end])
    return Ways(tuple(each[:MOST_WAYS]), len(each) > MOST_WAYS)
