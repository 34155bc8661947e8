"""What to order now, and what else would do.

An act takes all its old numbers and gives all its new ones. Being replaced is transitive and not
symmetric; serving instead is symmetric only over acts whose interchange is both. Both are claims made act
by act, so every answer keeps the acts it went by.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from itertools import product

import networkx as nx

from spanbook.answers.applicability import Reading, reach_of
from spanbook.ground.intervals import Covers
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import ActNeed, PartUse, Supersession
from spanbook.register.model import Register

MOST_NEEDS = 2000  # in one tree: beyond it nobody reads, and a thicket must not hang the builder
MOST_ALTERNATIVES = 40


class Ending(StrEnum):
    """Why a branch of a tree ends; too many: it has grown past reading."""

    CURRENT = "current"
    GIVEN_UP = "no-longer-supplied"
    CIRCLE = "leads-back-to-itself"
    TOO_MANY = "too-many-to-follow"


@dataclass(frozen=True, slots=True)
class Dropped:
    """An act that does not apply to the machine, because it is limited to other numbers."""

    act: Supersession


@dataclass(frozen=True, slots=True)
class Step:
    """One act, done `times`: everything in `gives` together, and what must go with it in `besides`.

    `spare` is how many of the old number the whole multiples cover too many; `together` are the other old
    numbers that the act replaces at the same time; `maybe` that it only may apply to the machine.
    """

    act: Supersession
    times: int
    spare: int
    together: tuple[tuple[PartKey, int], ...]
    gives: tuple[Need, ...]
    besides: tuple[Need, ...]
    conversions: tuple[ActNeed, ...]
    maybe: bool


@dataclass(frozen=True, slots=True)
class Need:
    """A number and how many of it: any one of `steps` replaces it, or the branch ends here."""

    key: PartKey
    quantity: int
    steps: tuple[Step, ...]
    ending: Ending | None
    dropped: tuple[Dropped, ...]


@dataclass(frozen=True, slots=True)
class Leaf:
    """A number to order; `supplied` is yes, no or unknown."""

    key: PartKey
    quantity: int
    supplied: str


@dataclass(frozen=True, slots=True)
class Orders:
    """Every complete way to order, and whether there are more than are listed."""

    alternatives: tuple[tuple[Leaf, ...], ...]
    more: bool


@dataclass(frozen=True, slots=True)
class Hop:
    """An act on the way to another number; `back` when it is gone against its direction."""

    act: Supersession
    back: bool


@dataclass(frozen=True, slots=True)
class Instead:
    """What would do: one number, or all of several together, with the acts that say so."""

    keys: tuple[PartKey, ...]
    path: tuple[Hop, ...]

    @property
    def together(self) -> bool:
        return len(self.keys) > 1


def order_now(register: Register, key: PartKey, quantity: int = 1, reading: Reading | None = None) -> Need:
    """The tree of what replaces so many of a number today, on one machine when a reading is given."""
    return _Tree(register, reading).need(key, quantity, frozenset())


@dataclass(slots=True)
class _Tree:
    register: Register
    reading: Reading | None
    made: int = field(default=0)

    def need(self, key: PartKey, quantity: int, above: frozenset[PartKey]) -> Need:
        self.made += 1
        if key in above:
            return Need(key, quantity, (), Ending.CIRCLE, ())
        if self.made > MOST_NEEDS:
            return Need(key, quantity, (), Ending.TOO_MANY, ())
        acts = self.register.parts[key].old_in if key in self.register.parts else ()
        applying = [(act, applies(self.register, act, self.reading)) for act in acts]
        dropped = tuple(Dropped(act) for act, covers in applying if covers is Covers.NO)
        live = [(act, covers) for act, covers in applying if covers is not Covers.NO]
        if not live:
            return Need(key, quantity, (), Ending.CURRENT, dropped)
        giving = [(act, covers) for act, covers in live if act.new]
        if not giving:
            return Need(key, quantity, (), Ending.GIVEN_UP, dropped)
        steps = tuple(
            self._step(act, key, quantity, covers is Covers.MAYBE, above | {key}) for act, covers in giving
        )
        return Need(key, quantity, steps, None, dropped)

    def _step(
        self, act: Supersession, key: PartKey, quantity: int, maybe: bool, above: frozenset[PartKey]
    ) -> Step:
        old = _counted(self.register, act, act.old)
        times = -(-quantity // old[key])
        new = _counted(self.register, act, act.new)
        parts = _counted(self.register, act, tuple(n.part for n in act.needs if n.part))
        return Step(
            act=act,
            times=times,
            spare=times * old[key] - quantity,
            together=tuple((k, n * times) for k, n in old.items() if k != key),
            gives=tuple(self.need(k, n * times, above) for k, n in new.items()),
            besides=tuple(self.need(k, n * times, above) for k, n in parts.items()),
            conversions=tuple(n for n in act.needs if n.conversion),
            maybe=maybe,
        )


def steps_of(need: Need) -> Iterator[tuple[int, Step]]:
    """Every act of a tree with how deep it stands, each below what it follows from."""
    waiting = [(0, step) for step in reversed(need.steps)]
    while waiting:
        depth, step = waiting.pop()
        yield depth, step
        for child in reversed((*step.gives, *step.besides)):
            waiting.extend((depth + 1, after) for after in reversed(child.steps))


def applies(register: Register, act: Supersession, reading: Reading | None) -> Covers:
    """Whether an act applies to a machine; without one, and without limits, it does."""
    if reading is None or not act.serials:
        return Covers.YES
    found = {
        reach_of(span, reading.series).covers(reading.number)
        for span in act.serials
        if span.series == reading.series.id
    }
    return next((c for c in (Covers.YES, Covers.MAYBE) if c in found), Covers.NO)


def _counted(register: Register, act: Supersession, uses: tuple[PartUse, ...]) -> dict[PartKey, int]:
    """How many of each number, the same number's lines added."""
    counts: dict[PartKey, int] = {}
    for use in uses:
        key = register.key_of(act, use)
        counts[key] = counts.get(key, 0) + use.quantity
    return counts


def orders(register: Register, need: Need) -> Orders:
    """Every complete alternative of a tree as a flat list: what to order, how many, and if it is supplied."""
    found, more = _alternatives(need)
    flat = (
        tuple(
            Leaf(key, quantity, _supplied(register, key, ending)) for (key, ending), quantity in way.items()
        )
        for way in found
    )
    return Orders(tuple(dict.fromkeys(flat)), more)


_Way = dict[tuple[PartKey, Ending | None], int]


def _alternatives(need: Need) -> tuple[list[_Way], bool]:
    if need.ending is not None:
        return [{(need.key, need.ending): need.quantity}], False
    found: list[_Way] = []
    more = False
    for step in need.steps:
        each = [_alternatives(child) for child in (*step.gives, *step.besides)]
        more = more or any(cut for _, cut in each)
        for ways in product(*(ways for ways, _ in each)):
            if len(found) == MOST_ALTERNATIVES:
                return found, True
            found.append(_added(ways))
    return found, more


def _added(ways: tuple[_Way, ...]) -> _Way:
    total: _Way = {}
    for way in ways:
        for leaf, quantity in way.items():
            total[leaf] = total.get(leaf, 0) + quantity
    return total


def _supplied(register: Register, key: PartKey, ending: Ending | None) -> str:
    if ending is Ending.GIVEN_UP:
        return "no"
    part = register.parts.get(key)
    return part.record.supplied if part and part.record else "unknown"


def would_do(register: Register, key: PartKey, reading: Reading | None = None) -> tuple[Instead, ...]:
    """Everything usable instead of a number, nearest first, each with the shortest way to it."""
    found: dict[tuple[PartKey, ...], Instead] = {}
    waiting: deque[tuple[PartKey, tuple[Hop, ...]]] = deque([(key, ())])
    while waiting:
        at, path = waiting.popleft()
        for keys, hop in _hops(register, at, reading):
            if key in keys or keys in found or not keys:
                continue
            found[keys] = Instead(keys, (*path, hop))
            # Of several together none serves alone, so the way ends with them.
            if len(keys) == 1:
                waiting.append((keys[0], (*path, hop)))
    return tuple(found.values())


def _hops(
    register: Register, key: PartKey, reading: Reading | None
) -> Iterator[tuple[tuple[PartKey, ...], Hop]]:
    part = register.parts.get(key)
    if part is None:
        return
    for act in part.old_in:
        if applies(register, act, reading) is not Covers.NO:
            yield tuple(_counted(register, act, act.new)), Hop(act, back=False)
    for act in part.new_in:
        # Back over an act only where the old may serve for the new, and the new stands alone for it.
        alone = act.interchange == "both" and len(act.new) == 1
        if alone and applies(register, act, reading) is not Covers.NO:
            yield tuple(_counted(register, act, act.old)), Hop(act, back=True)


def graph(register: Register) -> nx.DiGraph[PartKey]:
    """Numbers, with an edge from each old to each new; the edge carries its act."""
    made: nx.DiGraph[PartKey] = nx.DiGraph()
    for act in register.supersessions.values():
        for old in _counted(register, act, act.old):
            for new in _counted(register, act, act.new):
                made.add_edge(old, new, act=act)
    return made


def cycles(register: Register) -> tuple[tuple[tuple[PartKey, Supersession], ...], ...]:
    """One whole cycle of every knot of acts that lead back: each number with the act that leaves it."""
    made = graph(register)
    found = []
    for knot in nx.strongly_connected_components(made):
        inside = made.subgraph(sorted(knot))
        if inside.number_of_edges():
            edges = nx.find_cycle(inside)
            found.append(tuple((old, inside.edges[old, new]["act"]) for old, new, *_ in edges))
    return tuple(sorted(found, key=lambda cycle: [key for key, _ in cycle]))


def current(register: Register) -> Mapping[PartKey, frozenset[PartKey]]:
    """For every number that has been replaced, the numbers at the ends of its acts; a knot ends in itself."""
    made = graph(register)
    knots = nx.condensation(made)
    ends: dict[int, frozenset[PartKey]] = {}
    for knot in reversed(list(nx.topological_sort(knots))):
        after = [ends[n] for n in knots.successors(knot)]
        members = frozenset(knots.nodes[knot]["members"])
        ends[knot] = frozenset().union(*after) if after else members
    of = knots.graph["mapping"]
    return {key: ends[of[key]] for key in made if made.out_degree(key)}
