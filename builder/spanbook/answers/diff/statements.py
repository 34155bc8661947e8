"""Statements that say anything else, and whether what they rest on changed as well.

What changed while its evidence did not is to be asked of the proposer.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass
from typing import Any

from spanbook.answers.diff.model import FieldChange, StatementChange
from spanbook.answers.diff.side import Side
from spanbook.reading import nodes
from spanbook.reading.nodes import Step, at_path
from spanbook.reading.records import (
    Circuit,
    Conversion,
    Evidence,
    PartRecord,
    Series,
    Supersession,
    Way,
)
from spanbook.register.statements import (
    Bears,
    BuiltAt,
    Dating,
    Fitting,
    Limit,
    Measurement,
    OfNumber,
    Passing,
    Shows,
    Statement,
    StraySpan,
    Subject,
    Supply,
    Telling,
    Use,
)

# What stands in a statement and is not what it says on the word of its evidence: that itself, where it is
# kept, what it is called, remarks, and what is judged as a statement of its own.
_BESIDE = {
    *("evidence", "years-evidence", "supply-evidence", "tell-evidence"),
    *("anchor", "kind", "id", "origin", "formerly", "formerly-numbered", "machine"),
    *("title", "name", "note", "notes", "why", "where", "tell", "signs", "cautions", "declined", "sizes"),
    *("also", "misprints", "reused", "mirrors", "only-in", "holds", "unlike"),
}
# What may have evidence of its own in a record that has some as well.
_YEARS = frozenset(("years", "years-last", "years-begin"))
_SUPPLY = frozenset(("supplied",))


def rewritten(before: Side, after: Side) -> Iterator[StatementChange]:
    """Every statement with another content. Its evidence is the same where it names the same sources at the
    same places."""
    for was, now in _pairs(before, after):
        if was.record is now.record:
            continue
        if changed := tuple(_changed(before, was, now)):
            where = now.record.origin.place(*_at(now), *changed[0].steps)
            backed = _evidence(before, was) != _evidence(after, now)
            yield StatementChange(was, now, where, changed, backed)


def _pairs(before: Side, after: Side) -> Iterator[tuple[Statement, Statement]]:
    """The same statement on both sides: by what it is known by, else by its place among those that are left.

    A part's line in a list is known by its number, and another number in the line is a change of it.
    """
    yield from ((before.said[key], now) for key, now in after.said.items() if key in before.said)
    left = [_left(side, other) for side, other in ((before, after), (after, before))]
    for place, ours in left[0].items():
        # With more on one side than on the other nobody can tell which became which.
        theirs = left[1].get(place, [])
        if len(ours) == len(theirs):
            yield from zip(ours, theirs, strict=True)


def _left(side: Side, other: Side) -> Mapping[tuple[str, str, str], list[Statement]]:
    found: dict[tuple[str, str, str], list[Statement]] = {}
    for key, statement in side.said.items():
        if key not in other.said and statement.path:
            found.setdefault((*key[:2], type(statement.subject).__name__), []).append(statement)
    return found


def _evidence(side: Side, statement: Statement) -> set[tuple[object, ...]]:
    """What a statement rests on; a part that names nothing rests on what its assembly's spans name, and what
    a line is limited to on what the line does."""
    own: tuple[Evidence, ...] = statement.evidence
    if not own and isinstance(statement.subject, Limit):
        own = statement.subject.line.evidence
    if not own and isinstance(statement.subject, Use):
        own = tuple(e for span in statement.subject.assembly.serials for e in span.evidence)
    return {(*_named(side, piece), piece.at, piece.against) for piece in own}


def _named(side: Side, piece: Evidence) -> tuple[str, str]:
    if piece.source:
        return "source", side.today("source", piece.source)
    return "teardown", side.today("teardown", piece.teardown or "")


def _changed(before: Side, was: Statement, now: Statement) -> Iterator[FieldChange]:
    ours, theirs = _said(was.subject), _said(now.subject)
    if type(ours) is not type(theirs):
        return  # an anchor that went over to a thing of another sort
    apart = _apart(was.subject) & _apart(now.subject)
    for steps in _differing(before, _by_key(ours), _by_key(theirs)):
        if steps[0] not in apart:
            old, new = (at_path(s.record.origin.node, (*_at(s), *steps)) for s in (was, now))
            yield from _finer(FieldChange(steps, old, new))


def _at(statement: Statement) -> tuple[Step, ...]:
    """Where the object stands of which a statement tells: a single field's is the one that has it."""
    single = isinstance(statement.subject, Dating | Supply | Telling)
    return statement.path[:-1] if single else statement.path


def _apart(subject: Subject) -> frozenset[str]:
    """The fields that are judged as a statement of their own where they have evidence of their own."""
    match subject:
        case Series() if subject.years_evidence:
            return _YEARS
        case PartRecord() if subject.supply_evidence:
            return _SUPPLY
        case _:
            return frozenset()


def _finer(change: FieldChange) -> Iterator[FieldChange]:
    """Of what is typed as keys with values, like years, only those that differ."""
    old, new = change.before, change.after
    if not (isinstance(old, nodes.Mapping) and isinstance(new, nodes.Mapping)):
        yield change
        return
    for key in dict.fromkeys((*old.values, *new.values)):
        was, now = old.values.get(key), new.values.get(key)
        if was is None or now is None or nodes.plain(was) != nodes.plain(now):
            yield FieldChange((*change.steps, key), was, now)


def _differing(before: Side, was: Any, now: Any) -> Iterator[tuple[Step, ...]]:
    """The steps to every value that differs, as deep as the two go together."""
    below: Iterable[tuple[Step, Any, Any]]
    if isinstance(was, dict):
        below = ((key, was[key], now[key]) for key in was)
    elif _lines(was) and _lines(now) and len(was) == len(now):
        below = ((i, _by_key(was[i]), _by_key(now[i])) for i in range(len(was)))
    else:
        if not _same(before, was, now):
            yield ()
        return
    for step, ours, theirs in below:
        yield from ((step, *steps) for steps in _differing(before, ours, theirs))


def _lines(value: Any) -> bool:
    """Whether it is a list of objects: of acts, of parts, of spans."""
    return isinstance(value, tuple) and all(map(is_dataclass, value))


def _said(subject: Subject) -> object:
    """The object in a file that a statement is made by, or those of its fields that it is about."""
    match subject:
        case Fitting() | StraySpan() | Limit():
            return subject.span
        case Use():
            return _Number(subject.number, subject.said.by, _quantity(subject))
        case Measurement():
            return subject.size
        case Dating():
            return _only(subject.series, _YEARS)
        case BuiltAt():
            return subject.plant
        case OfNumber():
            return subject.said
        case Supply():
            return _only(subject.part, _SUPPLY)
        case Telling():
            return {"tell": subject.record.tell}
        case Shows():
            return subject.shown
        case Bears():
            return subject.number
        case Passing():
            return subject.way
        case Series() | PartRecord() | Supersession() | Conversion() | Circuit():
            return subject


@dataclass(frozen=True, slots=True)
class _Number:
    """A number on a line of a parts list, apart from the others there and what the line is limited to."""

    number: str
    by: str | None
    quantity: int | None


def _quantity(use: Use) -> int | None:
    """It is the line's; the other numbers on it go without."""
    return use.line.quantity if use.said is use.line else None


def _only(held: Any, keys: frozenset[str]) -> dict[str, Any]:
    return {key: value for key, value in _by_key(held).items() if key in keys}


def _by_key(held: Any) -> dict[str, Any]:
    """What an object says, by the keys of its file."""
    if isinstance(held, dict):
        return held
    keys = ((str(one.metadata.get("key", one.name)).replace("_", "-"), one.name) for one in fields(held))
    beside = (
        _BESIDE - {"sizes"} if isinstance(held, Way) else _BESIDE
    )  # a way's are no statements of their own
    return {key: getattr(held, name) for key, name in keys if key not in beside}


def _same(before: Side, was: Any, now: Any) -> bool:
    """Whether two values say the same, whatever the records that they name were called before."""
    if isinstance(was, tuple) and isinstance(now, tuple):
        return len(was) == len(now) and all(_same(before, *both) for both in zip(was, now, strict=True))
    if is_dataclass(was) and type(was) is type(now):
        ours, theirs = _by_key(was), _by_key(now)
        return all(_same(before, ours[key], theirs[key]) for key in ours)
    return was == now or (isinstance(was, str) and now in before.now_called(was))
