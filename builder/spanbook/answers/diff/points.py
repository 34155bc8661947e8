"""What a person decides on: the changes of a comparison by what can go wrong with them, the worst first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from spanbook.answers.applicability import State
from spanbook.answers.diff.model import (
    Against,
    AnswerChange,
    BreakChange,
    Comparison,
    Look,
    OrderChange,
    RecordChange,
    StandingChange,
    StatementChange,
    YearChange,
)
from spanbook.answers.reasons import Weight
from spanbook.answers.standing import weakest
from spanbook.reading.records import GonePage, Record

Subject = (
    Against
    | AnswerChange
    | StatementChange
    | StandingChange
    | RecordChange
    | GonePage
    | OrderChange
    | BreakChange
    | YearChange
    | Look
)


class Sort(StrEnum):
    """What a change does, in the order in which it can do harm."""

    AGAINST = "against"
    CONFLICT = "conflict"
    UNBACKED = "unbacked"
    GONE = "gone"
    FALLEN = "fallen"
    ORDER = "order"
    ANSWER = "answer"
    BREAK = "break"
    YEAR = "year"
    LOOK = "look"
    RISEN = "risen"


@dataclass(frozen=True, slots=True)
class Point:
    """One thing to decide on."""

    sort: Sort
    change: Subject


def points(found: Comparison) -> tuple[Point, ...]:
    """All of them. What one point tells already is no other: a find against a statement lets it fall, too."""
    ranked = list(Sort)
    return tuple(sorted(_all(found), key=lambda point: ranked.index(point.sort)))


def _all(found: Comparison) -> Iterator[Point]:
    yield from (Point(Sort.AGAINST, one) for one in found.against)
    for answer in found.answers:
        yield Point(Sort.CONFLICT if _in_conflict(answer) else Sort.ANSWER, answer)
    yield from (Point(Sort.UNBACKED, one) for one in found.unbacked)
    yield from (Point(Sort.GONE, one) for one in found.gone)
    gone = {(one.kind, one.id): one for one in found.records if one.sort == "removed"}
    yield from (Point(Sort.GONE, one) for one in gone.values())
    # A part's line with another number is told once: not as a line that is gone, too.
    other = {(one.after.record.kind, one.after.record.id, one.before.anchor) for one in found.unbacked}
    told: set[Record] = {one.reason.by for one in found.against}
    for standing in found.standings:
        sort = _standing(standing, told)
        where = (standing.kind, standing.record)
        if sort and where not in gone and (sort is not Sort.GONE or (*where, standing.anchor) not in other):
            yield Point(sort, standing)
    yield from (Point(Sort.ORDER, one) for one in found.orders)
    yield from (Point(Sort.BREAK, one) for one in found.breaks)
    yield from (Point(Sort.YEAR, one) for one in found.years)
    for look in found.looks:
        if Weight.AGAINST not in {weight for _, weight in look.shown}:
            yield Point(Sort.LOOK, look)


def _in_conflict(answer: AnswerChange) -> bool:
    """Two standards are there now, and were not."""
    was, now = answer.change.before, answer.change.after
    conflict = str(State.CONFLICT)
    return now is not None and now.state == conflict and (was is None or was.state != conflict)


def _standing(change: StandingChange, told: set[Record]) -> Sort | None:
    if change.after is None:
        return Sort.GONE
    if change.before is None:
        return None  # what is new shows in the answers
    if any(reason.weight is Weight.AGAINST and reason.by in told for reason in change.gained):
        return None
    fallen = weakest((change.before, change.after)) is change.after
    return Sort.FALLEN if fallen else Sort.RISEN
