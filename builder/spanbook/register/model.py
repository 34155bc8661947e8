"""All records, cross-linked both ways, read-only: what every answer, rule and page is computed from.

A reference that leads nowhere is left out of the links (the rules tell of it), so that whatever can be
answered still is. The order of files never shows: everything is in the order of kinds and ids.
"""

from __future__ import annotations

from collections import ChainMap
from collections.abc import Iterator, Mapping, MutableMapping
from dataclasses import dataclass
from typing import TypeVar, cast

from spanbook.ground.part_numbers import PartKey
from spanbook.reading.kinds import KINDS
from spanbook.reading.records import (
    Assembly,
    Caution,
    Conversion,
    GonePage,
    ListedPart,
    Machine,
    OtherNumber,
    OtherPart,
    PartRecord,
    PartUse,
    Record,
    Series,
    Sign,
    Source,
    StackPart,
    StripDown,
    Supersession,
    Teardown,
    Term,
    Unit,
)
from spanbook.reading.roles import UsedAs
from spanbook.reading.shapes import kinds_named
from spanbook.reading.unread import Unread
from spanbook.register.former import Former
from spanbook.register.numbering import Numbering
from spanbook.register.statements import Fitting, Limit, Statement, Subject, Use
from spanbook.register.units import Units
from spanbook.register.worn import MayBe

R = TypeVar("R", bound=Record)


@dataclass(frozen=True, slots=True)
class Housing:
    """The position around a place that is inside an assembly, and which of its assemblies have the place."""

    position: str
    assemblies: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Position:
    """A place on a machine; `path` is its full name, `below` the paths of the places inside it.

    `follows` is the plate whose number tells what is here, by its own record or that of the group around it.
    Assemblies go on it where it `holds` them; the others are groups. `housing` is what it, or its group, is
    inside of. `also_called` are its titles in other languages.
    """

    path: str
    title: str
    where: str | None
    follows: str | None
    above: str | None
    below: tuple[str, ...]
    holds: bool
    housing: Housing | None
    also_called: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class Part:
    """A part number with everything that mentions it.

    `number` is as the records write it, `also` are the other numbers that lead to it, `named_as` the records
    that name it for something else than a line of a list: `whole` is what is ordered whole under it, `old_in`
    the acts that replace it, `new_in` those that it replaces others by, `needed_in` those that need it
    beside, `beside` the records of other parts that name it, `mentioned` the records that name it for
    anything else. `spelt` are spellings that had an address of their own once: the number, whose it is, and
    that part of the address.
    """

    key: PartKey
    number: str
    also: tuple[PartKey, ...]
    names: tuple[str, ...]
    record: PartRecord | None
    uses: tuple[Use, ...]
    named_as: Mapping[UsedAs, tuple[Record, ...]]
    spelt: tuple[tuple[str, str, str], ...]

    @property
    def whole(self) -> tuple[Assembly | Conversion, ...]:
        return (*self._named(Assembly, UsedAs.WHOLE), *self._named(Conversion, UsedAs.WHOLE))

    @property
    def old_in(self) -> tuple[Supersession, ...]:
        return self._named(Supersession, UsedAs.OLD)

    @property
    def new_in(self) -> tuple[Supersession, ...]:
        return self._named(Supersession, UsedAs.NEW)

    @property
    def needed_in(self) -> tuple[Supersession, ...]:
        return self._named(Supersession, UsedAs.NEEDED)

    @property
    def conversions(self) -> tuple[Conversion, ...]:
        return self._named(Conversion, UsedAs.CONVERTED)

    @property
    def teardowns(self) -> tuple[Teardown, ...]:
        return self._named(Teardown, UsedAs.SEEN)

    @property
    def beside(self) -> tuple[PartRecord, ...]:
        return self._named(PartRecord, UsedAs.BESIDE)

    @property
    def mentioned(self) -> tuple[Record, ...]:
        # What lists it need not be told again for naming it elsewhere too.
        using = {use.assembly for use in self.uses}
        return tuple(one for one in self.named_as.get(UsedAs.MENTIONED, ()) if one not in using)

    def _named(self, kind: type[R], use: UsedAs) -> tuple[R, ...]:
        """The records of a kind that name it for a use, each once."""
        found = self.named_as.get(use)
        return tuple([record for record in found if isinstance(record, kind)]) if found else ()

    @property
    def name(self) -> str:
        return self.names[0] if self.names else ""

    @property
    def acted(self) -> bool:
        """Whether any act names it."""
        return bool(self.old_in or self.new_in or self.needed_in)

    @property
    def records(self) -> tuple[Record, ...]:
        """Every record that names it, its own first."""
        found = (
            *([self.record] if self.record else []),
            *(use.assembly for use in self.uses),
            *self.whole,
            *self.old_in,
            *self.new_in,
            *self.needed_in,
            *self.conversions,
            *self.teardowns,
            *self.beside,
            *self.mentioned,
        )
        return tuple(dict.fromkeys(found))


@dataclass(frozen=True, slots=True, eq=False)
class Register:
    """Everything by its id. `records` also has those whose id another record has already taken.

    `series` are those that answers are made from; `retired_series` only lead on to them.
    `things` is whatever can be referred to, by its sort and id, with the record that holds it. `said` is the
    statement of every subject, `fittings` are the spans at each place: a series and a position, `inside`
    are the places that are there only under some assemblies of another, however deep. `former` are
    the names that things had before, `gone` is what is gone, by its address, and
    `unread` what could not be read. What is `…_in` is by series: the positions where anything is fitted, and
    the conversions and acts limited to numbers of it; `conversions_needing` are by what they need elsewhere.
    Of the assemblies `at_position`, `known_at` are the ids, for whoever needs no more of all of them,
    `signed_at` those that show signs, and `limited_at` those whose lists have lines for some numbers alone.
    `possible` are the numbers that a teardown's may be. Teardowns are `found` by the assemblies that they
    found, `perhaps_found` by each of several too, and `found_at` by positions; where their machine may be of
    a series, by any of its numbers, `seen_in` that and `seen_at` a position of it.
    """

    records: tuple[Record, ...]
    machines: Mapping[str, Machine]
    series: Mapping[str, Series]
    retired_series: Mapping[str, Series]
    assemblies: Mapping[str, Assembly]
    part_records: Mapping[str, PartRecord]
    supersessions: Mapping[str, Supersession]
    conversions: Mapping[str, Conversion]
    sources: Mapping[str, Source]
    teardowns: Mapping[str, Teardown]
    unit_records: Mapping[str, Unit]
    units: Units
    positions: Mapping[str, Position]
    inside: Mapping[str, tuple[Position, ...]]
    cautions: Mapping[str, Caution]
    terms: Mapping[str, Term]
    signs: Mapping[str, Sign]
    gone: Mapping[str, GonePage]
    things: Mapping[str, Mapping[str, Record]]
    former: Former
    makers: Mapping[str, str]
    numbering: Numbering
    owners: Mapping[Record, str | None]
    parts: Mapping[PartKey, Part]
    statements: tuple[Statement, ...]
    statements_of: Mapping[Record, tuple[Statement, ...]]
    said: Mapping[Subject, Statement]
    fittings: Mapping[tuple[str, str], tuple[Fitting, ...]]
    fitted_in: Mapping[str, tuple[str, ...]]
    at_position: Mapping[str, tuple[Assembly, ...]]
    known_at: Mapping[str, tuple[str, ...]]
    signed_at: Mapping[str, tuple[Assembly, ...]]
    limited_at: Mapping[str, tuple[Assembly, ...]]
    strip_downs: Mapping[str, tuple[StripDown, ...]]
    conversions_at: Mapping[str, tuple[Conversion, ...]]
    conversions_from: Mapping[str, tuple[Conversion, ...]]
    conversions_to: Mapping[str, tuple[Conversion, ...]]
    conversions_in: Mapping[str, tuple[Conversion, ...]]
    conversions_needing: Mapping[str, tuple[Conversion, ...]]
    supersessions_in: Mapping[str, tuple[Supersession, ...]]
    possible: Mapping[Teardown, tuple[MayBe, ...]]
    found: Mapping[str, tuple[Teardown, ...]]
    perhaps_found: Mapping[str, tuple[Teardown, ...]]
    found_at: Mapping[str, tuple[Teardown, ...]]
    seen_in: Mapping[str, tuple[Teardown, ...]]
    seen_at: Mapping[tuple[str, str], tuple[Teardown, ...]]
    cited: Mapping[Source | Teardown, tuple[Statement, ...]]
    unread: Unread

    def named(self, sort: str) -> Mapping[str, Record]:
        """Whatever may be named as a sort of thing, by its id: an assembly, or that nothing is fitted."""
        kinds = kinds_named(sort) or (sort,)
        # Nobody writes into it: the first of them need be no dictionary of our own.
        found = (cast(MutableMapping[str, Record], self.things.get(kind, {})) for kind in kinds)
        return ChainMap(*found)

    def of(self, kind: type[R]) -> Mapping[str, R]:
        """The records of a kind by their ids; of two with one id the first by path."""
        by_class = {one.cls: name for name, one in KINDS.items()}
        found = self.things[by_class[kind]]
        return {id_: record for id_, record in found.items() if isinstance(record, kind)}

    def fittings_of(self, assembly: Assembly) -> Iterator[Fitting]:
        """The spans of an assembly, in the order of its record."""
        subjects = (statement.subject for statement in self.statements_of.get(assembly, ()))
        return (subject for subject in subjects if isinstance(subject, Fitting))

    def uses_of(self, assembly: Assembly) -> Iterator[Use]:
        """The part numbers of an assembly, in the order of its list."""
        subjects = (statement.subject for statement in self.statements_of.get(assembly, ()))
        return (subject for subject in subjects if isinstance(subject, Use))

    def limits_of(self, assembly: Assembly) -> Iterator[Limit]:
        """The spans that lines of an assembly's list are limited to, in the order of its record."""
        subjects = (statement.subject for statement in self.statements_of.get(assembly, ()))
        return (subject for subject in subjects if isinstance(subject, Limit))

    def key_of_whole(self, record: Assembly | Conversion) -> PartKey | None:
        """Under which number a whole assembly or a conversion's set of parts is ordered, if under any."""
        if record.number is None:
            return None
        return self.numbering.of(record, record.by, record.number)

    def key_of_record(self, record: PartRecord) -> PartKey:
        """Which part a part's own record is about."""
        return self.numbering.of_record(record)

    def key_of(self, record: Record, use: PartUse | OtherNumber | StackPart | OtherPart) -> PartKey:
        """Which part a line of a record means."""
        only = use.serials if isinstance(use, ListedPart) else ()
        return self.numbering.of_line(record, use, only)

    def owner(self, record: Record) -> str | None:
        """Whose part numbers a record means when it does not say, if it can be only one's."""
        return self.owners[record]
