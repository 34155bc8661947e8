"""What is said of: the subjects of statements, each the very thing that is said, as typed data."""

from __future__ import annotations

from dataclasses import dataclass

from spanbook.reading.records import (
    AlsoNumber,
    Assembly,
    Circuit,
    Conversion,
    FittedSpan,
    ListedPart,
    Misprint,
    OtherNumber,
    OtherPart,
    PartRecord,
    Plant,
    Reuse,
    SaidSpan,
    Series,
    Shown,
    Size,
    Supersession,
    Unit,
    UnitNumber,
    Way,
)


@dataclass(frozen=True, slots=True, eq=False)
class Fitting:
    """A span of an assembly in a series."""

    assembly: Assembly
    series: Series
    span: FittedSpan


@dataclass(frozen=True, slots=True, eq=False)
class StraySpan:
    """A span of an assembly, or of a line of its list, in a series that no record has, or of what is retired:
    no answer is computed from it."""

    assembly: Assembly
    span: SaidSpan


@dataclass(frozen=True, slots=True, eq=False)
class Use:
    """A part number on a line of the parts list of an assembly: the line's own, or another that serves."""

    assembly: Assembly
    line: ListedPart
    said: ListedPart | OtherNumber

    @property
    def number(self) -> str:
        return self.said.number

    @property
    def name(self) -> str | None:
        """What it is called; another number as the line, unless it says otherwise."""
        return self.said.name or self.line.name

    @property
    def quantity(self) -> int:
        return self.line.quantity


@dataclass(frozen=True, slots=True, eq=False)
class Limit:
    """A span that a line of an assembly's parts list is limited to."""

    assembly: Assembly
    series: Series
    line: ListedPart
    span: SaidSpan


@dataclass(frozen=True, slots=True, eq=False)
class Measurement:
    """A size of a part."""

    part: PartRecord
    size: Size


@dataclass(frozen=True, slots=True, eq=False)
class Dating:
    """The years of a series, where they rest on evidence of their own."""

    series: Series


@dataclass(frozen=True, slots=True, eq=False)
class BuiltAt:
    """Which numbers of a series a plant built, where that rests on evidence of its own."""

    series: Series
    plant: Plant


@dataclass(frozen=True, slots=True, eq=False)
class Supply:
    """Whether a part is still supplied, where that rests on evidence of its own."""

    part: PartRecord


@dataclass(frozen=True, slots=True, eq=False)
class Telling:
    """How a thing is told by eye, where that rests on evidence of its own."""

    record: Assembly | PartRecord


@dataclass(frozen=True, slots=True, eq=False)
class Shows:
    """A sign that a thing shows, where that rests on evidence of its own."""

    record: Assembly | PartRecord
    shown: Shown


@dataclass(frozen=True, slots=True, eq=False)
class Bears:
    """That a machine bears or bore a number."""

    unit: Unit
    number: UnitNumber


@dataclass(frozen=True, slots=True, eq=False)
class Passing:
    """A way through an assembly or a circuit, where that rests on evidence of its own."""

    record: Assembly | Circuit
    way: Way


NumberSaid = AlsoNumber | Misprint | Reuse | OtherPart


@dataclass(frozen=True, slots=True, eq=False)
class OfNumber:
    """What a part's record says of its number, or of another beside it: that it is one thing with it, a
    misprint, when it means this, its other hand, a set, what a set holds, or what it is not."""

    part: PartRecord
    said: NumberSaid


Subject = (
    Fitting
    | StraySpan
    | Use
    | Limit
    | Series
    | Dating
    | BuiltAt
    | PartRecord
    | Supply
    | Telling
    | Shows
    | Measurement
    | OfNumber
    | Supersession
    | Conversion
    | Bears
    | Circuit
    | Passing
)
