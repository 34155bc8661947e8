"""On whose word answers change: what stands otherwise and why, what speaks against it, what was looked at."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Set

from spanbook.answers.diff.model import Against, Look, StandingChange, StatementKey
from spanbook.answers.diff.side import Side
from spanbook.answers.readings import Reading
from spanbook.answers.reasons import Had, Reason, SameNumbers, Says, Weight
from spanbook.reading.records import Record, Teardown
from spanbook.register.statements import Statement

# Of several things that one find does, the first of these is told.
_TOLD = (Weight.AGAINST, Weight.SEEN, Weight.EXPLAINED, Weight.SET_ASIDE)


def standings(before: Side, after: Side) -> Iterator[StandingChange]:
    """Every statement that stands otherwise, with the reasons that came and went."""
    for key in dict.fromkeys((*before.said, *after.said)):
        was, now = (side.judged[side.said[key]] if key in side.said else None for side in (before, after))
        retired = key in after.said and getattr(after.said[key].record, "retired", None)
        if not retired and (was and was.standing) != (now and now.standing):
            gained = _without(after, now.reasons, before, was.reasons) if was and now else ()
            lost = _without(before, was.reasons, after, now.reasons) if was and now else ()
            yield StandingChange(
                *key, was.standing if was else None, now.standing if now else None, gained, lost
            )


def _without(
    side: Side, reasons: tuple[Reason, ...], other: Side, those: tuple[Reason, ...]
) -> tuple[Reason, ...]:
    known = {_what(other, reason) for reason in those}
    return tuple(reason for reason in reasons if _what(side, reason) not in known)


def _what(side: Side, reason: Reason) -> tuple[object, ...]:
    """What a reason is known by, whatever its record was called before."""
    return reason.weight, reason.by.kind, side.today(reason.by.kind, reason.by.id), reason.at


def against(before: Side, after: Side) -> Iterator[Against]:
    """What speaks against statements and did not before, each once for all of them.

    Two standards on the same numbers are no matter of who said so: the answers tell of those. Where two
    claims speak against one another it is told of the older.
    """
    found: dict[tuple[object, ...], tuple[Reason, list[Statement]]] = {}
    for key, statement in after.said.items():
        was = before.judged[before.said[key]].reasons if key in before.said else ()
        for reason in _without(after, after.judged[statement].reasons, before, was):
            if reason.weight is Weight.AGAINST and _is_news(before, after, key, reason):
                seen = reason.shown.assembly.id if isinstance(reason.shown, Had) else statement
                found.setdefault((reason.by, seen), (reason, []))[1].append(statement)
    known = set(before.answers.register.records)
    for reason, statements in found.values():
        # What a machine showed is known as long as its teardown is; what is named against is said now.
        fresh = not isinstance(reason.shown, Had) or reason.by not in known
        yield Against(reason, tuple(statements), fresh)


def _is_news(before: Side, after: Side, key: StatementKey, reason: Reason) -> bool:
    if isinstance(reason.shown, SameNumbers):
        return False
    if key in before.said or not isinstance(reason.shown, Says):
        return True
    other = after.key(after.answers.register.said[reason.shown.claim])
    return other not in before.said and key < other


def looks(before: Side, after: Side) -> Iterator[Look]:
    """Every teardown that was not there before."""
    new = tuple(_new(before, after))
    done = _done(after, set(new))
    fits, register = after.answers.fits, after.answers.register
    times = Counter(map(_machine, map(fits.reading, register.teardowns.values()))) if new else Counter()
    for teardown in new:
        shown = {}
        for find in teardown.found:
            if find.assembly:
                weights = done.get((teardown, find.position), ())
                shown[find.position] = next((weight for weight in _TOLD if weight in weights), None)
        reading = fits.reading(teardown)
        first = reading is not None and times[_machine(reading)] == 1
        yield Look(teardown, reading, first, tuple(shown.items()))


def _machine(reading: Reading | None) -> object:
    """What is the same for every look at one machine."""
    return reading and (reading.unit or reading.own)


def _new(before: Side, after: Side) -> Iterator[Teardown]:
    had = {before.today(r.kind, r.id) for r in before.answers.register.teardowns.values()}
    yield from (one for id_, one in after.answers.register.teardowns.items() if id_ not in had)


def _done(side: Side, teardowns: Set[Record]) -> Mapping[tuple[Record, str | None], set[Weight]]:
    """All that each of these teardowns does to what is said of each position."""
    found: dict[tuple[Record, str | None], set[Weight]] = {}
    for statement, judged in side.judged.items():
        for reason in judged.reasons:
            if reason.by in teardowns:
                found.setdefault((reason.by, statement.position), set()).add(reason.weight)
    return found
