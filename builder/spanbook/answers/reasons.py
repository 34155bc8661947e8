"""What speaks for or against a statement: each source or teardown with its weight, and what it shows."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Literal

from spanbook.reading.records import Assembly, Condition, Conversion, Size, Source, Supersession, Teardown
from spanbook.register.statements import Fitting, Limit


class Weight(StrEnum):
    """What a reason does to a statement."""

    PRINTED = "printed"
    RECALLED = "recalled"
    SEEN = "seen"
    AGAINST = "against"
    EXPLAINED = "explained"
    SET_ASIDE = "set-aside"


@dataclass(frozen=True, slots=True)
class Had:
    """The machine had an assembly; `condition` is given where it does not count for that.

    With `others` it is one of them all, and nobody can tell which.
    """

    assembly: Assembly
    condition: Condition | None = None
    others: tuple[Assembly, ...] = ()

    @property
    def any_of(self) -> tuple[Assembly, ...]:
        return self.assembly, *self.others


@dataclass(frozen=True, slots=True)
class HadNumber:
    """A part number was read on the assembly, in some condition."""

    number: str
    condition: Condition


@dataclass(frozen=True, slots=True)
class InPlace:
    """Another number was read in the place of a line of a parts list.

    `condition` is given where it does not count for that; `by` says what explains it: that the number read
    came later than the line's, or earlier, or a conversion that puts it on.
    """

    number: str
    condition: Condition | None
    by: Literal["later", "earlier"] | Conversion | None


@dataclass(frozen=True, slots=True)
class Measured:
    """A size was measured; one that differs may be wear."""

    size: Size
    same: bool


@dataclass(frozen=True, slots=True)
class ShowedSign:
    """What was seen of a sign on it, in some condition."""

    seen: str
    condition: Condition


@dataclass(frozen=True, slots=True)
class SameNumbers:
    """Another standard is recorded on the same numbers."""


@dataclass(frozen=True, slots=True)
class Says:
    """It is named for another claim on the same run of numbers, or on the same old part number."""

    claim: Fitting | Limit | Supersession


Shown = Had | HadNumber | InPlace | Measured | ShowedSign | SameNumbers | Says


@dataclass(frozen=True, slots=True)
class Reason:
    """One source, teardown, other assembly or other act: where in it, what it shows, and what that does.

    `note` is what the record that names it remarks.
    """

    weight: Weight
    by: Source | Teardown | Assembly | Supersession
    at: str | None
    shown: Shown | None
    note: str | None = None
