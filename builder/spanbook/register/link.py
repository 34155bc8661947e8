"""Building the register: every record in its place and every link both ways."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import NamedTuple, TypeVar

from spanbook.ground.language import spoken
from spanbook.ground.part_numbers import maker_id
from spanbook.reading.records import (
    Assembly,
    Cautions,
    Conversion,
    Glossary,
    Gone,
    Machine,
    PartRecord,
    PositionEntry,
    Positions,
    Record,
    Signs,
    Source,
    StripDown,
    Supersession,
    Teardown,
    Unit,
)
from spanbook.reading.titled import in_language, other_titles
from spanbook.reading.unread import Unread
from spanbook.register.former import former
from spanbook.register.ids import things_of
from spanbook.register.model import Housing, Position, Register
from spanbook.register.numbering import Numbering
from spanbook.register.parts import owner, parts_of
from spanbook.register.statements import Fitting, Statement, Subject, statements_in
from spanbook.register.units import Units, units_of
from spanbook.register.worn import MayBe, possible_of, series_of

R = TypeVar("R", bound=Record)
K = TypeVar("K")
V = TypeVar("V")


def build(records: Iterable[Record], unread: Unread | None = None) -> Register:
    """The register of all records; of two with the same kind and id the first by path is kept.

    Each is called as it is in the language that is spoken.
    """
    named = (in_language(record, spoken()) for record in records)
    ordered = tuple(sorted(named, key=lambda r: (r.kind, r.id, r.origin.path)))
    kept = tuple(kept_of(ordered))
    machines = frozen(_of(ordered, Machine))
    found = {s.id: s for machine in machines.values() for s in reversed(machine.series)}
    series = frozen(dict(sorted(found.items())))
    unit_records = _of(ordered, Unit)
    units = units_of(unit_records.values(), series)
    possible = possible_of(_of(ordered, Teardown).values(), series.values())
    owners = {record: owner(record, series, machines) for record in ordered}
    things = things_of(kept)
    numbering = Numbering(kept, owners, machines, series)
    names = former(kept, numbering, things)
    statements = tuple(
        statement for record in kept for statement in statements_in(record, numbering, series, names)
    )
    positions = {p.path: p for single in _of(ordered, Positions).values() for p in _tree(single.positions)}
    return Register(
        records=ordered,
        machines=machines,
        series=series,
        retired_series=frozen({s.id: s for machine in machines.values() for s in machine.retired_series}),
        unit_records=frozen(unit_records),
        units=units,
        positions=frozen(positions),
        inside=_grouped((around, p) for p in positions.values() for around in _around(positions, p)),
        cautions=frozen({c.id: c for s in _of(ordered, Cautions).values() for c in s.cautions}),
        terms=frozen({t.id: t for s in _of(ordered, Glossary).values() for t in s.terms}),
        signs=frozen({one.id: one for s in _of(ordered, Signs).values() for one in s.signs}),
        gone=frozen({one.address: one for s in _of(ordered, Gone).values() for one in reversed(s.pages)}),
        things=frozen({sort: frozen(found) for sort, found in things.items()}),
        former=names,
        makers=frozen({maker_id(m.maker): m.maker for m in machines.values()}),
        numbering=numbering,
        owners=frozen(owners),
        parts=frozen(parts_of(kept, statements, numbering)),
        statements=statements,
        statements_of=_grouped((s.record, s) for s in statements),
        unread=unread or Unread(),
        **tables_of(ordered, statements, units, possible)._asdict(),
    )


class Tables(NamedTuple):
    """The parts of a register of those names that follow from its records and what they say alone."""

    assemblies: Mapping[str, Assembly]
    part_records: Mapping[str, PartRecord]
    supersessions: Mapping[str, Supersession]
    conversions: Mapping[str, Conversion]
    sources: Mapping[str, Source]
    teardowns: Mapping[str, Teardown]
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


def tables_of(
    records: Collection[Record],
    statements: Sequence[Statement],
    units: Units,
    possible: dict[Teardown, tuple[MayBe, ...]],
) -> Tables:
    """`possible` are the numbers that each teardown's may be."""
    assemblies, conversions = _of(records, Assembly), _of(records, Conversion)
    supersessions = _of(records, Supersession)
    here = [one for one in assemblies.values() if not one.retired]
    sources, teardowns = _of(records, Source), _of(records, Teardown)
    changes = [(conversion, one) for conversion in conversions.values() for one in conversion.changes]
    subjects = (statement.subject for statement in statements)
    fittings = _grouped(
        ((one.series.id, one.assembly.position), one) for one in subjects if isinstance(one, Fitting)
    )
    seen = [(id_, t) for t, each in possible.items() for one in each for id_ in series_of(one, units)]
    return Tables(
        assemblies=frozen(assemblies),
        part_records=frozen(_of(records, PartRecord)),
        supersessions=frozen(supersessions),
        conversions=frozen(conversions),
        sources=frozen(sources),
        teardowns=frozen(teardowns),
        said=frozen({statement.subject: statement for statement in statements}),
        fittings=fittings,
        fitted_in=_grouped(sorted(fittings)),
        at_position=_grouped((a.position, a) for a in here),
        known_at=_grouped((a.position, a.id) for a in here),
        signed_at=_grouped((a.position, a) for a in here if a.signs),
        limited_at=_grouped((a.position, a) for a in here if any(line.serials for line in a.parts)),
        strip_downs=_grouped((s.assembly, s) for s in _of(records, StripDown).values()),
        conversions_at=_grouped((one.position, c) for c, one in changes),
        conversions_from=_grouped((start, c) for c, one in changes for start in one.start),
        conversions_to=_grouped((one.to, c) for c, one in changes),
        conversions_in=_grouped((span.series, c) for c in conversions.values() for span in c.serials),
        conversions_needing=_grouped(
            (id_, c) for c in conversions.values() for need in c.needs for id_ in need.assemblies
        ),
        supersessions_in=_grouped((span.series, s) for s in supersessions.values() for span in s.serials),
        possible=frozen(possible),
        found=_grouped((f, t) for t in teardowns.values() for f in _found_in(t)),
        perhaps_found=_grouped((id_, t) for t in teardowns.values() for f in t.found for id_ in f.named),
        found_at=_grouped((find.position, t) for t in teardowns.values() for find in t.found),
        seen_in=_grouped(seen),
        seen_at=_grouped(((id_, find.position), t) for id_, t in seen for find in t.found),
        cited=_grouped(_citations(statements, sources, teardowns)),
    )


def _of(records: Iterable[Record], kind: type[R]) -> dict[str, R]:
    kept: dict[str, R] = {}
    for record in records:
        if isinstance(record, kind):
            kept.setdefault(record.id, record)
    return kept


def kept_of(records: Iterable[Record]) -> Iterator[Record]:
    seen: set[tuple[str, str]] = set()
    for record in records:
        if (record.kind, record.id) not in seen:
            seen.add((record.kind, record.id))
            yield record


def frozen(mapping: dict[K, V]) -> Mapping[K, V]:
    return MappingProxyType(mapping)


def _grouped(pairs: Iterable[tuple[K, V]]) -> Mapping[K, tuple[V, ...]]:
    """Values by key, each once, in the order they come."""
    groups: defaultdict[K, dict[V, None]] = defaultdict(dict)
    for key, value in pairs:
        groups[key][value] = None
    return frozen({key: tuple(values) for key, values in groups.items()})


def _tree(entries: Iterable[PositionEntry], around: Position | None = None) -> Iterator[Position]:
    above = around.path if around else None
    for entry in entries:
        path = f"{above}/{entry.id}" if above else entry.id
        below = tuple(f"{path}/{e.id}" for e in entry.positions)
        holds = not below or any(e.within for e in entry.positions)
        housing = around.housing if around else None
        if above and entry.within:
            housing = Housing(above, entry.within)
        follows = entry.follows or (around.follows if around else None)
        also = tuple(other_titles(entry))
        position = Position(path, entry.title, entry.where, follows, above, below, holds, housing, also)
        yield position
        yield from _tree(entry.positions, position)


def _around(positions: Mapping[str, Position], position: Position) -> Iterator[str]:
    """The positions whose assemblies decide whether there is such a place, the nearest first."""
    while position.housing:
        yield position.housing.position
        position = positions[position.housing.position]


def _found_in(teardown: Teardown) -> Iterator[str]:
    return (find.assembly for find in teardown.found if find.assembly)


def _citations(
    statements: Iterable[Statement], sources: Mapping[str, Source], teardowns: Mapping[str, Teardown]
) -> Iterator[tuple[Source | Teardown, Statement]]:
    for statement in statements:
        for evidence in statement.evidence:
            if evidence.source and evidence.source in sources:
                yield sources[evidence.source], statement
            elif evidence.teardown and evidence.teardown in teardowns:
                yield teardowns[evidence.teardown], statement
