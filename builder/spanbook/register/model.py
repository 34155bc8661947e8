"""All records, cross-linked both ways, read-only: what every answer, rule and page is computed from.

A reference that leads nowhere is left out of the links (the rules tell of it), so that whatever can be
answered still is. The order of files never shows: everything is in the order of kinds and ids.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from spanbook.ground.part_numbers import PartKey, hyphened, maker_id
from spanbook.reading.nodes import Step
from spanbook.reading.records import (
    Assembly,
    Caution,
    Conversion,
    Evidence,
    FittedSpan,
    Machine,
    PartRecord,
    PartUse,
    Record,
    Series,
    Source,
    Supersession,
    Teardown,
    Term,
)


@dataclass(frozen=True, slots=True)
class Position:
    """A place on a machine; `path` is its full name, `below` the paths of the places inside it."""

    path: str
    title: str
    where: str | None
    above: str | None
    below: tuple[str, ...]

    @property
    def leaf(self) -> bool:
        """Assemblies go on leaves only; the others are groups."""
        return not self.below


class Sort(StrEnum):
    """What a statement is about."""

    SPAN = "span"
    PART_IN_ASSEMBLY = "part in an assembly"
    SERIES = "series"
    PART = "part"
    MEASUREMENT = "measurement"
    ACT = "supersession"
    CONVERSION = "conversion"


@dataclass(frozen=True, slots=True, eq=False)
class Statement:
    """Something a record says on the word of its evidence.

    `anchor` is its permanent place on the record's page (empty: the page itself), `steps` its place in
    the file.
    """

    sort: Sort
    record: Record
    anchor: str
    steps: tuple[Step, ...]
    evidence: tuple[Evidence, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Fitting:
    """One span of an assembly."""

    assembly: Assembly
    span: FittedSpan
    statement: Statement


@dataclass(frozen=True, slots=True, eq=False)
class Use:
    """A part in the parts list of an assembly."""

    assembly: Assembly
    use: PartUse


@dataclass(frozen=True, slots=True, eq=False)
class Part:
    """A part number with everything that mentions it.

    `number` is as the records write it, `whole` what is ordered whole under it, `old_in` the acts that
    replace it, `new_in` those that it replaces others by, `needed_in` those that need it beside.
    """

    key: PartKey
    number: str
    names: tuple[str, ...]
    record: PartRecord | None
    uses: tuple[Use, ...]
    whole: tuple[Assembly | Conversion, ...]
    old_in: tuple[Supersession, ...]
    new_in: tuple[Supersession, ...]
    needed_in: tuple[Supersession, ...]
    conversions: tuple[Conversion, ...]
    teardowns: tuple[Teardown, ...]

    @property
    def name(self) -> str:
        return self.names[0] if self.names else ""


@dataclass(frozen=True, slots=True, eq=False)
class Register:
    """Everything by its id. `records` also has those whose id another record has already taken."""

    records: tuple[Record, ...]
    machines: Mapping[str, Machine]
    series: Mapping[str, Series]
    assemblies: Mapping[str, Assembly]
    part_records: Mapping[str, PartRecord]
    supersessions: Mapping[str, Supersession]
    conversions: Mapping[str, Conversion]
    sources: Mapping[str, Source]
    teardowns: Mapping[str, Teardown]
    positions: Mapping[str, Position]
    cautions: Mapping[str, Caution]
    terms: Mapping[str, Term]
    makers: Mapping[str, str]
    parts: Mapping[PartKey, Part]
    statements: tuple[Statement, ...]
    statements_of: Mapping[Record, tuple[Statement, ...]]
    fittings: Mapping[tuple[str, str], tuple[Fitting, ...]]
    at_position: Mapping[str, tuple[Assembly, ...]]
    conversions_from: Mapping[str, tuple[Conversion, ...]]
    conversions_to: Mapping[str, tuple[Conversion, ...]]
    found: Mapping[str, tuple[Teardown, ...]]
    cited: Mapping[Source | Teardown, tuple[Statement, ...]]

    def key_of_whole(self, record: Assembly | Conversion) -> PartKey | None:
        """Under which number a whole assembly or a conversion's set of parts is ordered, if under any."""
        if record.number is None:
            return None
        return PartKey.of(record.by or self.owner(record) or "", record.number)

    def key_of_record(self, record: PartRecord) -> PartKey:
        """Which part a part's own record is about."""
        return PartKey.of(record.by or self.owner(record) or "", record.number)

    def key_of(self, record: Record, use: PartUse) -> PartKey:
        """Which part a line of a record means."""
        return PartKey.of(use.by or self.owner(record) or "", use.number)

    def owner(self, record: Record) -> str | None:
        """Whose part numbers a record means when it does not say, if it can be only one's."""
        return owner(record, self.series, self.machines)


def owner(record: Record, series: Mapping[str, Series], machines: Mapping[str, Machine]) -> str | None:
    """Whose part numbers a record means when it does not say: the id of the one maker it can be.

    The maker of the machines whose series the record names; else the only maker there is; else None.
    """
    named: set[str] = set()
    if isinstance(record, Assembly | Conversion | Supersession):
        named = {series[s.series].machine for s in record.serials if s.series in series}
    elif isinstance(record, Teardown) and record.series and record.series in series:
        named = {series[record.series].machine}
    of = {maker_id(machines[m].maker) for m in named or machines}
    return of.pop() if len(of) == 1 else None


def size_anchor(what: str) -> str:
    """The anchor of a measurement on a part's page, from the words that say what was measured."""
    return f"size-{hyphened(what)}"


def part_anchor(key: PartKey) -> str:
    """The anchor of a part on an assembly's page; the maker's own numbers go without a name before them."""
    return f"part-{key.by}-{key.slug}" if key.by else f"part-{key.slug}"
