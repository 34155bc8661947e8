"""What a proposal changes in the answers that readers get, not in the lines of its files.

A record that was renamed is the same record: what it was called before is held against what it is now.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import fields, is_dataclass
from typing import TypeVar

from spanbook.answers.answers import Answers
from spanbook.answers.assumed import Assumed
from spanbook.answers.diff import breaks, grounds, statements
from spanbook.answers.diff.model import (
    AnswerChange,
    Comparison,
    Contradictions,
    OrderChange,
    Ordered,
    RecordChange,
    RecordKey,
    StatementKey,
    Term,
    YearChange,
    impossible,
)
from spanbook.answers.diff.side import Side
from spanbook.answers.supersession import Need, Step, acts_of, order_now
from spanbook.ground.intervals import Span
from spanbook.ground.part_numbers import PartKey
from spanbook.ground.piecewise import Piece, changes, over
from spanbook.ground.years import Years
from spanbook.reading.records import (
    Assembly,
    Origin,
    PartRecord,
    Record,
    Series,
    Source,
    Supersession,
    Teardown,
)
from spanbook.register.model import Register
from spanbook.register.renamed import renamed

K = TypeVar("K")
V = TypeVar("V")


def compare(
    old: Register, new: Register, addresses: tuple[Sequence[str], Sequence[str]], assumed: Assumed
) -> Comparison:
    """Both registers must be without errors; `addresses` are the public ones of the old and the new."""
    return compare_answers(Answers(old, lambda: assumed), Answers(new, lambda: assumed), addresses)


def compare_answers(
    were: Answers, are: Answers, addresses: tuple[Sequence[str], Sequence[str]]
) -> Comparison:
    """The same of answers that may have been asked already: of the old ones what was weighed is kept."""
    before, after = _sides(were, are)
    old, new = before.answers.register, after.answers.register
    asked = before.questions(), after.questions()
    had, has = map(set, addresses)
    return Comparison(
        old,
        new,
        answers=tuple(_answers(before, after)),
        years=tuple(_years(old, new)),
        orders=tuple(_orders(before, after)),
        standings=tuple(grounds.standings(before, after)),
        opened=tuple(question for key, question in asked[1].items() if key not in asked[0]),
        closed=tuple(question for key, question in asked[0].items() if key not in asked[1]),
        born=tuple(sorted(has - had)),
        # The reason on a page that is gone is found from every place on it.
        dead=tuple(sorted(one for one in had - has if one.partition("#")[0] not in new.gone)),
        gone=tuple(one for address, one in new.gone.items() if address not in old.gone),
        records=tuple(_records(old, new, before.renamed)),
        against=tuple(grounds.against(before, after)),
        looks=tuple(grounds.looks(before, after)),
        statements=tuple(statements.rewritten(before, after)),
        breaks=tuple(breaks.moved(before, after)),
    )


def contradicted(were: Answers, are: Answers) -> Contradictions:
    """Only what the new ones contradict that the old ones do not, a small part of all that changes."""
    before, after = _sides(were, are)
    return Contradictions(
        before.answers.register,
        after.answers.register,
        against=tuple(grounds.against(before, after)),
        breaks=impossible(breaks.moved(before, after)),
    )


def _sides(were: Answers, are: Answers) -> tuple[Side, Side]:
    new = are.register
    old = renamed(were.register, new)
    if old is not were.register:
        were = Answers(old, were.read_assumed)
    affected = _affected(old, new)
    before = Side(were, affected, _renamed(old, new), _readdressed(new))
    return before, Side(are, affected, {}, {})


def _renamed(old: Register, new: Register) -> dict[RecordKey, str]:
    """The id of today of every record of the old register that has another one now."""
    had = {(record.kind, record.id) for record in old.records}
    has = {(record.kind, record.id) for record in new.records}
    return {
        (record.kind, former): record.id
        for record in new.records
        for former in record.formerly
        if (record.kind, former) in had - has
    }


def _readdressed(new: Register) -> dict[StatementKey, str]:
    """The anchor of today of every statement that had another one."""
    return {(s.record.kind, s.record.id, was): s.anchor for s in new.statements for was in s.formerly}


def _affected(old: Register, new: Register) -> set[str] | None:
    """The positions where a changed record can make any difference; None for everywhere.

    Records are told apart by identity, and a file that did not change is read once for both. What is said
    of an assembly comes from the records of its own position and of those around it, from teardowns with a
    find there, from the sources and teardowns it names, and from the machines and conversions, which reach
    everywhere.
    """
    found: set[str] = set()
    for record in set(old.records) ^ set(new.records):
        for register in (old, new):
            named = register.cited.get(record, ()) if isinstance(record, Source | Teardown) else ()
            found |= {s.record.position for s in named if isinstance(s.record, Assembly)}
        if isinstance(record, Assembly):
            found.add(record.position)
            found |= {one.path for register in (old, new) for one in register.inside.get(record.position, ())}
        elif isinstance(record, Teardown):
            found |= {find.position for find in record.found}
        elif not isinstance(record, Source | PartRecord | Supersession):
            return None
    return found


def _differing(before: Mapping[K, V], after: Mapping[K, V]) -> Iterator[tuple[K, V | None, V | None]]:
    """Every key of either whose values differ, with both; None for none."""
    for key in dict.fromkeys((*before, *after)):
        was, now = before.get(key), after.get(key)
        if was != now:
            yield key, was, now


def _answers(old: Side, new: Side) -> Iterator[AnswerChange]:
    places = set(old.places()), set(new.places())
    for place in sorted(places[0] | places[1]):
        sides = [side if place in mine else None for side, mine in zip((old, new), places, strict=True)]
        # Records are told apart by identity, and a file that did not change is read once for both.
        if all(sides) and old.records_at(*place) == new.records_at(*place):
            continue
        runs = (side.pieces_at(*place) if side else () for side in sides)
        for change in changes(*runs):
            yield AnswerChange(*place, change)


def _years(old: Register, new: Register) -> Iterator[YearChange]:
    for id_ in sorted({*old.series, *new.series}):
        was, now = old.series.get(id_), new.series.get(id_)
        if was is not now:
            for change in changes(_dated(was), _dated(now)):
                yield YearChange(id_, change)


def _dated(series: Series | None) -> Iterator[Piece[Years]]:
    if series is None:
        return
    firsts = series.years.edges()
    for first, last in zip(firsts, (*(after - 1 for after in firsts[1:]), None), strict=False):
        if years := series.years.year_of(first):
            yield from over(Span(first, last), series.issued, years)


def _orders(old: Side, new: Side) -> Iterator[OrderChange]:
    if _of_orders(old.answers.register) != _of_orders(new.answers.register):
        for key, was, now in _differing(_ordered(old), _ordered(new)):
            # Several ways stand in the order of their acts' names, which says nothing.
            if not (was and now and _unordered(was) == _unordered(now)):
                yield OrderChange(key, was, now)


def _unordered(ordered: Ordered) -> tuple[object, ...]:
    return set(ordered.ways), set(ordered.terms)


def _of_orders(register: Register) -> list[tuple[Record, str | None]]:
    """The records that orders come from, told apart by identity, and whose numbers they mean."""
    found = (record for record in register.records if isinstance(record, Supersession | PartRecord))
    return [(record, register.owner(record)) for record in found]


def _ordered(side: Side) -> dict[PartKey, Ordered]:
    """What is ordered today for every number that an act names."""
    found, answers = {}, side.answers
    for key, part in answers.register.parts.items():
        if part.old_in or part.new_in or (part.record and part.record.only_in):
            terms = tuple(dict.fromkeys(_terms(side, order_now(answers.register, key))))
            found[key] = Ordered(answers.ordering.of(key).alternatives, terms)
    return found


def _terms(side: Side, need: Need) -> Iterator[Term]:
    for _, one in acts_of(need):
        if one.act:
            needed = one.conversions if isinstance(one, Step) else ()
            named = (need.conversion for need in needed)
            conversions = (one and side.today("conversion", one) for one in named)
            yield Term(side.today("supersession", one.act.id), one.act.serials, tuple(conversions))


def _records(old: Register, new: Register, renamed: Mapping[RecordKey, str]) -> Iterator[RecordChange]:
    were = {(r.kind, renamed.get((r.kind, r.id), r.id)): r for r in old.records}
    are = {(r.kind, r.id): r for r in new.records}
    for key in sorted({*were, *are}):
        was, now = were.get(key), are.get(key)
        if was is None:
            yield RecordChange("added", *key)
        elif now is None:
            yield RecordChange("removed", *key)
        elif was.id != now.id:
            yield RecordChange("renamed", *key, was.id)
        elif was is not now and not _alike(was, now):
            yield RecordChange("changed", *key)


def _alike(one: object, other: object) -> bool:
    """Whether two values say the same, wherever in a file they stand."""
    if isinstance(one, Origin):
        return True
    if isinstance(one, tuple) and isinstance(other, tuple):
        return len(one) == len(other) and all(map(_alike, one, other))
    if is_dataclass(one) and type(one) is type(other):
        return all(_alike(getattr(one, f.name), getattr(other, f.name)) for f in fields(one))
    return one == other
