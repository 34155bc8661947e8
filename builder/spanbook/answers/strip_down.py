"""How an assembly comes apart, from all accounts of it: one order that breaks nothing anybody says must be.

- What comes off together in every account that speaks of it is one step of the sheet; a step that frees
  nothing is one by its id.
- *After* with a reason must be. The mere order of an account is how it was done: it is kept while no other
  account did the reverse, and dropped (either may come first) as soon as one did.
- What one says must be and another did in reverse is disputed: both are told, and the sheet keeps what must
  be. Of two that say the reverse of one another the one with more accounts is kept, then the older.
- The order keeps what must be and what all did alike, with the fewest changes of tool in hand that a look at
  the next step finds; equals stay where the accounts have them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

import networkx as nx

from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Assembly, StripDown, StripStep
from spanbook.register.model import Register

Freed = tuple[PartKey, int]


@dataclass(frozen=True, slots=True)
class Said:
    """What one account says of a step."""

    account: StripDown
    step: StripStep


@dataclass(frozen=True, slots=True)
class Must:
    """A step that has to come before another: who says so and why, and who did it the other way round."""

    first: int
    then: int
    said: tuple[tuple[StripDown, str], ...]
    against: tuple[StripDown, ...]

    @property
    def disputed(self) -> bool:
        return bool(self.against)


@dataclass(frozen=True, slots=True)
class SheetStep:
    """One step of the sheet: what comes off by it, and what each account says of it."""

    frees: tuple[Freed, ...]
    said: tuple[Said, ...]

    @property
    def renew(self) -> bool:
        """Whether somebody says that what comes off never goes back."""
        return any(one.step.renew for one in self.said)


@dataclass(frozen=True, slots=True)
class Sheet:
    """An assembly taken apart: `steps` in their order; `musts` and `either` speak of steps by their place.

    `either` are pairs that were done both ways round. `stays` is what somebody left on, `untold` what the
    parts list has and no account speaks of. `dropped` are musts that others contradict.
    """

    assembly: Assembly
    accounts: tuple[StripDown, ...]
    steps: tuple[SheetStep, ...]
    musts: tuple[Must, ...]
    dropped: tuple[Must, ...]
    either: tuple[tuple[int, int], ...]
    stays: tuple[PartKey, ...]
    untold: tuple[PartKey, ...]

    @property
    def cautions(self) -> tuple[str, ...]:
        """The ids of the assembly's cautions, then those of its steps, each once."""
        of_steps = (id_ for step in self.steps for one in step.said for id_ in one.step.cautions)
        return tuple(dict.fromkeys((*self.assembly.cautions, *of_steps)))

    @property
    def renewed(self) -> tuple[Freed, ...]:
        """What is renewed, as much of it as most comes off by any account."""
        return tuple(freed for step in self.steps if step.renew for freed in step.frees)


def accounts_of(register: Register) -> dict[str, tuple[StripDown, ...]]:
    """The accounts of each assembly (by its id) that somebody has told of taking apart."""
    found: dict[str, list[StripDown]] = {}
    for one in register.of(StripDown).values():
        found.setdefault(one.assembly, []).append(one)
    return {id_: tuple(accounts) for id_, accounts in found.items()}


def sheet_of(register: Register, assembly: Assembly, accounts: Sequence[StripDown]) -> Sheet | None:
    """The sheet of an assembly by all accounts of it; None where nobody has told of taking it apart."""
    if not accounts:
        return None
    told = _Told(register, accounts)
    musts, dropped = _kept(told)
    order = _ordered(told, musts)
    place = {node: at for at, node in enumerate(order)}
    steps = tuple(told.step(node) for node in order)
    gone = {key for step in steps for key, _ in step.frees}
    stays = dict.fromkeys(register.key_of(one, use) for one in accounts for use in one.stays)
    listed = dict.fromkeys(register.key_of(assembly, use) for use in assembly.parts)
    return Sheet(
        assembly,
        tuple(accounts),
        steps,
        tuple(sorted((_moved(must, place) for must in musts), key=_by_place)),
        tuple(sorted((_moved(must, place) for must in dropped), key=_by_place)),
        _either(told, musts, place),
        tuple(stays),
        tuple(key for key in listed if key not in gone and key not in stays),
    )


def _either(told: _Told, musts: Iterable[Must], place: Mapping[int, int]) -> tuple[tuple[int, int], ...]:
    """The pairs that were done both ways round and that nothing orders, by their places."""
    graph: nx.DiGraph[int] = nx.DiGraph((must.first, must.then) for must in musts)
    forced = nx.transitive_closure(graph)
    pairs = ((a, b) for a, b in told.both_ways if not forced.has_edge(a, b) and not forced.has_edge(b, a))
    return tuple(sorted((min(place[a], place[b]), max(place[a], place[b])) for a, b in pairs))


def _moved(must: Must, place: Mapping[int, int]) -> Must:
    return Must(place[must.first], place[must.then], must.said, must.against)


def _by_place(must: Must) -> tuple[int, int]:
    return must.then, must.first


class _Told:
    """The accounts laid beside one another: the steps they share, and in which order each did them."""

    def __init__(self, register: Register, accounts: Sequence[StripDown]) -> None:
        self.register, self.accounts = register, accounts
        # Of every part and every step that frees nothing: in which step of each account it is.
        self._where: dict[PartKey | str, dict[StripDown, int]] = {}
        for account in accounts:
            for at, step in enumerate(account.steps):
                names: list[PartKey | str] = [register.key_of(account, use) for use in step.frees]
                for name in names or [step.id]:
                    self._where.setdefault(name, {}).setdefault(account, at)
        self.nodes = self._together()
        self.of_step: dict[tuple[StripDown, int], list[int]] = {}
        for node, (_, where) in enumerate(self.nodes):
            for account, place in where.items():
                self.of_step.setdefault((account, place), []).append(node)

    def _together(self) -> list[tuple[list[PartKey | str], dict[StripDown, int]]]:
        """Names that are in one step in every account that has both, and in some account are."""
        nodes: list[tuple[list[PartKey | str], dict[StripDown, int]]] = []
        for name, where in self._where.items():
            for names, at in nodes:
                both = where.keys() & at.keys()
                if both and all(where[account] == at[account] for account in both):
                    names.append(name)
                    at.update(where)
                    break
            else:
                nodes.append(([name], dict(where)))
        return nodes

    def step(self, node: int) -> SheetStep:
        names, at = self.nodes[node]
        said = tuple(Said(account, account.steps[place]) for account, place in at.items())
        return SheetStep(tuple(self._freed(name, said) for name in names if isinstance(name, PartKey)), said)

    def _freed(self, key: PartKey, said: Iterable[Said]) -> Freed:
        """A part, as many as most come off by any account."""
        counts = [
            use.quantity
            for one in said
            for use in one.step.frees
            if self.register.key_of(one.account, use) == key
        ]
        return key, max(counts, default=1)

    def done(self, account: StripDown, first: int, then: int) -> bool:
        """Whether an account did one step before another."""
        at_first, at_then = self.nodes[first][1].get(account), self.nodes[then][1].get(account)
        return at_first is not None and at_then is not None and at_first < at_then

    def musts(self) -> Iterator[Must]:
        """Each pair of steps that somebody says must come in that order."""
        said: dict[tuple[int, int], list[tuple[StripDown, str]]] = {}
        for account in self.accounts:
            places = {step.id: at for at, step in enumerate(account.steps)}
            for at, step in enumerate(account.steps):
                for earlier in step.after:
                    if earlier.step in places:
                        for first in self.of_step.get((account, places[earlier.step]), ()):
                            for then in self.of_step.get((account, at), ()):
                                if first != then:
                                    said.setdefault((first, then), []).append((account, earlier.why))
        for (first, then), reasons in said.items():
            against = tuple(one for one in self.accounts if self.done(one, then, first))
            yield Must(first, then, tuple(reasons), against)

    @property
    def both_ways(self) -> tuple[tuple[int, int], ...]:
        """Pairs that one account did one way and another the other, and nobody says must be either."""
        fixed = {frozenset((must.first, must.then)) for must in self.musts()}
        return tuple(
            (a, b)
            for a, b in combinations(range(len(self.nodes)), 2)
            if frozenset((a, b)) not in fixed and self._done_by_some(a, b) and self._done_by_some(b, a)
        )

    def _done_by_some(self, first: int, then: int) -> bool:
        return any(self.done(account, first, then) for account in self.accounts)

    def alike(self) -> Iterator[tuple[int, int]]:
        """Pairs that all accounts with both did in one order."""
        for a, b in combinations(range(len(self.nodes)), 2):
            for first, then in ((a, b), (b, a)):
                if self._done_by_some(first, then) and not self._done_by_some(then, first):
                    yield first, then

    def usual(self, node: int) -> float:
        """How far down its accounts a step stands, on the average."""
        at = self.nodes[node][1]
        return sum(place / len(account.steps) for account, place in at.items()) / len(at)

    def tools(self, node: int) -> frozenset[tuple[str, str | None, str | None]]:
        at = self.nodes[node][1]
        used = (tool for account, place in at.items() for tool in account.steps[place].tools)
        return frozenset((tool.what.casefold(), tool.value, tool.unit) for tool in used)


def _kept(told: _Told) -> tuple[list[Must], list[Must]]:
    """The musts that go together, the strongest first, and those that these contradict."""
    graph: nx.DiGraph[int] = nx.DiGraph()
    graph.add_nodes_from(range(len(told.nodes)))
    kept: list[Must] = []
    dropped: list[Must] = []
    for must in sorted(told.musts(), key=_strength):
        if nx.has_path(graph, must.then, must.first):
            dropped.append(must)
        else:
            graph.add_edge(must.first, must.then)
            kept.append(must)
    return kept, dropped


def _strength(must: Must) -> tuple[int, str, str, int, int]:
    accounts = {account for account, _ in must.said}
    oldest = min(accounts, key=lambda account: (account.date, account.id))
    return -len(accounts), oldest.date, oldest.id, must.first, must.then


def _ordered(told: _Told, musts: Iterable[Must]) -> list[int]:
    """All steps, none before one that must come first; what all did alike is kept where it fits in."""
    graph: nx.DiGraph[int] = nx.DiGraph()
    graph.add_nodes_from(range(len(told.nodes)))
    graph.add_edges_from((must.first, must.then) for must in musts)
    for first, then in sorted(
        told.alike(), key=lambda pair: (told.usual(pair[1]), told.usual(pair[0]), pair)
    ):
        if not nx.has_path(graph, then, first):
            graph.add_edge(first, then)
    order: list[int] = []
    waiting = set(graph)
    while waiting:
        ready = [node for node in waiting if not waiting & set(graph.predecessors(node))]
        hand = told.tools(order[-1]) if order else frozenset()
        chosen = min(ready, key=lambda node: (not hand & told.tools(node), told.usual(node), node))
        order.append(chosen)
        waiting.remove(chosen)
    return order
