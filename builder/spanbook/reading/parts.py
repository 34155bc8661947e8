"""What there is to say of a part beyond its lines in lists, as it was typed."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from spanbook.reading.basics import Evidence, OtherTitle, Record, SeriesSpan
from spanbook.reading.figures import Figure
from spanbook.reading.numbered import Declined, Mark, Size
from spanbook.reading.signs import Shown

Supplied = Literal["yes", "no", "unknown"]
Hand = Literal["left", "right"]


@dataclass(frozen=True, slots=True)
class FormerNumber:
    """A number that the records had for a part before; without `by`, of the same firm.

    `means` is the id that the part had in the number's address where that had meant several things.
    """

    number: str
    by: str | None
    means: str | None


@dataclass(frozen=True, slots=True)
class AlsoNumber:
    """Another number of the same thing: whose, what sort of number, and since when."""

    number: str
    by: str | None
    sort: Literal["maker", "supplier", "army", "trade"] | None
    since: int | None
    evidence: tuple[Evidence, ...]
    note: str | None


@dataclass(frozen=True, slots=True)
class Misprint:
    """A number that was printed, or copied, for the part's own by mistake. Without `by` it was meant as its
    owner's."""

    number: str
    by: str | None
    evidence: tuple[Evidence, ...]
    note: str | None


@dataclass(frozen=True, slots=True)
class Reuse:
    """When a number that has meant several things means this one: on which machines, and in which years.

    All that is said goes together: these machines, in these years.
    """

    machines: tuple[str, ...]
    serials: tuple[SeriesSpan, ...]
    since: int | None
    until: int | None
    evidence: tuple[Evidence, ...]
    note: str | None


@dataclass(frozen=True, slots=True)
class OtherPart:
    """Another part that belongs to one: its mirror image, or a set in which alone it is sold."""

    number: str
    by: str | None
    means: str | None
    evidence: tuple[Evidence, ...]
    note: str | None


@dataclass(frozen=True, slots=True)
class SetPart(OtherPart):
    """What a set holds, and how many of it."""

    name: str | None
    quantity: int


@dataclass(frozen=True, slots=True, eq=False)
class PartRecord(Record):
    title: str = field(metadata={"key": "name"})
    titles: tuple[OtherTitle, ...] = field(metadata={"key": "names"})
    number: str
    by: str | None
    formerly_numbered: tuple[FormerNumber, ...]
    also: tuple[AlsoNumber, ...]
    misprints: tuple[Misprint, ...]
    reused: tuple[Reuse, ...]
    hand: Hand | None
    mirrors: tuple[OtherPart, ...]
    only_in: tuple[OtherPart, ...]
    holds: tuple[SetPart, ...]
    unlike: tuple[OtherPart, ...]
    marks: tuple[Mark, ...]
    tell: tuple[str, ...]
    tell_evidence: tuple[Evidence, ...]
    signs: tuple[Shown, ...]
    figures: tuple[Figure, ...]
    material: str | None
    sizes: tuple[Size, ...]
    supplied: Supplied
    supplier: str | None
    supply_evidence: tuple[Evidence, ...]
    cautions: tuple[str, ...]
    declined: tuple[Declined, ...]
    evidence: tuple[Evidence, ...]
