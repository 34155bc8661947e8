"""The cheapest ways from one state of a machine to another: the fewest new parts, then the fewest steps.

The search begins with each position that has to change for itself, with nothing needed elsewhere: what it
finds then costs no more than the true cheapest. Where a way found so needs of another position what that does
not hold all along, the two are searched together from then on, and so forth; when nothing is needed any more
the ways found are the cheapest there are. So the work grows with what the goal touches, not with the machine.

Each search is A* (Hart, Nilsson and Raphael, IEEE Transactions on Systems Science and Cybernetics 4, 1968,
100-107; from memory) with the sum, over the positions of the goal, of what each would cost without any needs:
a step changes one position, so this is never too much and never falls faster than the steps cost.

The needs of the last step at a position hold at the end as well: what it put there stays.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import count

import networkx as nx

from spanbook.answers.conversions import Holds, Step, Steps

Cost = tuple[int, int]  # new parts, steps
Way = tuple[Step, ...]
Group = tuple[str, ...]  # positions, in the order of their names
Kept = frozenset[tuple[str, frozenset[str]]]  # positions, and what they may hold
State = tuple[tuple[str | None, Kept], ...]  # by position: the assembly, and what it needs elsewhere
Leading = Mapping[str, tuple[Step, ...]]  # by assembly, the steps that begin with it

MOST_STATES = 200_000  # some seconds
MOST_WAYS = 5


class GaveUpError(Exception):
    """As many states as may be were looked at, and nothing was found."""


@dataclass(frozen=True, slots=True)
class Ways:
    """The cheapest ways in a stable order; `more` when there may be others as cheap."""

    each: tuple[Way, ...]
    more: bool


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
                return _together(found.values())
            groups = _joined(groups, joints)

    def leading(self, position: str) -> Leading:
        """The steps that can be of use at a position: on the way to what is wanted there, if anything is."""
        held = self.holds.get(position)
        beyond = self.steps.beyond(held) if held else {}
        return towards(beyond, self.wanted[position]) if position in self.wanted else beyond

    def _apart(self, group: Group) -> Ways:
        if group not in self._known:
            self._known[group] = _GroupSearch(self, group).cheapest()
        return self._known[group]

    def _joints(self, found: Mapping[Group, Ways]) -> Iterator[tuple[str, str]]:
        """Positions that cannot be searched apart: one has a way that needs what the other may not hold."""
        moved = {step.conversion.position for ways in found.values() for way in ways.each for step in way}
        for group, ways in found.items():
            for need in (need for way in ways.each for step in way for need in step.needs):
                other = need.position
                if other not in group and (other in moved or self.holds.get(other) not in need.assemblies):
                    yield group[0], other


def _joined(groups: Iterable[Group], joints: Iterable[tuple[str, str]]) -> list[Group]:
    graph: nx.Graph[str] = nx.Graph(joints)
    for group in groups:
        nx.add_path(graph, group)
    return sorted(tuple(sorted(group)) for group in nx.connected_components(graph))


class _GroupSearch:
    """The search over some positions, while all others are as they have to be."""

    def __init__(self, search: Search, positions: Group) -> None:
        self.search = search
        self.positions = positions
        self.at = {position: i for i, position in enumerate(positions)}
        self.start: State = tuple((search.holds.get(position), frozenset()) for position in positions)
        self.leading = [search.leading(position) for position in positions]
        self.wanted = [search.wanted.get(position) for position in positions]
        self.left = [
            distances(leading, to) if to else None
            for leading, to in zip(self.leading, self.wanted, strict=True)
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
            for step, i, after in self._onward(state):
                self.search.states += 1
                cost = _plus(best[state], (step.parts, 1))
                if best.get(after) == cost:
                    into[after].append((state, step))
                elif after not in best or cost < best[after]:
                    best[after], into[after] = cost, [(state, step)]
                    still = self._still(left, i, state, after)
                    heapq.heappush(waiting, (_plus(cost, still), still, next(ticket), after))
        return _ordered(ends, into, best)

    def _onward(self, state: State) -> Iterator[tuple[Step, int, State]]:
        """The steps from a state, each with the place of its position in the group and the state after it."""
        for i, (assembly, _) in enumerate(state):
            for step in self.leading[i].get(assembly or "", ()):
                needs = [need for need in step.needs if need.position in self.at]
                if all(state[self.at[need.position]][0] in need.assemblies for need in needs):
                    kept = ((need.position, frozenset(need.assemblies)) for need in needs)
                    held = (step.conversion.to, frozenset(kept if self.search.keep else ()))
                    yield step, i, (*state[:i], held, *state[i + 1 :])

    def _left(self, state: State) -> Cost | None:
        """What is still to pay at the least; None where the goal is out of reach."""
        total = (0, 0)
        for (assembly, _), left in zip(state, self.left, strict=True):
            if left is not None:
                if assembly not in left:
                    return None
                total = _plus(total, left[assembly])
        return total

    def _still(self, left: Cost, i: int, before: State, after: State) -> Cost:
        """What is still to pay after a step at one position, from what it was before."""
        distance = self.left[i]
        if distance is None:
            return left
        was, now = distance[before[i][0] or ""], distance[after[i][0] or ""]
        return left[0] - was[0] + now[0], left[1] - was[1] + now[1]

    def _ended(self, state: State) -> bool:
        reached = all(to in (None, held) for to, (held, _) in zip(self.wanted, state, strict=True))
        return reached and all(
            state[self.at[position]][0] in allowed for _, kept in state for position, allowed in kept
        )


def reachable(search: Search) -> dict[str, set[str]]:
    """What each position that the goal depends on could ever come to hold.

    What was reached once is taken to stay within reach, so it is never less than is true, and may be more.
    """
    leading: dict[str, Leading] = {}
    reached: dict[str, set[str]] = {}
    waiting = [position for position, to in search.wanted.items() if search.holds.get(position) != to]
    grown = True
    while grown:
        for position in waiting:
            if position not in leading:
                leading[position] = search.leading(position)
                reached[position] = {search.holds[position]} if position in search.holds else set()
        steps = [step for at in leading.values() for each in at.values() for step in each]
        waiting = [need.position for step in steps for need in step.needs if need.position not in leading]
        grown = bool(waiting)
        for step in steps:
            at, to = step.conversion.position, step.conversion.to
            if to not in reached[at] and _could_be_taken(step, reached):
                reached[at].add(to)
                grown = True
    return reached


def _could_be_taken(step: Step, reached: Mapping[str, set[str]]) -> bool:
    begun = not reached[step.conversion.position].isdisjoint(step.conversion.start)
    met = (not reached.get(need.position, set()).isdisjoint(need.assemblies) for need in step.needs)
    return begun and all(met)


def towards(beyond: Leading, to: str) -> Leading:
    """Of the steps from an assembly on, those on any way to another, needs aside."""
    near = distances(beyond, to)
    return {
        at: tuple(step for step in leading if step.conversion.to in near)
        for at, leading in beyond.items()
        if at in near
    }


def distances(leading: Leading, to: str) -> dict[str, Cost]:
    """What each assembly costs to turn into another where nothing is needed elsewhere."""
    backward: dict[str, list[tuple[str, Cost]]] = {}
    for at, steps in leading.items():
        for step in steps:
            backward.setdefault(step.conversion.to, []).append((at, (step.parts, 1)))
    found: dict[str, Cost] = {}
    waiting: list[tuple[Cost, str]] = [((0, 0), to)]
    while waiting:
        cost, at = heapq.heappop(waiting)
        if at not in found:
            found[at] = cost
            for before, one in backward.get(at, ()):
                heapq.heappush(waiting, (_plus(cost, one), before))
    return found


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
        ways[state] = _first(longer) if into[state] else [()]
    each = _first(way for end in ends for way in ways[end])
    return Ways(tuple(each[:MOST_WAYS]), len(each) > MOST_WAYS)


def _first(ways: Iterable[Way]) -> list[Way]:
    """The first ways of different steps, one more than are told."""
    kept: dict[tuple[str, ...], Way] = {}
    for way in sorted(ways, key=_ids):
        kept.setdefault(tuple(sorted(_ids(way))), way)
    return list(kept.values())[: MOST_WAYS + 1]


def _together(found: Iterable[Ways]) -> Ways:
    """The ways of positions that were searched apart, as one: whatever is first by its id is done first."""
    together: list[Way] = [()]
    more = False
    for ways in found:
        both = [
            tuple(heapq.merge(one, other, key=lambda step: step.id))
            for one in together
            for other in ways.each
        ]
        together = _first(both)
        more = more or ways.more
    return Ways(tuple(together[:MOST_WAYS]), more or len(together) > MOST_WAYS)


def _ids(way: Way) -> tuple[str, ...]:
    return tuple(step.id for step in way)


def _plus(one: Cost, other: Cost) -> Cost:
    return one[0] + other[0], one[1] + other[1]
