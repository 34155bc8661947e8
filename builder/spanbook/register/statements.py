"""What records say on the word of their evidence: every statement with its subject.

A subject is the very thing that is said: it holds its bounds, quantity or value as typed data, so nobody
has to look them up in a record's lists again. Several items of one record are several subjects, each with
its own statement and evidence, also where they speak of the same place.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from spanbook.ground.part_numbers import PartKey, hyphened, slug_of
from spanbook.reading.nodes import Step
from spanbook.reading.records import (
    AlsoNumber,
    Assembly,
    Circuit,
    Conversion,
    Evidence,
    ListedPart,
    Machine,
    Misprint,
    OtherNumber,
    OtherPart,
    PartRecord,
    Record,
    SaidSpan,
    Series,
    Supersession,
    Unit,
)
from spanbook.register.former import Former
from spanbook.register.numbering import Numbering
from spanbook.register.subjects import Bears as Bears
from spanbook.register.subjects import BuiltAt as BuiltAt
from spanbook.register.subjects import Dating as Dating
from spanbook.register.subjects import Fitting as Fitting
from spanbook.register.subjects import Limit as Limit
from spanbook.register.subjects import Measurement as Measurement
from spanbook.register.subjects import NumberSaid as NumberSaid
from spanbook.register.subjects import OfNumber as OfNumber
from spanbook.register.subjects import Passing as Passing
from spanbook.register.subjects import Shows as Shows
from spanbook.register.subjects import StraySpan as StraySpan
from spanbook.register.subjects import Subject as Subject
from spanbook.register.subjects import Supply as Supply
from spanbook.register.subjects import Telling as Telling
from spanbook.register.subjects import Use as Use


@dataclass(frozen=True, slots=True, eq=False)
class Statement:
    """Something a record says on the word of its evidence.

    `number` is the part that it is about, `anchor` its permanent place on the record's page (empty: the
    page itself), `path` its place in the file, to be told and for nothing else. `formerly` are the anchors
    that it had before.
    """

    subject: Subject
    record: Record
    number: PartKey | None
    anchor: str
    path: tuple[Step, ...]
    evidence: tuple[Evidence, ...]
    formerly: tuple[str, ...] = ()

    @property
    def position(self) -> str | None:
        """The place on a machine that it is about."""
        match self.subject:
            case Fitting() | StraySpan() | Use() | Limit():
                return self.subject.assembly.position
            case Conversion():
                return self.subject.position
            case _:
                return None


Numbers = Mapping[PartKey, tuple[PartKey, ...]]


def statements_in(
    record: Record, numbering: Numbering, series: Mapping[str, Series], former: Former
) -> tuple[Statement, ...]:
    """What a record says, in its own order.

    `former` has the names that things had before. A former anchor is the first statement's that had it, and
    nobody's where one has it today.
    """
    found = list(_in_record(record, numbering, series, former))
    taken = {statement.anchor for statement in found}
    for i, statement in enumerate(found):
        if statement.formerly:
            free = tuple(dict.fromkeys(one for one in statement.formerly if one not in taken))
            found[i] = replace(statement, formerly=free)
            taken.update(free)
    return tuple(found)


def _in_record(
    record: Record, numbering: Numbering, series: Mapping[str, Series], former: Former
) -> Iterator[Statement]:
    match record:
        case Machine():
            for i, run in enumerate(record.every_series):
                anchors = _named("series", (run.id, *run.formerly))
                yield Statement(
                    run, record, None, anchors[0], ("series", i), run.evidence, formerly=anchors[1:]
                )
                yield from _plants(record, i, run)
                if run.years_evidence:
                    at, anchors = ("series", i, "years"), _named("years", (run.id, *run.formerly))
                    yield Statement(
                        Dating(run), record, None, anchors[0], at, run.years_evidence, formerly=anchors[1:]
                    )
        case Assembly():
            yield from _in_assembly(record, numbering, series, former)
        case PartRecord():
            key = numbering.of_record(record)
            yield Statement(record, record, key, "", (), record.evidence)
            if record.tell_evidence:
                yield Statement(Telling(record), record, key, "tell", ("tell",), record.tell_evidence)
            yield from _signs(record, key, former)
            if record.supply_evidence:
                yield Statement(Supply(record), record, key, "supply", ("supplied",), record.supply_evidence)
            for i, size in enumerate(record.sizes):
                subject, anchor = Measurement(record, size), size_anchor(size.what)
                # What only speaks against a size leaves it resting on what the record rests on.
                others = record.evidence if all(piece.against for piece in size.evidence) else ()
                yield Statement(
                    subject, record, key, anchor, ("sizes", i), (*size.evidence, *others), size.formerly
                )
            yield from _numbers(record, key)
        case Unit():
            for i, number in enumerate(record.numbers):
                anchor = f"number-{hyphened(number.serial)}"
                yield Statement(Bears(record, number), record, None, anchor, ("numbers", i), number.evidence)
        case Supersession() | Conversion():
            yield Statement(record, record, None, "", (), record.evidence)
        case Circuit():
            yield Statement(record, record, None, "", (), record.evidence)
            yield from _ways(record)


def _plants(machine: Machine, i: int, run: Series) -> Iterator[Statement]:
    for j, plant in enumerate(run.plants):
        if plant.evidence:
            at, place = ("series", i, "plants", j), hyphened(plant.name)
            now, *before = (f"plant-{id_}-{place}" for id_ in (run.id, *run.formerly))
            yield Statement(BuiltAt(run, plant), machine, None, now, at, plant.evidence, tuple(before))


def _in_assembly(
    assembly: Assembly, numbering: Numbering, series: Mapping[str, Series], former: Former
) -> Iterator[Statement]:
    if assembly.tell_evidence:
        yield Statement(Telling(assembly), assembly, None, "tell", ("tell",), assembly.tell_evidence)
    yield from _signs(assembly, None, former)
    for i, span in enumerate(assembly.serials):
        run = series.get(span.series)
        counts = run and not assembly.retired
        subject = Fitting(assembly, run, span) if run and counts else StraySpan(assembly, span)
        anchors = _named("span", (span.series, *(run.formerly if run else ())))
        anchor, before = (span.anchor, ()) if span.anchor else (anchors[0], anchors[1:])
        formerly = (*span.formerly, *before)
        yield Statement(subject, assembly, None, anchor, ("serials", i), span.evidence, formerly)
    for i, line in enumerate(assembly.parts):
        yield from _Line(assembly, line, ("parts", i), numbering, former.numbers_of).statements(series)
    yield from _ways(assembly)


@dataclass(slots=True)
class _Line:
    """A line of a parts list."""

    assembly: Assembly
    line: ListedPart
    at: tuple[Step, ...]
    numbering: Numbering
    former: Numbers

    def statements(self, series: Mapping[str, Series]) -> Iterator[Statement]:
        """Each of its numbers, then each span that it is limited to."""
        places = [self.at, *((*self.at, "or", j) for j in range(len(self.line.others)))]
        for said, path in zip(self.line.numbers, places, strict=True):
            key = self.key(said)
            anchor, *before = self.anchors(said, key)
            formerly = (*said.formerly, *before)
            use = Use(self.assembly, self.line, said)
            yield Statement(use, self.assembly, key, anchor, path, said.evidence, formerly)
        for j, span in enumerate(self.line.serials):
            yield self.limit(span, series.get(span.series), (*self.at, "serials", j))

    def limit(self, span: SaidSpan, run: Series | None, at: tuple[Step, ...]) -> Statement:
        ids = (span.series, *(run.formerly if run else ()))
        key = self.key(self.line)
        named = tuple(f"{anchor}-{id_}" for anchor in self.anchors(self.line, key) for id_ in ids)
        anchor, before = (span.anchor, ()) if span.anchor else (named[0], named[1:])
        subject = Limit(self.assembly, run, self.line, span) if run else StraySpan(self.assembly, span)
        formerly = (*span.formerly, *before)
        return Statement(subject, self.assembly, key, anchor, at, span.evidence, formerly)

    def key(self, said: ListedPart | OtherNumber) -> PartKey:
        only = said.serials if isinstance(said, ListedPart) else ()
        return self.numbering.of_line(self.assembly, said, only)

    def anchors(self, said: ListedPart | OtherNumber, key: PartKey) -> tuple[str, ...]:
        """Its anchor of today, then those that follow from the numbers that it had before."""
        if isinstance(said, ListedPart) and said.anchor:
            return (said.anchor,)
        slug = slug_of(said.number)
        own = f"part-{said.by}-{slug}" if said.by else f"part-{slug}"
        if not (numbers := self.former.get(key)):
            return (own,)
        # The maker's own went without a name before it, unless the line said whose it was.
        maker = self.numbering.owner(self.assembly)
        earlier = [part_anchor(PartKey("", k.number)) for k in numbers if k.by == maker]
        earlier += [part_anchor(k) for k in numbers if k.by != maker or said.by]
        return own, *earlier


def _numbers(part: PartRecord, key: PartKey) -> Iterator[Statement]:
    """What a part's record says of numbers: each on its own evidence, else on what the record rests on."""
    said: list[tuple[NumberSaid, str, tuple[Step, ...]]] = [
        *((one, f"number-{_slug(one)}", ("also", i)) for i, one in enumerate(part.also)),
        *((one, f"misprint-{_slug(one)}", ("misprints", i)) for i, one in enumerate(part.misprints)),
        *((one, f"meaning-{i + 1}", ("reused", i)) for i, one in enumerate(part.reused)),
        *((one, f"mirror-{_slug(one)}", ("mirrors", i)) for i, one in enumerate(part.mirrors)),
        *((one, f"in-{_slug(one)}", ("only-in", i)) for i, one in enumerate(part.only_in)),
        *((one, f"holds-{_slug(one)}", ("holds", i)) for i, one in enumerate(part.holds)),
        *((one, f"unlike-{_slug(one)}", ("unlike", i)) for i, one in enumerate(part.unlike)),
    ]
    for one, anchor, path in said:
        others = part.evidence if all(piece.against for piece in one.evidence) else ()
        yield Statement(OfNumber(part, one), part, key, anchor, path, (*one.evidence, *others))


def _slug(one: AlsoNumber | Misprint | OtherPart) -> str:
    key = PartKey.of(one.by or "", one.number)
    return f"{key.by}-{key.slug}" if key.by else key.slug


def _named(sort: str, ids: Iterable[str]) -> tuple[str, ...]:
    """The anchors that follow from the ids of a series or a sign, the one of today first."""
    return tuple(f"{sort}-{id_}" for id_ in ids)


def _ways(record: Assembly | Circuit) -> Iterator[Statement]:
    for i, way in enumerate(record.ways):
        if way.evidence:
            subject = Passing(record, way)
            yield Statement(subject, record, None, f"way-{way.id}", ("ways", i), way.evidence)


def _signs(record: Assembly | PartRecord, key: PartKey | None, former: Former) -> Iterator[Statement]:
    for i, shown in enumerate(record.signs):
        if shown.evidence:
            now, *before = _named("sign", (shown.sign, *former.ids_of.get(("sign", shown.sign), ())))
            subject, at = Shows(record, shown), ("signs", i)
            yield Statement(subject, record, key, now, at, shown.evidence, tuple(before))


def size_anchor(what: str) -> str:
    """The anchor of a measurement on a part's page, from the words that say what was measured."""
    return f"size-{hyphened(what)}"


def part_anchor(key: PartKey) -> str:
    """The anchor of a part on an assembly's page; the maker's own numbers go without a name before them."""
    return f"part-{key.by}-{key.slug}" if key.by else f"part-{key.slug}"
