"""What contributors typed, one class a kind. Raw: a bound here is as it stands in the file.

An attribute is called as its key in the schema (`seen_by` for seen-by), or tells its key.
Records are told apart by identity, are frozen, and know the file and the place of everything in them.
What all of them are made of is in `basics.py`, machines and their series are in `machines.py`,
circuits and the ways through assemblies in `circuits.py`.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from spanbook.ground.measures import Written
from spanbook.reading.basics import Around as Around
from spanbook.reading.basics import Beside as Beside
from spanbook.reading.basics import End as End
from spanbook.reading.basics import Evidence as Evidence
from spanbook.reading.basics import Origin as Origin
from spanbook.reading.basics import Record as Record
from spanbook.reading.basics import SaidSpan as SaidSpan
from spanbook.reading.basics import SeriesSpan as SeriesSpan
from spanbook.reading.basics import Typed as Typed
from spanbook.reading.basics import YearEnd as YearEnd
from spanbook.reading.circuits import Circuit as Circuit
from spanbook.reading.circuits import CircuitPlace as CircuitPlace
from spanbook.reading.circuits import CircuitState as CircuitState
from spanbook.reading.circuits import Port as Port
from spanbook.reading.circuits import Way as Way
from spanbook.reading.circuits import WaySize as WaySize
from spanbook.reading.machines import Machine as Machine
from spanbook.reading.machines import Series as Series
from spanbook.reading.series_typed import Plant as Plant
from spanbook.reading.series_typed import SecondIssue as SecondIssue

Fitted = Literal["factory", "service", "field"]
Interchange = Literal["both", "new-for-old"]
Condition = Literal["untouched", "likely-original", "altered", "unknown"]
Supplied = Literal["yes", "no", "unknown"]
ReadWith = Literal["rule", "caliper", "micrometer", "thread-gauge", "feeler", "drill", "printed"]
Worn = Literal["new", "used", "worn"]


@dataclass(frozen=True, slots=True)
class FittedSpan(SaidSpan):
    """A span of an assembly: by whom it was fitted, and whether to order."""

    fitted: Fitted
    option: bool


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

    @property
    def written(self) -> Written:
        return Written(self.value, self.unit, self.to)


@dataclass(frozen=True, slots=True)
class Declined:
    """A caution that is called for and does not apply, and why."""

    caution: str
    why: str


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

    position: str
    number: str | None
    by: str | None
    serials: tuple[FittedSpan, ...]
    retired: str | None
    now: tuple[str, ...]
    tell: tuple[str, ...]
    tell_evidence: tuple[Evidence, ...]
    parts: tuple[ListedPart, ...]
    stack: tuple[StackPart, ...]
    ways: tuple[Way, ...]
    cautions: tuple[str, ...]
    declined: tuple[Declined, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Absence(Assembly):
    """Nothing fitted: it stands wherever an assembly of its position may, and has no number and no parts."""


@dataclass(frozen=True, slots=True)
class FormerNumber:
    """A number that the records had for a part before; without `by`, of the same firm."""

    number: str
    by: str | None


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


Hand = Literal["left", "right"]


@dataclass(frozen=True, slots=True, eq=False)
class PartRecord(Record):
    title: str = field(metadata={"key": "name"})
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
    material: str | None
    sizes: tuple[Size, ...]
    supplied: Supplied
    supplier: str | None
    supply_evidence: tuple[Evidence, ...]
    cautions: tuple[str, ...]
    declined: tuple[Declined, ...]
    evidence: tuple[Evidence, ...]


@dataclass(frozen=True, slots=True)
class ActNeed:
    """What must go with an act: a part (by its number) or a conversion (its id); exactly one of the two."""

    number: str | None
    by: str | None
    quantity: int
    conversion: str | None
    why: str | None
    means: str | None = None

    @property
    def part(self) -> PartUse | None:
        """The part, as a line of a list."""
        if self.number is None:
            return None
        return PartUse(self.number, self.by, None, self.quantity, (), None, self.means)


@dataclass(frozen=True, slots=True, eq=False)
class Supersession(Record):
    """`title` is empty: an act is named by its numbers.

    Without `new` the old numbers are no longer supplied, or were still supplied if it says `current`, or
    supplied again if it says `again`.
    `alternative` is one way among others, which speaks against no other act.
    """

    old: tuple[PartUse, ...]
    new: tuple[PartUse, ...]
    current: bool
    again: bool
    alternative: bool
    interchange: Interchange
    serials: tuple[SeriesSpan, ...]
    needs: tuple[ActNeed, ...]
    year: int | None
    evidence: tuple[Evidence, ...]

    @property
    def stays(self) -> bool:
        """Whether it says that the old numbers themselves are supplied."""
        return self.current or self.again


@dataclass(frozen=True, slots=True)
class PositionNeed:
    """What another position must hold: one of these assemblies, and why; with `advice` it only ought to."""

    position: str
    assemblies: tuple[str, ...]
    why: str
    advice: bool


@dataclass(frozen=True, slots=True)
class Change:
    """What a conversion makes of one position; without `start` of whatever is there, or of nothing."""

    position: str
    start: tuple[str, ...] = field(metadata={"key": "from"})
    to: str


@dataclass(frozen=True, slots=True)
class PartTaken:
    """A part of what another position holds, which a conversion uses and leaves that without."""

    position: str
    number: str
    by: str | None
    name: str | None
    quantity: int

    @property
    def use(self) -> PartUse:
        """The part, as a line of a list."""
        return PartUse(self.number, self.by, self.name, self.quantity, (), None, None)


@dataclass(frozen=True, slots=True, eq=False)
class Conversion(Record):
    number: str | None
    by: str | None
    position: str
    start: tuple[str, ...] = field(metadata={"key": "from"})  # Python keeps `from` for itself
    to: str
    also: tuple[Change, ...]
    takes: tuple[PartTaken, ...]
    serials: tuple[SeriesSpan, ...]
    adds: tuple[PartUse, ...]
    removes: tuple[PartUse, ...]
    needs: tuple[PositionNeed, ...]
    year: YearEnd | None
    until: YearEnd | None
    cautions: tuple[str, ...]
    declined: tuple[Declined, ...]
    evidence: tuple[Evidence, ...]

    @property
    def changes(self) -> tuple[Change, ...]:
        """What it makes of each position, its own first."""
        return (Change(self.position, self.start, self.to), *self.also)

    def change_at(self, position: str) -> Change | None:
        """What it makes of a position, if it changes that."""
        return next((change for change in self.changes if change.position == position), None)


@dataclass(frozen=True, slots=True, eq=False)
class Source(Record):
    sort: str = field(metadata={"key": "class"})  # Python keeps `class` for itself
    form: str | None
    edition: str | None
    year: int | None
    copy: str | None
    url: str | None
    licence: str | None


@dataclass(frozen=True, slots=True)
class Photograph:
    """`file` is its path below content/photographs/, `shows` what an eye sees on it."""

    file: str
    shows: str
    licence: str | None


@dataclass(frozen=True, slots=True)
class Find:
    """What one position held; `condition` is the machine's unless the find says otherwise."""

    position: str
    assembly: str | None
    one_of: tuple[str, ...]
    condition: Condition
    parts: tuple[PartUse, ...]
    marks: tuple[Mark, ...]
    measurements: tuple[Size, ...]
    photographs: tuple[Photograph, ...]
    note: str | None

    @property
    def named(self) -> tuple[str, ...]:
        """The assemblies that it may have been: none where no record has it."""
        return (self.assembly,) if self.assembly else self.one_of


@dataclass(frozen=True, slots=True, eq=False)
class Teardown(Record):
    """`title` is the serial number as read and the date."""

    date: str
    seen_by: str
    serial: str
    series: str | None
    condition: Condition
    found: tuple[Find, ...]
    licence: str | None


@dataclass(frozen=True, slots=True)
class UnitNumber:
    """A number that one machine bears or bore; `years` as typed."""

    serial: str
    series: str | None
    years: str | None
    evidence: tuple[Evidence, ...]
    note: str | None

    @property
    def borne(self) -> tuple[int | None, int | None]:
        """The first and the last year in which it bore the number; None where that is open."""
        first, slash, last = (self.years or "../..").partition("/")
        return _year(first), _year(last if slash else first)


def _year(text: str) -> int | None:
    return None if text == ".." else int(text)


@dataclass(frozen=True, slots=True, eq=False)
class Unit(Record):
    """One individual machine; `title` is its numbers."""

    machine: str
    numbers: tuple[UnitNumber, ...]


@dataclass(frozen=True, slots=True)
class Earlier:
    """A step of the same record without which another cannot be done, and why."""

    step: str
    why: str


@dataclass(frozen=True, slots=True)
class ToolUsed:
    """A tool with its size, and how it was made where none can be bought."""

    what: str
    value: str | None
    unit: str | None
    made: str | None


@dataclass(frozen=True, slots=True)
class Catch:
    """What falls, springs or runs out when a step is done."""

    what: str
    number: str | None
    how: Literal["loose", "spring", "pressure", "hidden", "fluid"] | None


@dataclass(frozen=True, slots=True)
class StripStep:
    """One thing that was done: what came off by it, and what is to be seen to when it goes back."""

    id: str
    do: str
    frees: tuple[PartUse, ...]
    after: tuple[Earlier, ...]
    tools: tuple[ToolUsed, ...]
    catch: tuple[Catch, ...]
    hand: Literal["right", "left"]
    renew: bool
    back: str | None
    sizes: tuple[Size, ...]
    minutes: int | None
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True, eq=False)
class StripDown(Record):
    """One account by one person; `title` is empty: it is named by its assembly and who told it."""

    assembly: str
    date: str
    seen_by: str
    serial: str | None
    steps: tuple[StripStep, ...]
    stays: tuple[PartUse, ...]
    licence: str | None


@dataclass(frozen=True, slots=True)
class PositionEntry:
    """`within` are the assemblies of the position around it that have this place; empty: it is on all."""

    id: str
    formerly: tuple[str, ...]
    title: str
    where: str | None
    follows: str | None
    within: tuple[str, ...]
    positions: tuple[PositionEntry, ...]


@dataclass(frozen=True, slots=True)
class Publication:
    body: str
    title: str


@dataclass(frozen=True, slots=True)
class Caution:
    id: str
    title: str
    text: str
    words: tuple[str, ...]
    positions: tuple[str, ...]
    follows: tuple[Publication, ...]


@dataclass(frozen=True, slots=True)
class Term:
    id: str
    term: str
    meaning: str


@dataclass(frozen=True, slots=True, eq=False)
class Positions(Record):
    positions: tuple[PositionEntry, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Cautions(Record):
    cautions: tuple[Caution, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Glossary(Record):
    terms: tuple[Term, ...]


@dataclass(frozen=True, slots=True)
class GonePage:
    """An address that was public once: a whole page, or with `#` a statement; `why` it is gone."""

    address: str
    why: str

    @property
    def page(self) -> str:
        return self.address.partition("#")[0]

    @property
    def anchor(self) -> str:
        """Empty for a whole page."""
        return self.address.partition("#")[2]


@dataclass(frozen=True, slots=True, eq=False)
class Gone(Record):
    pages: tuple[GonePage, ...]
