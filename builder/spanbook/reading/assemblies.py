"""Assemblies as they were typed, with their parts lists and the stacks they are drawn from."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from spanbook.reading.basics import Evidence, OtherTitle, Record, SaidSpan
from spanbook.reading.circuits import Way
from spanbook.reading.figures import Figure
from spanbook.reading.numbered import Declined, OtherNumber, PartUse, Size
from spanbook.reading.signs import Shown

Fitted = Literal["factory", "service", "field"]
Shape = Literal[
    "bolt",
    "stud",
    "nut",
    "washer",
    "ring",
    "circlip",
    "disc",
    "plug",
    "ball",
    "spring",
    "cylinder",
    "pleated",
    "bowl",
    "lid",
    "body",
    "gear",
    "shaft",
    "tube",
    "key",
    "bearing",
]


@dataclass(frozen=True, slots=True)
class FittedSpan(SaidSpan):
    """A span of an assembly: by whom it was fitted, and whether to order."""

    fitted: Fitted
    option: bool


@dataclass(frozen=True, slots=True)
class ListedPart(PartUse):
    """A line of an assembly's parts list: any one of its numbers, on the machines it is limited to."""

    anchor: str | None
    formerly: tuple[str, ...]
    others: tuple[OtherNumber, ...] = field(metadata={"key": "or"})  # Python keeps `or` for itself
    serials: tuple[SaidSpan, ...]

    @property
    def numbers(self) -> tuple[ListedPart | OtherNumber, ...]:
        """Its own number, then the others."""
        return self, *self.others


@dataclass(frozen=True, slots=True)
class StackPart:
    """A piece along the axis of an assembly, or in the side of another part that lies on it."""

    number: str
    by: str | None
    shape: Shape
    inside: str | None = field(metadata={"key": "in"})  # Python keeps `in` for itself
    piece: str | None
    sizes: tuple[Size, ...]
    means: str | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Assembly(Record):
    """`retired` says why nothing is answered from it any more, and `now` what went under its name."""

    titles: tuple[OtherTitle, ...]
    position: str
    number: str | None
    by: str | None
    serials: tuple[FittedSpan, ...]
    retired: str | None
    now: tuple[str, ...]
    tell: tuple[str, ...]
    tell_evidence: tuple[Evidence, ...]
    signs: tuple[Shown, ...]
    parts: tuple[ListedPart, ...]
    figures: tuple[Figure, ...]
    stack: tuple[StackPart, ...]
    ways: tuple[Way, ...]
    cautions: tuple[str, ...]
    declined: tuple[Declined, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Absence(Assembly):
    """Nothing fitted: it stands wherever an assembly of its position may, and has no number and no parts."""
