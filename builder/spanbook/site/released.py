"""What a comparison changed for readers, as it stands in a release: in words, with addresses that last."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from spanbook.answers.diff.model import (
    Against,
    AnswerChange,
    BreakChange,
    Comparison,
    Look,
    OrderChange,
    StandingChange,
    StatementChange,
    StatementKey,
    YearChange,
)
from spanbook.answers.diff.points import Point, Sort, points
from spanbook.reading.kinds import KINDS
from spanbook.reading.records import GonePage, Record, Source, Teardown
from spanbook.reading.releases import Changed
from spanbook.register.statements import Statement
from spanbook.site import addresses
from spanbook.wording.changes import change_words, new_series, order_told_alike
from spanbook.wording.records import record_title

Said = Mapping[StatementKey, Statement]


def changed(found: Comparison) -> Iterator[Changed]:
    """Everything but what only those who judge a proposal have to ask about; what may mislead comes first."""
    said: dict[StatementKey, Statement] = {}
    for register in (found.old, found.new):
        said |= {(s.record.kind, s.record.id, s.anchor): s for s in register.statements}
    for point in points(found):
        if not _passed_over(found, point):
            why = tuple(dict.fromkeys(_grounds(found, point)))
            yield Changed(
                change_words(found, point, said),
                _address(found, point, said),
                tuple(record_title(record) for record in why),
                tuple(dict.fromkeys(one.seen_by for one in why if isinstance(one, Teardown))),
            )
    yield from _new_series(found)


def _new_series(found: Comparison) -> Iterator[Changed]:
    """A series that nobody had recorded before, in one line for all its numbers."""
    for id_, series in found.new.series.items():
        if id_ not in found.old.series:
            places = {one.position for one in found.answers if one.series == id_}
            yield Changed(new_series(series, len(places)), addresses.of_series(series), (), ())


def _passed_over(found: Comparison, point: Point) -> bool:
    """What only judges ask about, what readers are told alike, and what is told of a new series at once."""
    change = point.change
    match change:
        case OrderChange():
            return order_told_alike(found, change)
        case AnswerChange() | YearChange():
            return change.series not in found.old.series
        case _:
            return point.sort is Sort.UNBACKED


def _address(found: Comparison, point: Point, said: Said) -> str | None:
    """Where it is answered now, if it is anywhere."""
    new, change = found.new, point.change
    match change:
        case Against():
            return _of_record(change.statements[0].record) if change.statements else None
        case StandingChange():
            statement = said.get((change.kind, change.record, change.anchor))
            return addresses.of_statement(statement) if statement and change.after else None
        case AnswerChange() | BreakChange():
            return addresses.of_position(change.position) if change.position in new.positions else None
        case OrderChange():
            return addresses.of_part(change.key) if change.key in new.parts else None
        case YearChange():
            return addresses.of_series(new.series[change.series]) if change.series in new.series else None
        case Look():
            return addresses.of_record(change.teardown)
        case StatementChange():
            return addresses.of_statement(change.after)
        case GonePage():
            return change.address
        case _:
            return None


def _of_record(record: Record) -> str | None:
    return addresses.of_record(record) if KINDS[record.kind].paged else None


def _grounds(found: Comparison, point: Point) -> Iterator[Record]:
    """The sources and teardowns that the change comes from, as far as it tells."""
    change = point.change
    match change:
        case Against():
            yield from _evidence([change.reason.by])
        case StandingChange():
            yield from _evidence(reason.by for reason in (*change.gained, *change.lost))
        case BreakChange():
            yield from _evidence(change.by)
        case Look():
            yield change.teardown
        case AnswerChange():
            yield from _of_answer(found, change)
        case OrderChange():
            yield from _of_order(found, change)
        case _:
            return


def _evidence(records: Iterable[object]) -> Iterator[Record]:
    yield from (one for one in records if isinstance(one, Source | Teardown))


def _of_answer(found: Comparison, change: AnswerChange) -> Iterator[Record]:
    """What the spans rest on that changed records have there now."""
    touched = {(one.kind, one.id) for one in found.records}
    held = change.change.after.held if change.change.after else ()
    for id_ in dict.fromkeys(one.assembly for one in held):
        assembly = found.new.named("assembly")[id_]
        if (assembly.kind, id_) in touched:
            for statement in found.new.statements_of.get(assembly, ()):
                if statement.path[:1] == ("serials",):
                    yield from _named(found, statement)


def _of_order(found: Comparison, change: OrderChange) -> Iterator[Record]:
    """What the acts rest on that are new or otherwise and name the number."""
    touched = {(one.kind, one.id) for one in found.records}
    part = found.new.parts.get(change.key)
    for act in (*part.old_in, *part.new_in) if part else ():
        if (act.kind, act.id) in touched:
            for statement in found.new.statements_of.get(act, ()):
                yield from _named(found, statement)


def _named(found: Comparison, statement: Statement) -> Iterator[Record]:
    for one in statement.evidence:
        named = found.new.sources.get(one.source or "") or found.new.teardowns.get(one.teardown or "")
        if named and not one.against:
            yield named
