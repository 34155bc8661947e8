"""Signs by which things are told apart, and which of them a thing shows, as they were typed."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from spanbook.reading.basics import Evidence, Record

Look = Literal["outside", "measured", "opened"]


@dataclass(frozen=True, slots=True)
class Reworded:
    """An answer as it was worded before, and as it is now."""

    was: str
    now: str


@dataclass(frozen=True, slots=True)
class Sign:
    """Something to look at, the words it is answered with, and what it takes to look."""

    id: str
    formerly: tuple[str, ...]
    asks: str
    answers: tuple[str, ...]
    reworded: tuple[Reworded, ...]
    look: Look

    def today(self, answer: str) -> str:
        """An answer in the words that it has today."""
        if answer in self.answers:
            return answer
        return next((one.now for one in self.reworded if one.was == answer), answer)


@dataclass(frozen=True, slots=True, eq=False)
class Signs(Record):
    signs: tuple[Sign, ...]


@dataclass(frozen=True, slots=True)
class SignSeen:
    """What somebody saw of a sign: on the assembly that was found, or on its part with a number."""

    sign: str
    seen: str
    number: str | None
    means: str | None


@dataclass(frozen=True, slots=True)
class Shown:
    """What a thing shows of a sign, one of its answers; where it was made in several ways the others too."""

    sign: str
    seen: str
    others: tuple[str, ...] = field(metadata={"key": "or"})  # Python keeps `or` for itself
    evidence: tuple[Evidence, ...]

    @property
    def every(self) -> tuple[str, ...]:
        """All that may be seen."""
        return self.seen, *self.others
