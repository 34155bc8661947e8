"""What different sources say of one old number, where they differ: each act is a claim against the others.

Acts of one source are free alternatives, and so is an act that says it is one; an act that names no evidence
speaks against nothing. That a number was still current in a year is not denied by an act of a later year, and
what was said of a number before it was brought back not by what is said of it since.
"""

from __future__ import annotations

from enum import IntEnum
from fractions import Fraction
from itertools import islice

from spanbook.answers.act_years import ActYears
from spanbook.answers.condition import Asked, Machines
from spanbook.ground.memo import Memo
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import PartUse, Supersession
from spanbook.register.model import Register

MOST_ACTS = 200  # on one number that are held against one another: a thicket must not hang the builder

Said = tuple[Supersession, PartKey]  # what an act says of one of its old numbers
Outcome = tuple[bool, frozenset[tuple[PartKey, Fraction]]]


class Support(IntEnum):
    """How well an act is supported by what it names, weakest first: by a memory, or by what can be read."""

    NOTHING = 0
    RECALLED = 1
    SHOWN = 2


def counted(register: Register, act: Supersession, uses: tuple[PartUse, ...]) -> dict[PartKey, int]:
    """How many of each number, the same number's lines added."""
    counts: dict[PartKey, int] = {}
    for use in uses:
        key = register.key_of(act, use)
        counts[key] = counts.get(key, 0) + use.quantity
    return counts


class Claims:
    """Which acts of a register speak against which."""

    def __init__(self, register: Register) -> None:
        self.register = register
        self.years = ActYears(register)
        self.against = Memo(self._against)
        self.of_number = Memo(self._of_number)
        self._limits: Memo[Supersession, Machines] = Memo(lambda act: Asked(register).meant(act.serials))
        self._outcomes = Memo(self._outcome)

    def _against(self, act: Supersession) -> frozenset[Supersession]:
        """All that speak against what an act says of any of its old numbers."""
        keys = counted(self.register, act, act.old)
        return frozenset[Supersession]().union(*(self.of_number((act, key)) for key in keys))

    def _of_number(self, said: Said) -> frozenset[Supersession]:
        """Those that speak against what an act says of one of its old numbers."""
        act, key = said
        acts = self.register.parts[key].old_in
        if len(acts) == 1 or act.alternative:
            return frozenset()
        return frozenset(other for other in islice(acts, MOST_ACTS) if self._differ(act, other, key))

    def _differ(self, one: Supersession, other: Supersession, key: PartKey) -> bool:
        if other.alternative or self._outcomes((one, key)) == self._outcomes((other, key)):
            return False
        mine, theirs = _rests_on(one), _rests_on(other)
        if not mine or not theirs or mine & theirs:
            return False
        if any(self.years.overtaken(*two) for two in ((one, other), (other, one))):
            return False
        if self.years.apart(one, other, key):
            return False
        limited = one.serials and other.serials
        return not limited or bool((self._limits(one) & self._limits(other)).runs)

    def _outcome(self, said: Said) -> Outcome:
        """What an act gives for one of a number."""
        act, key = said
        each = counted(self.register, act, act.old)[key]
        new = counted(self.register, act, act.new).items()
        return act.stays, frozenset((k, Fraction(n, each)) for k, n in new)

    def support(self, act: Supersession) -> Support:
        """By the best that it names as evidence."""
        named = [one for one in act.evidence if not one.against]
        sources = [self.register.sources.get(one.source) for one in named if one.source]
        recalled = [source for source in sources if source and source.sort == "recollection"]
        if len(recalled) < len(named):
            return Support.SHOWN
        return Support.RECALLED if recalled else Support.NOTHING


def _rests_on(act: Supersession) -> frozenset[tuple[str | None, str | None]]:
    return frozenset((one.source, one.teardown) for one in act.evidence if not one.against)
