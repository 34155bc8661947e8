"""What replaces a number today, and what else would do.

An act takes all its old numbers and gives all its new ones. Being replaced is transitive and not
symmetric; serving instead is symmetric only over acts whose interchange is both. Both are claims made act
by act, so every answer keeps the acts it went by.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from enum import StrEnum

import networkx as nx

from spanbook.answers.applicability import Reading
from spanbook.answers.bounds import reach_of
from spanbook.ground.intervals import Covers
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import ActNeed, PartUse, Supersession
from spanbook.register.model import Register

MOST_NEEDS = 2000  # in one tree: beyond it nobody reads, and a thicket must not hang the builder
DEEPEST = 20  # acts in a row: whoever wants to read on asks for the number where a tree stops
MOST_QUANTITY = 1_000_000_000


class Ending(StrEnum):
    """Why a branch of a tree ends; too many: it has grown past reading; goes on: it is deep enough here, and
    goes on under that number."""

    CURRENT = "current"
    GIVEN_UP = "no-longer-supplied"
    CIRCLE = "leads-back-to-itself"
    TOO_MANY = "too-many-to-follow"
    GOES_ON = "goes-on"


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


@dataclass(frozen=True, slots=True)
class Substitutes:
    """All that would do by at most so many acts in a row; `more` when there are others further away."""

    each: tuple[Instead, ...]
    more: bool


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
        if self.made > MOST_NEEDS or quantity > MOST_QUANTITY:
            return Need(key, quantity, (), Ending.TOO_MANY, ())
        onward = onward_from(self.register, key, self.reading)
        ending = onward.ending or (Ending.GOES_ON if len(above) == DEEPEST else None)
        if ending:
            return Need(key, quantity, (), ending, onward.dropped)
        steps = tuple(
            self._step(act, key, quantity, covers is Covers.MAYBE, above | {key})
            for act, covers in onward.giving
        )
        return Need(key, quantity, steps, None, onward.dropped)

    def _step(
        self, act: Supersession, key: PartKey, quantity: int, maybe: bool, above: frozenset[PartKey]
    ) -> Step:
        done = multiplied(self.register, act, key, quantity)
        return Step(
            act=act,
            times=done.times,
            spare=done.old[key] - quantity,
            together=tuple((k, n) for k, n in done.old.items() if k != key),
            gives=tuple(self.need(k, n, above) for k, n in done.new.items()),
            besides=tuple(self.need(k, n, above) for k, n in done.besides.items()),
            conversions=tuple(n for n in act.needs if n.conversion),
            maybe=maybe,
        )


@dataclass(frozen=True, slots=True)
class Onward:
    """The acts that give something for a number, each with whether it applies; or why there is none."""

    giving: tuple[tuple[Supersession, Covers], ...]
    ending: Ending | None
    dropped: tuple[Dropped, ...]


def onward_from(register: Register, key: PartKey, reading: Reading | None) -> Onward:
    acts = register.parts[key].old_in if key in register.parts else ()
    applying = [(act, applies(register, act, reading)) for act in acts]
    dropped = tuple(Dropped(act) for act, covers in applying if covers is Covers.NO)
    live = [(act, covers) for act, covers in applying if covers is not Covers.NO]
    giving = tuple((act, covers) for act, covers in live if act.new)
    ending = None if giving else Ending.GIVEN_UP if live else Ending.CURRENT
    return Onward(giving, ending, dropped)


@dataclass(frozen=True, slots=True)
class Multiplied:
    """An act done as often as it takes, in whole multiples: how many of each number it takes and gives."""

    times: int
    old: Mapping[PartKey, int]
    new: Mapping[PartKey, int]
    besides: Mapping[PartKey, int]


def multiplied(register: Register, act: Supersession, key: PartKey, quantity: int) -> Multiplied:
    """An act done for so many of one of its old numbers."""
    times = -(-quantity // _counted(register, act, act.old)[key])
    parts = tuple(need.part for need in act.needs if need.part)
    old, new, besides = (
        {k: n * times for k, n in _counted(register, act, uses).items()} for uses in (act.old, act.new, parts)
    )
    return Multiplied(times, old, new, besides)


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


def would_do(register: Register, key: PartKey, reading: Reading | None = None) -> Substitutes:
    """Everything usable instead of a number, nearest first, each with the shortest way to it."""
    found: dict[tuple[PartKey, ...], Instead] = {}
    more = False
    waiting: deque[tuple[PartKey, tuple[Hop, ...]]] = deque([(key, ())])
    while waiting:
        at, path = waiting.popleft()
        for keys, hop in _hops(register, at, reading):
            if key in keys or keys in found or not keys:
                continue
            if len(path) == DEEPEST:
                more = True
                continue
            found[keys] = Instead(keys, (*path, hop))
            # Of several together none serves alone, so the way ends with them.
            if len(keys) == 1:
                waiting.append((keys[0], (*path, hop)))
    return Substitutes(tuple(found.values()), more)


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
    by_act, found = {key: place for place, key in enumerate(made)}, []
    for knot in nx.strongly_connected_components(made):
        # In the order of the acts: a view of the graph would go over the knot otherwise at every run.
        ordered = sorted(knot, key=by_act.__getitem__)
        inside: nx.DiGraph[PartKey] = nx.DiGraph()
        for old in ordered:
            inside.add_edges_from((old, new, made.edges[old, new]) for new in made[old] if new in knot)
        if inside.number_of_edges():
            edges = nx.find_cycle(inside, ordered[0])
            found.append(tuple((old, inside.edges[old, new]["act"]) for old, new, *_ in edges))
    return tuple(sorted(found, key=lambda cycle: [key for key, _ in cycle]))
