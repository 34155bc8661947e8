"""What becomes of one number by the acts that take it: by each of them, or it ends there, and on what terms.

- Acts that give something are ways on; any of them that applies will do.
- An act that gives nothing ends the number, unless an act that does not dispute it says what to order.
- An act that says it is still current leaves the number itself, unless an undisputed later act applies.
- Where no act applies that says otherwise the number is current. So where an act only may apply, or applies
  to some machines, the number itself stands beside it.

No way takes one number by two acts that speak against one another.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from spanbook.answers.act_claims import MOST_ACTS, Claims, Said, overtaken
from spanbook.answers.condition import ALWAYS, Applies, Asked, Condition, Machines
from spanbook.ground.memo import Memo
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Supersession

Acts = frozenset[Supersession]
MOST_TERMS = 200  # acts on one way that do not apply to everybody: a longer list is read by nobody


class Ending(StrEnum):
    """Why acts lead no further; too many: it has grown past reading; goes on: it is deep enough here, and
    goes on under that number."""

    CURRENT = "current"
    GIVEN_UP = "no-longer-supplied"
    CIRCLE = "leads-back-to-itself"
    NEEDS_CIRCLE = "part-of-a-circle-of-needs"
    TOO_MANY = "too-many-to-follow"
    GOES_ON = "goes-on"


@dataclass(frozen=True, slots=True)
class Terms:
    """On what terms a way holds: the limited acts that must apply, those that must not, the conversions that
    must have been done, and what disputed acts say of which number."""

    by: Acts = frozenset()
    unless: Acts = frozenset()
    after: frozenset[str] = frozenset()
    said: frozenset[Said] = frozenset()

    def __or__(self, other: Terms) -> Terms:
        """The terms of both; the very same object where one of them adds nothing."""
        if self is other or other is NONE:
            return self
        if self is NONE:
            return other
        return Terms(
            self.by | other.by,
            self.unless | other.unless,
            self.after | other.after,
            self.said | other.said,
        )

    @property
    def many(self) -> bool:
        return sum(map(len, (self.by, self.unless, self.after, self.said))) > MOST_TERMS


NONE = Terms()


@dataclass(slots=True, eq=False)
class Branch:
    """One thing that becomes of a number: an act gives something for it, or it ends, by an act or by none."""

    act: Supersession | None
    ending: Ending | None
    terms: Terms


@dataclass(frozen=True, slots=True)
class Dropped:
    """An act that does not apply to the machine, because it is limited to other numbers."""

    act: Supersession


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
        live = [act for act in acts if not act.serials or self._applies(act) is not Applies.NO]
        dropped = tuple(Dropped(act) for act in acts if act not in live) if len(live) < len(acts) else ()
        if any(self.claims.of_number((act, key)) for act in live):
            live.sort(key=self.claims.support, reverse=True)
        found = self._branches(key, live[:MOST_ACTS])
        branches = [branch for branch in found if branch.terms is NONE or self.possible(branch.terms)]
        if len(live) > MOST_ACTS:
            branches.append(Branch(None, Ending.TOO_MANY, NONE))
        return Onward(tuple(branches), dropped)

    def against(self, act: Supersession | None) -> tuple[Supersession, ...]:
        """The acts that speak against one and may apply to whom is asked of, by their ids."""
        found = self.claims.against(act) if act else ()
        return tuple(sorted((o for o in found if self._applies(o) is not Applies.NO), key=lambda one: one.id))

    def _applies(self, act: Supersession) -> Applies:
        return self.asked.applies(self.meant(act)) if act.serials else Applies.YES

    def _branches(self, key: PartKey, live: list[Supersession]) -> Iterator[Branch]:
        saying = [act for act in live if act.new or act.current]
        for act in live:
            if act.new:
                yield Branch(act, None, self._terms(act, key))
        for act in live:
            against = self.claims.of_number((act, key))
            if not act.new and not act.current:
                others = [one for one in saying if one not in against and not overtaken(one, act)]
                yield Branch(act, Ending.GIVEN_UP, self._terms(act, key, others))
            elif act.current:
                later = [o for o in live if overtaken(act, o) and not self.claims.of_number((o, key))]
                yield Branch(act, Ending.CURRENT, self._terms(act, key, later))
        otherwise = [act for act in live if not act.current]
        if all(act.serials for act in otherwise):
            yield Branch(None, Ending.CURRENT, Terms(unless=frozenset(otherwise)))

    def _terms(self, act: Supersession, key: PartKey, unless: Sequence[Supersession] = ()) -> Terms:
        disputed = self.claims.of_number((act, key))
        if not (act.serials or act.needs or disputed or unless):
            return NONE
        terms = Terms(
            by=frozenset([act] if self._applies(act) is not Applies.YES else []),
            unless=frozenset(unless),
            after=frozenset(need.conversion for need in act.needs if need.conversion),
            said=frozenset([(act, key)] if disputed else []),
        )
        return NONE if terms == NONE else terms

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
        if terms.by & terms.unless or any(self._applies(act) is Applies.YES for act in terms.unless):
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
        if not terms.by and not terms.unless:
            return Condition(Applies.YES, None, after) if after else ALWAYS
        machines = self._machines(terms)
        applies = self.asked.applies(machines)
        rest = bool(terms.unless) and all(self._applies(act) is Applies.YES for act in terms.by)
        some = applies is not Applies.YES
        return Condition(applies, machines if some else None, after, rest and some)

    def either(self, one: Condition, other: Condition) -> Condition:
        """For whom one of two conditions holds, after the same conversions."""
        if one.machines is None or other.machines is None:
            return Condition(Applies.YES, None, one.after)
        machines = one.machines | other.machines
        applies = self.asked.applies(machines)
        return Condition(applies, None if applies is Applies.YES else machines, one.after)


_UNTOUCHED = Onward((Branch(None, Ending.CURRENT, NONE),), ())
