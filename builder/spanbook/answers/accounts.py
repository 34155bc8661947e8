"""The accounts of one assembly laid beside one another: the steps that they share, and the order of each."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

from spanbook.answers.freed import Freed, at_place, unlisted
from spanbook.answers.lines import ListPlace, Lists
from spanbook.answers.readings import Reading
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Assembly, PartUse, StripDown, StripStep


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


class Told:
    """The accounts laid beside one another: the steps they share, and in which order each did them."""

    def __init__(
        self, lists: Lists, assembly: Assembly, accounts: Sequence[StripDown], machine: Reading | None
    ) -> None:
        self.lists, self.accounts, self.machine = lists, accounts, machine
        self._places: Mapping[PartKey, ListPlace] = lists.place_of(assembly)
        # Of every part and every step that frees nothing: in which step of each account it is.
        self._where: dict[PartKey | str, dict[StripDown, int]] = {}
        for account in accounts:
            for at, step in enumerate(account.steps):
                names: list[PartKey | str] = [self.name(account, use) for use in step.frees]
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

    def _freed(self, name: PartKey, said: Iterable[Said]) -> Freed:
        """What comes off at one place, by the accounts that tell of it."""
        uses = ((one.account, use) for one in said for use in one.step.frees)
        return self.freed(name, [self.taken(*each) for each in uses if self.name(*each) == name])

    def freed(self, name: PartKey, taken: Sequence[tuple[PartKey, int]]) -> Freed:
        """What the machine has at a place, where accounts took off these."""
        place = self._places.get(name)
        return at_place(self.lists, place, taken, self.machine) if place else unlisted(taken, self.machine)

    def taken(self, account: StripDown, use: PartUse) -> tuple[PartKey, int]:
        return self.lists.register.key_of(account, use), use.quantity

    def name(self, account: StripDown, use: PartUse) -> PartKey:
        """What stands for a number and for all that may be in its place: the first number there."""
        key = self.lists.register.key_of(account, use)
        place = self._places.get(key)
        return place.keys[0] if place else key

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
