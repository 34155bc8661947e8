"""How an assembly comes apart, from all accounts of it: one order that breaks nothing anybody says must be.

- What comes off together in every account that speaks of it is one step of the sheet; a step that frees
  nothing is one by its id. What stands in one place of the parts list is one thing, whichever of its numbers
  an account names; for one machine the sheet names those that it has there.
- *After* with a reason must be. The mere order of an account is how it was done: it is kept while no other
  account did the reverse, and dropped (either may come first) as soon as one did.
- What one says must be and another did in reverse is disputed: both are told, and the sheet keeps what must
  be. Of two that say the reverse of one another the one with more accounts is kept, then the older.
- The order keeps what must be and what all did alike, with the fewest changes of tool in hand that a look at
  the next step finds; equals stay where the accounts have them.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from spanbook.answers.accounts import Must, Said, SheetStep, Told
from spanbook.answers.freed import Freed, at_place
from spanbook.answers.lines import Lists
from spanbook.answers.orders import Orders, orders
from spanbook.answers.readings import Reading
from spanbook.ground.knots import leads
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Assembly, StripDown
from spanbook.register.model import Register


@dataclass(frozen=True, slots=True)
class Sheet:
    """An assembly taken apart, on `machine` or on any; `musts` and `either` speak of `steps` by their place.

    `either` are pairs that were done both ways round. `stays` is what somebody left on, `untold` what the
    parts list has and no account speaks of. `dropped` are musts that others contradict.
    """

    assembly: Assembly
    machine: Reading | None
    accounts: tuple[StripDown, ...]
    steps: tuple[SheetStep, ...]
    musts: tuple[Must, ...]
    dropped: tuple[Must, ...]
    either: tuple[tuple[int, int], ...]
    stays: tuple[Freed, ...]
    untold: tuple[Freed, ...]

    @property
    def cautions(self) -> tuple[str, ...]:
        """The ids of the assembly's cautions, then those of its steps, each once."""
        of_steps = (id_ for step in self.steps for one in step.said for id_ in one.step.cautions)
        return tuple(dict.fromkeys((*self.assembly.cautions, *of_steps)))

    @property
    def renewed(self) -> tuple[Freed, ...]:
        """What is renewed, as far as the machine has it."""
        return tuple(freed for step in self.steps if step.renew for freed in step.frees if freed.choices)

    def renewed_by(self, freed: Freed) -> tuple[Said, ...]:
        """Who says of something that is renewed that it never goes back."""
        step = next(step for step in self.steps if freed in step.frees)
        return tuple(one for one in step.said if one.step.renew)

    @property
    def tray(self) -> tuple[Freed, ...]:
        """What lies on the tray in the end, in the order in which it comes off."""
        return tuple(freed for step in self.steps for freed in step.frees if freed.choices)


def renewals(register: Register, freed: Freed) -> tuple[Orders, ...]:
    """What is ordered today for each of the numbers that something may be, on the machine asked of."""
    return tuple(orders(register, one.key, one.quantity, freed.machine) for one in freed.choices)


def sheet_of(
    lists: Lists, assembly: Assembly, accounts: Sequence[StripDown], machine: Reading | None = None
) -> Sheet | None:
    """The sheet of an assembly by all accounts of it, on one machine or on any; None where nobody has told of
    taking it apart."""
    if not accounts:
        return None
    told = Told(lists, assembly, accounts, machine)
    musts, dropped = _kept(told)
    order = _ordered(told, musts)
    place = {node: at for at, node in enumerate(order)}
    steps = tuple(told.step(node) for node in order)
    gone = {key for step in steps for freed in step.frees for key in freed.told}
    left_on: dict[PartKey, list[tuple[PartKey, int]]] = {}
    for account in accounts:
        for use in account.stays:
            left_on.setdefault(told.name(account, use), []).append(told.taken(account, use))
    told_of = {*gone, *(key for each in left_on.values() for key, _ in each)}
    untold = (place for place in lists.places(assembly) if not told_of & set(place.keys))
    return Sheet(
        assembly,
        machine,
        tuple(accounts),
        steps,
        tuple(sorted((_moved(must, place) for must in musts), key=_by_place)),
        tuple(sorted((_moved(must, place) for must in dropped), key=_by_place)),
        _either(told, musts, place),
        tuple(told.freed(name, taken) for name, taken in left_on.items()),
        tuple(freed for place in untold if (freed := at_place(lists, place, (), machine)).choices),
    )


def _either(told: Told, musts: Iterable[Must], place: Mapping[int, int]) -> tuple[tuple[int, int], ...]:
    """The pairs that were done both ways round and that nothing orders, by their places."""
    onward: defaultdict[int, list[int]] = defaultdict(list)
    for must in musts:
        onward[must.first].append(must.then)
    pairs = ((a, b) for a, b in told.both_ways if not leads(a, b, onward) and not leads(b, a, onward))
    return tuple(sorted((min(place[a], place[b]), max(place[a], place[b])) for a, b in pairs))


def _moved(must: Must, place: Mapping[int, int]) -> Must:
    return Must(place[must.first], place[must.then], must.said, must.against)


def _by_place(must: Must) -> tuple[int, int]:
    return must.then, must.first


def _kept(told: Told) -> tuple[list[Must], list[Must]]:
    """The musts that go together, the strongest first, and those that these contradict."""
    onward: defaultdict[int, list[int]] = defaultdict(list)
    kept: list[Must] = []
    dropped: list[Must] = []
    for must in sorted(told.musts(), key=_strength):
        if leads(must.then, must.first, onward):
            dropped.append(must)
        else:
            onward[must.first].append(must.then)
            kept.append(must)
    return kept, dropped


def _strength(must: Must) -> tuple[int, str, str, int, int]:
    accounts = {account for account, _ in must.said}
    oldest = min(accounts, key=lambda account: (account.date, account.id))
    return -len(accounts), oldest.date, oldest.id, must.first, must.then


def _ordered(told: Told, musts: Iterable[Must]) -> list[int]:
    """All steps, none before one that must come first; what all did alike is kept where it fits in."""
    onward: defaultdict[int, list[int]] = defaultdict(list)
    earlier: defaultdict[int, set[int]] = defaultdict(set)

    def add(first: int, then: int) -> None:
        onward[first].append(then)
        earlier[then].add(first)

    for must in musts:
        add(must.first, must.then)
    for first, then in sorted(
        told.alike(), key=lambda pair: (told.usual(pair[1]), told.usual(pair[0]), pair)
    ):
        if not leads(then, first, onward):
            add(first, then)
    order: list[int] = []
    waiting = set(range(len(told.nodes)))
    while waiting:
        ready = [node for node in waiting if not waiting & earlier[node]]
        hand = told.tools(order[-1]) if order else frozenset()
        chosen = min(ready, key=lambda node: (not hand & told.tools(node), told.usual(node), node))
        order.append(chosen)
        waiting.remove(chosen)
    return order
