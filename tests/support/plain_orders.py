"""What to order, read plainly from the definitions: for one machine, in every world that its records allow.

It shares nothing with the program's answers. An act that only may apply does in some worlds and does not in
others; a span covers a number surely if it does for all ends that its bounds allow, possibly if for some. So
does one that may have been made by the year asked. A way to order applies where it is one in every world, and
may apply where it is one in some.

Acts that brought a number back make past what acts of earlier years say of it. Where others dispute such an
act, it is believed on some ways and one of the others on the rest.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import product

NEVER = 9999
SOURCES: dict[str, int | None] = {"book": 1935, "letter": None, "list": None}  # each with its year

Machine = tuple[str, int]  # a series and a number in it
ISSUED = {
    "xa": [n for n in range(1, 21) if n not in (8, 9)],
    "xb": list(range(15, 41)),
}
MACHINES = [(series, number) for series, numbers in ISSUED.items() for number in numbers]


@dataclass(frozen=True)
class PlainSpan:
    """First and last number, each somewhere from one number to another."""

    series: str
    first: tuple[int, int]
    last: tuple[int, int]

    def yaml(self) -> str:
        return f"{{series: {self.series}, first: {_end(self.first)}, last: {_end(self.last)}}}"

    def holds(self, machine: Machine) -> list[bool]:
        """Whether it covers a machine, for all ends that it may have."""
        firsts, lasts = (range(low, high + 1) for low, high in (self.first, self.last))
        ends = [(first, last) for first in firsts for last in lasts if first <= last]
        return [machine[0] == self.series and first <= machine[1] <= last for first, last in ends]


def _end(end: tuple[int, int]) -> str:
    return str(end[0]) if end[0] == end[1] else f"[{end[0]}, {end[1]}]"


# As a record has it: the year alone, one somewhere between two, or in words.
Year = int | tuple[int, int] | str | None


def typed(year: Year) -> str:
    return str(list(year)) if isinstance(year, tuple) else str(year)


def said(year: Year) -> tuple[int, int]:
    """The first and the last year that what is typed may mean."""
    if isinstance(year, str):
        word, number, *off = year.split(" ")
        return {
            "before": (-NEVER, int(number) - 1),
            "after": (int(number) + 1, NEVER),
            "about": (int(number) - int((off or ["0"])[-1]), int(number) + int((off or ["0"])[-1])),
        }[word]
    if isinstance(year, tuple):
        return year
    return (-NEVER, NEVER) if year is None else (year, year)


@dataclass(frozen=True)
class PlainAct:
    id: str
    old: tuple[tuple[str, int], ...]
    new: tuple[tuple[str, int], ...]
    current: bool = False
    again: bool = False
    alternative: bool = False
    both: bool = False
    needs: tuple[tuple[str, int], ...] = ()
    spans: tuple[PlainSpan, ...] = ()
    sources: tuple[str, ...] = ()
    year: Year = None

    def yaml(self) -> str:
        def uses(pairs: tuple[tuple[str, int], ...]) -> str:
            return ", ".join(f"{{number: {n}, quantity: {q}}}" for n, q in pairs)

        lines = [f"kind: supersession\nid: {self.id}", f"old: [{uses(self.old)}]", f"new: [{uses(self.new)}]"]
        lines += ["current: true"] if self.current else []
        lines += ["again: true"] if self.again else []
        lines += ["alternative: true"] if self.alternative else []
        lines += ["interchange: both"] if self.both else []
        lines += [f"needs: [{uses(self.needs)}]"] if self.needs else []
        lines += [f"serials: [{', '.join(span.yaml() for span in self.spans)}]"] if self.spans else []
        lines += [f"year: {typed(self.year)}"] if self.year else []
        if self.sources:
            lines.append(f"evidence: [{', '.join(f'{{source: {one}}}' for one in self.sources)}]")
        return "\n".join([*lines, ""])

    @property
    def stays(self) -> bool:
        return self.current or self.again

    @property
    def made(self) -> tuple[int, int]:
        """From which year to which; an act without one is no later than the earliest source it names."""
        first, last = said(self.year)
        named = min((year for one in self.sources if (year := SOURCES[one])), default=NEVER)
        return first, min(last, named) if named >= first else last

    def by_then(self, year: int | None) -> str:
        """Whether it was made by a year; that a number was current bears on earlier years too."""
        first, last = self.made
        if year is None or self.current or last <= year:
            return "yes"
        return "no" if first > year else "maybe"

    def applies(self, machine: Machine) -> str:
        if not self.spans:
            return "yes"
        held = [span.holds(machine) for span in self.spans]
        return "yes" if any(map(all, held)) else "maybe" if any(map(any, held)) else "no"

    def outcome(self, number: str) -> object:
        each = dict(self.old)[number]
        return self.stays, {n: Fraction(q, each) for n, q in self.new}


def before(one: PlainAct, other: PlainAct) -> bool:
    """Whether one was surely made in an earlier year than the other."""
    return one.made[1] < other.made[0] and NEVER not in (one.made[1], -other.made[0])


def earlier(current: PlainAct, act: PlainAct) -> bool:
    """Whether one says that its number was supplied in a year before the other's."""
    return current.stays and not act.stays and before(current, act)


def brings_back(every: list[PlainAct], act: PlainAct, number: str) -> bool:
    """Whether an act brought a number back: it says so, or gives it for one to which acts lead from it; and
    it is later than some act on the number."""
    if not any(before(one, act) for one in every if number in dict(one.old)):
        return False
    if number in dict(act.old):
        return act.again
    reached = {number}
    for _ in every:
        reached |= {new for one in every for old, _ in one.old if old in reached for new, _ in one.new}
    return number in dict(act.new) and any(old in reached for old, _ in act.old)


def apart(every: list[PlainAct], one: PlainAct, other: PlainAct, number: str) -> bool:
    """Whether a number was brought back, for every machine, surely between two acts on it."""
    return any(
        before(a, back) and (back is b or (abs(b.made[0]) != NEVER and b.made[0] >= back.made[1]))
        for back in every
        if not back.spans and brings_back(every, back, number)
        for a, b in ((one, other), (other, one))
    )


def dispute(every: list[PlainAct], one: PlainAct, other: PlainAct, number: str) -> bool:
    """Two acts on a number, of different sources, with different outcomes, for some machine both."""
    if apart(every, one, other, number):
        return False
    if one.alternative or other.alternative or earlier(one, other) or earlier(other, one):
        return False
    if not one.sources or not other.sources or set(one.sources) & set(other.sources):
        return False
    together = not one.spans or not other.spans
    together = together or any("no" not in (one.applies(m), other.applies(m)) for m in MACHINES)
    return together and one.outcome(number) != other.outcome(number)


Leaf = tuple[str, str]  # a number, and how its acts end there
Order = frozenset[tuple[Leaf, int]]


@dataclass(frozen=True)
class PlainWay:
    """Leaves with their quantities, which number is taken by which act, and the acts on the way to each."""

    leaves: dict[Leaf, int]
    said: frozenset[tuple[str, PlainAct]]
    led: dict[Leaf, frozenset[PlainAct]]


def ways(
    every: list[PlainAct],
    acts: list[PlainAct],
    number: str,
    quantity: int,
    above: tuple[tuple[str, bool], ...] = (),
) -> Iterator[PlainWay]:
    """Every way in one world, where of every act just some apply; `above` are the numbers that lead here,
    each with whether what follows it is a need."""
    for at, (before_it, _) in enumerate(above):
        if before_it == number:
            needed = any(need for _, need in above[at:])
            yield _end_at(number, "circle of needs" if needed else "circle", quantity)
            return
    for backs, said in _views(every, acts, number):
        for way in _viewed(every, acts, backs, number, quantity, above):
            both = way.said | said
            if _agree(every, both):
                yield PlainWay(way.leaves, both, way.led)


def _views(
    every: list[PlainAct], acts: list[PlainAct], number: str
) -> Iterator[tuple[list[PlainAct], frozenset[tuple[str, PlainAct]]]]:
    """The acts that brought a number back, as they are believed: each that others dispute may be, or one of
    those others is; with whose word is taken."""
    views: list[tuple[list[PlainAct], frozenset[tuple[str, PlainAct]]]] = [([], frozenset())]
    for act in acts:
        if not brings_back(every, act, number):
            continue
        olds = [number] if act.again else [old for old, _ in act.old]
        against = [
            (old, other)
            for old in olds
            for other in acts
            if other is not act and old in dict(other.old) and dispute(every, act, other, old)
        ]
        believed = frozenset((old, act) for old in olds)
        views = [
            *(([*backs, act], said | believed) for backs, said in views),
            *((backs, said | {word}) for backs, said in views for word in against),
        ]
    yield from views


def _viewed(
    every: list[PlainAct],
    acts: list[PlainAct],
    backs: list[PlainAct],
    number: str,
    quantity: int,
    above: tuple[tuple[str, bool], ...],
) -> Iterator[PlainWay]:
    """Every way in one world where just some acts are believed to have brought the number back."""
    all_here = [act for act in acts if number in dict(act.old)]
    here = [act for act in all_here if not any(before(act, back) for back in backs)]
    for act in here:
        if act.new:
            yield from _by(every, acts, act, number, quantity, above)
        elif act.stays and not brings_back(every, act, number):
            if not any(earlier(act, other) and not _disputed(every, other, number) for other in here):
                yield _end_at(number, "current", quantity, act)
        elif not act.stays and not any(
            (o.new or o.stays) and not dispute(every, act, o, number) and not earlier(o, act) for o in here
        ):
            yield _end_at(number, "given up", quantity, act)
    for back in backs:
        others = [act for act in all_here if not (back.again and dispute(every, back, act, number))]
        if all(act.stays or before(act, back) for act in others):
            yield _end_at(number, "current", quantity, back)
    if all(act.stays for act in all_here):
        yield _end_at(number, "current", quantity)


def _agree(every: list[PlainAct], said: frozenset[tuple[str, PlainAct]]) -> bool:
    """Whether no number is taken by two acts that speak against one another."""
    return not any(
        n == m and one is not other and dispute(every, one, other, n) for n, one in said for m, other in said
    )


def _disputed(every: list[PlainAct], act: PlainAct, number: str) -> bool:
    return any(o is not act and number in dict(o.old) and dispute(every, act, o, number) for o in every)


def _end_at(number: str, ending: str, quantity: int, *by: PlainAct) -> PlainWay:
    leaf = (number, ending)
    said = frozenset((number, act) for act in by if number in dict(act.old))
    return PlainWay({leaf: quantity}, said, {leaf: frozenset(by)})


def _by(
    every: list[PlainAct],
    acts: list[PlainAct],
    act: PlainAct,
    number: str,
    quantity: int,
    above: tuple[tuple[str, bool], ...],
) -> Iterator[PlainWay]:
    times = -(-quantity // dict(act.old)[number])
    below = [
        list(ways(every, acts, n, q * times, (*above, (number, need))))
        for pairs, need in ((act.new, False), (act.needs, True))
        for n, q in pairs
    ]
    for together in product(*below):
        leaves = sum((Counter(way.leaves) for way in together), Counter[Leaf]())
        said = frozenset({(number, act)}).union(*(way.said for way in together))
        led = {
            leaf: frozenset({act}).union(*(way.led.get(leaf, frozenset()) for way in together))
            for leaf in leaves
        }
        if _agree(every, said):
            yield PlainWay(dict(leaves), said, led)


def worlds(acts: list[PlainAct], machine: Machine, year: int | None = None) -> Iterator[list[PlainAct]]:
    """The acts that apply to a machine and were made by a year, in every world."""
    choices = {"yes": (True,), "maybe": (True, False), "no": (False,)}
    for meant in product(*(choices[act.applies(machine)] for act in acts)):
        for made in product(*(choices[act.by_then(year)] for act in acts)):
            yield [act for act, *both in zip(acts, meant, made, strict=True) if all(both)]


@dataclass
class Read:
    """A way to order: in how many of the worlds it is one, and the acts that lead to each leaf."""

    worlds: int
    led: dict[Leaf, set[str]]


def read(
    acts: list[PlainAct], machine: Machine, number: str, quantity: int, year: int | None = None
) -> dict[Order, tuple[str, Read]]:
    """Every way to order for a machine, today or in a year, with whether it applies."""
    found: dict[Order, Read] = {}
    count = 0
    for world in worlds(acts, machine, year):
        count += 1
        seen: set[Order] = set()
        for way in ways(acts, world, number, quantity):
            order = frozenset(way.leaves.items())
            kept = found.setdefault(order, Read(0, {leaf: set() for leaf in way.leaves}))
            kept.worlds += order not in seen
            seen.add(order)
            for leaf, led in way.led.items():
                kept.led[leaf] |= {act.id for act in led}
    return {order: ("yes" if one.worlds == count else "maybe", one) for order, one in found.items()}


def instead(
    acts: list[PlainAct], machine: Machine, number: str, year: int | None = None
) -> dict[tuple[str, ...], str]:
    """What else would do for a machine: over acts that surely apply, or over such as may."""
    found: dict[tuple[str, ...], str] = {}
    for enough, word in ((("yes", "maybe"), "maybe"), (("yes",), "yes")):
        live = [act for act in acts if act.applies(machine) in enough and act.by_then(year) in enough]
        for keys in _reached(live, number):
            found[keys] = word
    return found


def _reached(acts: list[PlainAct], number: str) -> set[tuple[str, ...]]:
    reached: set[tuple[str, ...]] = set()
    waiting, seen = [number], {number}
    while waiting:
        at = waiting.pop()
        sides = [tuple(dict(act.new)) for act in acts if at in dict(act.old)]
        sides += [
            tuple(dict(act.old)) for act in acts if act.both and len(act.new) == 1 and at in dict(act.new)
        ]
        for side in sides:
            if side and number not in side:
                reached.add(side)
                if len(side) == 1 and side[0] not in seen:
                    seen.add(side[0])
                    waiting.append(side[0])
    return reached


def circles(acts: list[PlainAct]) -> tuple[bool, bool]:
    """Whether acts lead back to their start for any machine, and whether any need one another: in any choice
    of those that may apply, on anybody's word, of what is not past."""
    pure = needing = False
    choices = {"yes": (True,), "maybe": (True, False), "no": (False,)}
    for machine in (None, *MACHINES):
        sure = [("no" if act.spans else "yes") if machine is None else act.applies(machine) for act in acts]
        believed = [
            "maybe" if one == "yes" and any(_disputed(acts, act, old) for old, _ in act.old) else one
            for act, one in zip(acts, sure, strict=True)
        ]
        for chosen in product(*(choices[one] for one in believed)):
            live = [act for act, kept in zip(acts, chosen, strict=True) if kept]
            for needed in _circles(acts, live):
                pure, needing = pure or not needed, needing or needed
    return pure, needing


def _circles(every: list[PlainAct], acts: list[PlainAct]) -> Iterator[bool]:
    """For every circle of numbers, whether anything on it is only needed."""
    edges = {
        (old, to, need)
        for act in acts
        for old, _ in act.old
        if not any(before(act, back) and brings_back(every, back, old) for back in acts)
        for pairs, need in ((act.new, False), (act.needs, True))
        for to, _ in pairs
    }

    def walk(start: str, at: str, been: tuple[str, ...], needed: bool) -> Iterator[bool]:
        for old, to, need in edges:
            if old == at and to == start:
                yield needed or need
            elif old == at and to not in been:
                yield from walk(start, to, (*been, to), needed or need)

    for start in {old for old, _, _ in edges}:
        yield from walk(start, start, (start,), False)
