"""Part numbers as they stand in lists, and what is seen on and measured of a part."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from spanbook.ground.measures import Written
from spanbook.reading.basics import Evidence

ReadWith = Literal["rule", "caliper", "micrometer", "thread-gauge", "feeler", "drill", "printed"]
Worn = Literal["new", "used", "worn"]


@dataclass(frozen=True, slots=True)
class PartUse:
    """A part number and how many, as a line of a list; `means` is one of several parts that it meant."""

    number: str
    by: str | None
    name: str | None
    quantity: int
    evidence: tuple[Evidence, ...]
    note: str | None
    means: str | None


@dataclass(frozen=True, slots=True)
class OtherNumber:
    """Another number that serves on a line just as well, in the same quantity: mostly another supplier's."""

    number: str
    by: str | None
    means: str | None
    name: str | None
    formerly: tuple[str, ...]
    evidence: tuple[Evidence, ...]
    note: str | None


@dataclass(frozen=True, slots=True)
class Mark:
    text: str
    how: str | None
    where: str | None


@dataclass(frozen=True, slots=True)
class Size:
    """A measurement as it was typed: `value`, a decimal or a fraction in `unit`, and its upper end `to`."""

    what: str
    number: str | None
    value: str
    unit: str
    to: str | None
    read_with: ReadWith | None
    state: Worn | None
    standard: str | None
    evidence: tuple[Evidence, ...] = ()  # only a part's own record names it, and what its address was
    formerly: tuple[str, ...] = ()
    means: str | None = None

    @property
    def written(self) -> Written:
        return Written(self.value, self.unit, self.to)


@dataclass(frozen=True, slots=True)
class Declined:
    """A caution that is called for and does not apply, and why."""

    caution: str
    why: str
