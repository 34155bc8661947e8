"""What becomes of one number by the acts that take it: by each of them, or it ends there, and on what terms.

- Acts that give something are ways on; any of them that applies will do.
- An act that gives nothing ends the number, unless an act that does not dispute it says what to order.
- An act that says it is still current leaves the number itself, unless an undisputed later act applies.
- An act that brought the number back leaves the number itself, unless an act applies that was made since and
  that does not dispute it; no act of an earlier year applies.
- Where no act applies that says otherwise the number is current. So where an act only may apply, or applies
  to some machines, the number itself stands beside it.

No way takes one number by two acts that speak against one another.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from itertools import product
from math import prod

from spanbook.answers.act_claims import MOST_ACTS, Claims, Said
from spanbook.answers.condition import ALWAYS, Applies, Asked, Condition, Machines
from spanbook.answers.terms import NONE, Terms
from spanbook.ground.memo import Memo
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Supersession

MOST_COMBINED = 100  # terms on which one act holds: where more acts than that meet, nobody reads on


class Ending(StrEnum):
    """Why acts lead no further; too many: it has grown past reading; goes on: it is deep enough here, and
    goes on under that number."""

    CURRENT = "current"
    GIVEN_UP = "no-longer-supplied"
    CIRCLE = "leads-back-to-itself"
    NEEDS_CIRCLE = "part-of-a-circle-of-needs"
    TOO_MANY = "too-many-to-follow"
    GOES_ON = "goes-on"


@dataclass(slots=True, eq=False)
class Branch:
    """One thing that becomes of a number: an act gives something for it, or it ends, by an act or by none."""

    act: Supersession | None
    ending: Ending | None
    terms: Terms


class Why(StrEnum):
    """Why an act does not apply."""

    OTHER_MACHINES = "limited-to-other-machines"
    NOT_YET = "not-made-by-then"
    PAST = "brought-back-since"


@dataclass(frozen=True, slots=True)
class Dropped:
    """An act that does not apply, and why; `back` is the act that brought the number back after it."""

    act: Supersession
    why: Why
    back: Supersession | None = None


@dataclass(slots=True, eq=False)
class Onward:
    """Everything that may become of a number, and the acts that do not apply."""

    branches: tuple[Branch, ...]
    dropped: tuple[Dropped, ...]


class Following:
    """The acts of a register as they apply to whom is asked of."""

    def __init__(self, asked: Asked, claims: Claims | None = None) -> None:
        self.asked = asked
        self.claims = claims or Claims(asked.register)
        self.years = self.claims.years
        self.possible = Memo(self._possible)
        self.condition = Memo(self._condition)
        self.meant = Memo(self._meant)

    def _meant(self, act: Supersession) -> Machines:
        return self.asked.meant(act.serials)

    def onward(self, key: PartKey) -> Onward:
        """Everything that may become of a number."""
        parts = self.asked.register.parts
        acts = parts[key].old_in if key in parts else ()
        if not acts:
            return _UNTOUCHED
        live = [act for act in acts if self._live(act)]
        dropped = [self._not_live(act) for act in acts if act not in live] if len(live) < len(acts) else []
        if any(self.claims.of_number((act, key)) for act in live):
            live.sort(key=self.claims.support, reverse=True)
        found = self._branches(key, live[:MOST_ACTS])
        branches = [branch for branch in found if branch.terms is NONE or self.possible(branch.terms)]
        if len(live) > MOST_ACTS:
            branches.append(Branch(None, Ending.TOO_MANY, NONE))
        if self.years.returns(key):
            told = {branch.act for branch in branches}
            dropped += (self._past(act, key) for act in live if act not in told)
        return Onward(tuple(branches), tuple(dropped))

    def against(self, act: Supersession | None) -> tuple[Supersession, ...]:
        """The acts that speak against one and may apply to whom is asked of, by their ids."""
        found = self.claims.against(act) if act else ()
        return tuple(sorted((other for other in found if self._live(other)), key=lambda one: one.id))

    def _live(self, act: Supersession) -> bool:
        """Whether an act may apply."""
        return Applies.NO not in (self._for_machine(act), self.by_then(act))

    def _sure(self, act: Supersession) -> bool:
        """Whether an act surely applies to all that is asked of."""
        return self._for_machine(act) is self.by_then(act) is Applies.YES

    def _for_machine(self, act: Supersession) -> Applies:
        return self.asked.applies(self.meant(act)) if act.serials else Applies.YES

    def by_then(self, act: Supersession) -> Applies:
        """Whether an act was made by the year asked of. That a number was still current in a year bears on
        the years before as well."""
        year = self.asked.year
        if year is None or act.current:
            return Applies.YES
        made = self.years.made(act)
        if made.first is not None and made.first > year:
            return Applies.NO
        return Applies.YES if made.last is not None and made.last <= year else Applies.MAYBE

    def _not_live(self, act: Supersession) -> Dropped:
        return Dropped(act, Why.NOT_YET if self.by_then(act) is Applies.NO else Why.OTHER_MACHINES)

    def _past(self, act: Supersession, key: PartKey) -> Dropped:
        return Dropped(act, Why.PAST, next(iter(self.years.past_by((act, key))), None))

    def _branches(self, key: PartKey, live: list[Supersession]) -> Iterator[Branch]:
        saying = [act for act in live if act.new or act.stays]
        backs = [act for act in self.years.returns(key) if self._live(act)]
        for act in live:
            if act.new:
                yield from self._each(act, None, key)
        for act in live:
            against = self.claims.of_number((act, key))
            if not act.new and not act.stays:
                others = [one for one in saying if one not in against and not self.years.overtaken(one, act)]
                yield from self._each(act, Ending.GIVEN_UP, key, [self._no_say(one, key) for one in others])
            elif act.stays and act not in backs:
                later = [
                    o for o in live if self.years.overtaken(act, o) and not self.claims.of_number((o, key))
                ]
                yield from self._each(act, Ending.CURRENT, key, [self._off(one) for one in later])
        otherwise = [act for act in live if not act.stays]
        for act in backs:
            disputing = self.claims.of_number((act, key)) if act.again else ()
            others = [one for one in otherwise if one not in disputing and not self.years.before(one, act)]
            since = [self._off(one) for one in others]
            yield from _every(act, Ending.CURRENT, [[self._back(act, key)], *since])
        yield from _every(None, Ending.CURRENT, [self._off(act) for act in otherwise])

    def _each(
        self, act: Supersession, ending: Ending | None, key: PartKey, besides: Sequence[list[Terms]] = ()
    ) -> Iterator[Branch]:
        """What an act makes of a number, on all terms on which it does and is not past."""
        not_past = [self._still(back, key) for back in self.years.past_by((act, key)) if self._live(back)]
        yield from _every(act, ending, [[self._terms(act, key)], *besides, *not_past])

    def _terms(self, act: Supersession, key: PartKey) -> Terms:
        disputed = self.claims.of_number((act, key))
        sure = self._sure(act)
        if sure and not act.needs and not disputed:
            return NONE
        terms = Terms(
            by=frozenset([] if sure else [act]),
            after=frozenset(need.conversion for need in act.needs if need.conversion),
            said=frozenset([(act, key)] if disputed else []),
        )
        return NONE if terms == NONE else terms

    def _off(self, act: Supersession) -> list[Terms]:
        """Every way in which an act does not apply: not to the machine, or not by then."""
        found = [] if self._for_machine(act) is Applies.YES else [Terms(unless=frozenset([act]))]
        return found if self.by_then(act) is Applies.YES else [*found, Terms(unmade=frozenset([act]))]

    def _no_say(self, act: Supersession, key: PartKey) -> list[Terms]:
        """Every way in which an act has no say on a number: it does not apply, or is past."""
        backs = (back for back in self.years.past_by((act, key)) if self._live(back))
        return [*self._off(act), *(self._back(back, key) for back in backs)]

    def _back(self, act: Supersession, key: PartKey) -> Terms:
        """On what terms an act brought a number back."""
        said = (one for one in self._said(act, key) if self.claims.of_number(one))
        terms = Terms(by=frozenset([] if self._sure(act) else [act]), said=frozenset(said))
        return NONE if terms == NONE else terms

    def _still(self, back: Supersession, key: PartKey) -> list[Terms]:
        """Every way in which a number was not brought back: the act does not apply, or is not believed."""
        against = (
            (other, number)
            for _, number in self._said(back, key)
            for other in self.claims.of_number((back, number))
            if self._live(other)
        )
        believed = (
            Terms(by=frozenset([] if self._sure(other) else [other]), said=frozenset([(other, number)]))
            for other, number in against
        )
        return [*self._off(back), *believed]

    def _said(self, act: Supersession, key: PartKey) -> list[Said]:
        """What an act that brought a number back rests on: what it says of that, or of what it replaced."""
        if act.again:
            return [(act, key)]
        return [(act, old) for old in dict.fromkeys(self.asked.register.key_of(act, use) for use in act.old)]

    def _possible(self, terms: Terms) -> bool:
        """Whether there is any machine for which the terms may hold, and no quarrel over a number."""
        if any(
            (other, key) in terms.said
            for act, key in terms.said
            for other in self.claims.of_number((act, key))
        ):
            return False
        if not terms.by and not terms.unless:
            return True
        if terms.by & (terms.unless | terms.unmade):
            return False
        return self.asked.applies(self._machines(terms)) is not Applies.NO

    def _machines(self, terms: Terms) -> Machines:
        found = self.asked.everyone
        for act in terms.by:
            found &= self.meant(act)
        for act in terms.unless:
            found = found.without(self.meant(act))
        return found

    def _condition(self, terms: Terms) -> Condition:
        """For whom the terms hold."""
        after = tuple(sorted(terms.after))
        if not terms.by and not terms.unless and not terms.unmade:
            return Condition(Applies.YES, None, after) if after else ALWAYS
        made = tuple(sorted(act.id for act in terms.by if self.by_then(act) is Applies.MAYBE))
        unmade = tuple(sorted(act.id for act in terms.unmade))
        machines = self._machines(terms)
        meant = self.asked.applies(machines)
        some = meant is not Applies.YES
        limited = any(self._for_machine(act) is not Applies.YES for act in terms.by)
        rest = some and not limited
        return Condition(meant, machines if some else None, after, rest, made, unmade)

    def either(self, one: Condition, other: Condition) -> Condition:
        """For whom one of two conditions holds, of the same sort."""
        if one.machines is None or other.machines is None:
            return replace(one, meant=Applies.YES, machines=None, rest=False)
        machines = one.machines | other.machines
        meant = self.asked.applies(machines)
        return replace(one, meant=meant, machines=None if meant is Applies.YES else machines, rest=False)


def _every(
    act: Supersession | None, ending: Ending | None, options: Sequence[Sequence[Terms]]
) -> Iterator[Branch]:
    """What an act makes of a number, on all terms that take one of each of several lists."""
    if prod(map(len, options)) > MOST_COMBINED:
        yield Branch(None, Ending.TOO_MANY, NONE)
        return
    for each in product(*options):
        found = NONE
        for terms in each:
            found |= terms
        yield Branch(act, ending, found)


_UNTOUCHED = Onward((Branch(None, Ending.CURRENT, NONE),), ())
