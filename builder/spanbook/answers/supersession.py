"""What replaces a number today, act by act.

An act takes all its old numbers and gives all its new ones. Being replaced is transitive and not symmetric.
It is claimed act by act, so the answer keeps the acts it went by, each with its condition.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from spanbook.answers.act_claims import counted
from spanbook.answers.condition import ALWAYS, Asked, Condition
from spanbook.answers.onward import Branch, Dropped, Ending, Following
from spanbook.answers.readings import Reading
from spanbook.answers.terms import NONE, Terms
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import ActNeed, Supersession
from spanbook.register.model import Register

MOST_NEEDS = 2000  # in one tree: beyond it nobody reads, and a thicket must not hang the builder
DEEPEST = 20  # acts in a row: whoever wants to read on asks for the number where a tree stops
MOST_QUANTITY = 1_000_000_000


@dataclass(frozen=True, slots=True)
class Step:
    """One act, done `times`: everything in `gives` together, and what must go with it in `besides`.

    `spare` is how many of the old number the whole multiples cover too many; `together` are the other old
    numbers that the act replaces at the same time; `against` are the acts that speak against it.
    """

    act: Supersession
    times: int
    spare: int
    together: tuple[tuple[PartKey, int], ...]
    gives: tuple[Need, ...]
    besides: tuple[Need, ...]
    conversions: tuple[ActNeed, ...]
    condition: Condition
    against: tuple[Supersession, ...]


@dataclass(frozen=True, slots=True)
class End:
    """A way that ends at a number: how, by which act if any says so, for whom, and the acts against it."""

    ending: Ending
    act: Supersession | None = None
    condition: Condition = ALWAYS
    against: tuple[Supersession, ...] = ()

    @property
    def back(self) -> bool:
        """Whether it ends because the number was brought back."""
        return self.ending is Ending.CURRENT and self.act is not None and bool(self.act.new or self.act.again)


@dataclass(frozen=True, slots=True)
class Need:
    """A number and how many of it: any one of `steps` replaces it, or it ends here in one of `ends`."""

    key: PartKey
    quantity: int
    steps: tuple[Step, ...]
    ends: tuple[End, ...]
    dropped: tuple[Dropped, ...] = ()

    @property
    def ending(self) -> Ending | None:
        """How it ends where no act leads on."""
        return None if self.steps or not self.ends else self.ends[0].ending


def order_now(
    register: Register,
    key: PartKey,
    quantity: int = 1,
    reading: Reading | None = None,
    year: int | None = None,
) -> Need:
    """The tree of what replaces so many of a number: today or in a year, on one machine or on any."""
    return tree(Following(Asked(register, reading, year)), key, quantity)


def tree(following: Following, key: PartKey, quantity: int = 1) -> Need:
    """The tree of what replaces so many of a number, for whom is asked of."""
    return _Tree(following).need(key, quantity, NONE, ())


@dataclass(slots=True)
class _Tree:
    following: Following
    made: int = field(default=0)

    def need(
        self, key: PartKey, quantity: int, terms: Terms, above: tuple[tuple[PartKey, bool], ...]
    ) -> Need:
        """`above` are the numbers that lead here, each with whether what follows only goes with its act."""
        self.made += 1
        for at, (number, _) in enumerate(above):
            if number == key:
                needed = any(beside for _, beside in above[at:])
                return _ended(key, quantity, Ending.NEEDS_CIRCLE if needed else Ending.CIRCLE)
        if self.made > MOST_NEEDS or quantity > MOST_QUANTITY or terms.many:
            return _ended(key, quantity, Ending.TOO_MANY)
        onward = self.following.onward(key)
        live = [b for b in onward.branches if self.following.possible(terms | b.terms)]
        ends = tuple(self._end(branch) for branch in live if branch.ending)
        if len(above) == DEEPEST and any(branch.ending is None for branch in live):
            return Need(key, quantity, (), (End(Ending.GOES_ON), *ends), onward.dropped)
        steps = tuple(
            self._step(branch, branch.act, key, quantity, terms, above)
            for branch in live
            if branch.act and not branch.ending
        )
        return Need(key, quantity, steps, ends, onward.dropped)

    def _end(self, branch: Branch) -> End:
        assert branch.ending is not None, "it ends"
        condition = self.following.condition(branch.terms)
        return End(branch.ending, branch.act, condition, self.following.against(branch.act))

    def _step(
        self,
        branch: Branch,
        act: Supersession,
        key: PartKey,
        quantity: int,
        terms: Terms,
        above: tuple[tuple[PartKey, bool], ...],
    ) -> Step:
        done = multiplied(self.following.asked.register, act, key, quantity)
        here = terms | branch.terms

        def below(numbers: Mapping[PartKey, int], beside: bool) -> tuple[Need, ...]:
            return tuple(self.need(k, n, here, (*above, (key, beside))) for k, n in numbers.items())

        return Step(
            act=act,
            times=done.times,
            spare=done.old[key] - quantity,
            together=tuple((k, n) for k, n in done.old.items() if k != key),
            gives=below(done.new, False),
            besides=below(done.besides, True),
            conversions=tuple(n for n in act.needs if n.conversion),
            condition=self.following.condition(branch.terms),
            against=self.following.against(act),
        )


def _ended(key: PartKey, quantity: int, ending: Ending) -> Need:
    return Need(key, quantity, (), (End(ending),))


@dataclass(frozen=True, slots=True)
class Multiplied:
    """An act done as often as it takes, in whole multiples: how many of each number it takes and gives."""

    times: int
    old: Mapping[PartKey, int]
    new: Mapping[PartKey, int]
    besides: Mapping[PartKey, int]


def multiplied(register: Register, act: Supersession, key: PartKey, quantity: int) -> Multiplied:
    """An act done for so many of one of its old numbers."""
    times = -(-quantity // counted(register, act, act.old)[key])
    parts = tuple(need.part for need in act.needs if need.part)
    old, new, besides = (
        {k: n * times for k, n in counted(register, act, uses).items()} for uses in (act.old, act.new, parts)
    )
    return Multiplied(times, old, new, besides)


def acts_of(need: Need) -> Iterator[tuple[int, Step | End]]:
    """Every act of a tree with how deep it stands, each below what it follows from."""
    waiting: list[tuple[int, Step | End]] = [(0, one) for one in reversed(_acts(need, None))]
    while waiting:
        depth, one = waiting.pop()
        yield depth, one
        if isinstance(one, Step):
            for child in reversed((*one.gives, *one.besides)):
                waiting.extend((depth + 1, after) for after in reversed(_acts(child, one.act)))


def _acts(need: Need, by: Supersession | None) -> tuple[Step | End, ...]:
    """The acts of a number; that it was brought back by the act that leads to it is told there."""
    return *need.steps, *(end for end in need.ends if end.act and end.act is not by)


def steps_of(need: Need) -> Iterator[tuple[int, Step]]:
    """Every act of a tree that gives something, with how deep it stands."""
    return ((depth, one) for depth, one in acts_of(need) if isinstance(one, Step))
