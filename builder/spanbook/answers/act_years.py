"""When acts were made, and what is past by them: numbers withdrawn and brought back.

An act was made in the year that it says, or in one of those that it may mean. Where it does not say one year
it was made no later than the earliest dated source that it names.

A number is brought back by an act that says so (`again`), or by one that gives it for a number to which acts
lead from it: P replaced by Q in 1934, Q by P in 1937. What acts of surely earlier years said of the number is
then past. Where the years do not tell which came first nothing is past, and the circle stays one.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product
from math import inf

from spanbook.ground.knots import knots
from spanbook.ground.memo import Memo, kept
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.dated import between
from spanbook.reading.records import Supersession
from spanbook.register.model import Register

_Said = tuple[Supersession, PartKey]


@dataclass(frozen=True, slots=True)
class Made:
    """The years between which an act was made, both included; None where nothing bounds it."""

    first: int | None
    last: int | None

    def before(self, other: Made) -> bool:
        """Whether it was surely made in an earlier year."""
        return self.last is not None and other.first is not None and self.last < other.first


class ActYears:
    """The years of the acts of a register."""

    def __init__(self, register: Register) -> None:
        self.register = register
        self.made = Memo(self._made)
        self.returns = Memo(self._returns)
        self.past_by = Memo(self._past_by)

    def _made(self, act: Supersession) -> Made:
        first, last = between(act.year)
        named = (
            self.register.sources.get(one.source) for one in act.evidence if one.source if not one.against
        )
        printed = min((between(source.year)[1] for source in named if source), default=inf)
        # What its own year excludes is not believed of its sources: a later printing says the older year.
        last = min(last, printed) if printed >= first else last
        return Made(None if first == -inf else int(first), None if last == inf else int(last))

    def before(self, one: Supersession, other: Supersession) -> bool:
        """Whether one act was surely made in an earlier year than another."""
        return self.made(one).before(self.made(other))

    def said_before(self, one: Supersession, other: Supersession) -> bool:
        """Whether one act surely says an earlier year than another, whatever dates the sources have."""
        return between(one.year)[1] < between(other.year)[0]

    def overtaken(self, act: Supersession, by: Supersession) -> bool:
        """Whether an act says that a number was supplied, in a year before another ended that."""
        return act.stays and not by.stays and self.before(act, by)

    def _returns(self, key: PartKey) -> tuple[Supersession, ...]:
        """The acts that brought a number back, by their ids: those that make something said of it past."""
        part = self.register.parts.get(key)
        if part is None or not part.old_in:
            return ()
        giving = (act for act in part.new_in if act not in part.old_in)
        later = [
            act
            for act in (*giving, *(act for act in part.old_in if act.again))
            if any(self.before(taken, act) for taken in part.old_in)
        ]
        found = {act for act in later if act.again or self._leads_back(key, act)}
        return tuple(sorted(found, key=lambda act: act.id))

    def _leads_back(self, key: PartKey, act: Supersession) -> bool:
        """Whether acts lead from a number to one that an act replaces by it."""
        knot = self._knots.get(key)
        olds = (self.register.key_of(act, use) for use in act.old)
        return knot is not None and any(self._knots.get(old) == knot for old in olds)

    @kept
    def _knots(self) -> dict[PartKey, int]:
        """The numbers from which acts lead back to them, each with the knot of acts that it is in."""
        arrows: list[tuple[PartKey, PartKey]] = []
        for act in self.register.supersessions.values():
            olds, news = ([self.register.key_of(act, use) for use in uses] for uses in (act.old, act.new))
            arrows += product(olds, news)
        found = (knot for knot in knots(arrows) if len(knot) > 1)
        return {key: at for at, knot in enumerate(found) for key in knot}

    def _past_by(self, said: _Said) -> tuple[Supersession, ...]:
        """The acts that brought a number back after what an act said of it."""
        act, key = said
        return tuple(one for one in self.returns(key) if self.before(act, one))

    def apart(self, one: Supersession, other: Supersession, key: PartKey) -> bool:
        """Whether what two acts say of a number is of different times: it was brought back in between."""
        backs = (back for back in self.returns(key) if not back.serials)
        return any({self.since(one, back), self.since(other, back)} == {True, False} for back in backs)

    def since(self, act: Supersession, back: Supersession) -> bool | None:
        """Whether an act was made since a number was brought back, or before; None: the years do not tell."""
        if act is back:
            return True
        if self.before(act, back):
            return False
        made, brought = self.made(act), self.made(back)
        sure = made.first is not None and brought.last is not None and made.first >= brought.last
        return True if sure else None
