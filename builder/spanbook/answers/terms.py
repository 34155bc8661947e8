"""On what terms a way by several acts holds."""

from __future__ import annotations

from dataclasses import dataclass

from spanbook.answers.act_claims import Said
from spanbook.reading.records import Supersession

Acts = frozenset[Supersession]
MOST_TERMS = 200  # acts on one way that do not apply to everybody: a longer list is read by nobody


@dataclass(frozen=True, slots=True)
class Terms:
    """On what terms a way holds: the limited acts that must apply, those that must not be meant for the
    machine, those that must not have been made by the year asked, the conversions that must have been done,
    and what disputed acts say of which number."""

    by: Acts = frozenset()
    unless: Acts = frozenset()
    unmade: Acts = frozenset()
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
            self.unmade | other.unmade,
            self.after | other.after,
            self.said | other.said,
        )

    @property
    def many(self) -> bool:
        return sum(map(len, (self.by, self.unless, self.unmade, self.after, self.said))) > MOST_TERMS


NONE = Terms()
