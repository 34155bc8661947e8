"""What a person decides on of a comparison, in a minute: a line each, the worst first."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from spanbook.answers.diff.model import (
    Against,
    Answer,
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
from spanbook.answers.diff.points import Point, Sort, points
from spanbook.reading.records import GonePage
from spanbook.wording import diff
from spanbook.wording.grammar import listed, plural
from spanbook.wording.grounds import against_words, break_words, look_words, unbacked_words
from spanbook.wording.proposal import Section
from spanbook.wording.spans import numbers_words

TITLE = "In short"
MOST = 7  # lines that are read before anything else
_OF_ONE_SORT = 3
_COUNTED = {
    Sort.AGAINST: ("{} contradiction", "{} contradictions"),
    Sort.CONFLICT: ("{} conflict", "{} conflicts"),
    Sort.UNBACKED: ("{} change without a change of evidence", "{} changes without a change of evidence"),
    Sort.GONE: ("{} thing that is no longer said", "{} things that are no longer said"),
    Sort.FALLEN: ("{} standing that falls", "{} standings that fall"),
    Sort.ORDER: ("{} order", "{} orders"),
    Sort.ANSWER: ("{} answer", "{} answers"),
    Sort.BREAK: ("{} break that moves", "{} breaks that move"),
    Sort.YEAR: ("{} year", "{} years"),
    Sort.LOOK: ("{} teardown", "{} teardowns"),
    Sort.RISEN: ("{} standing that rises", "{} standings that rise"),
}
# What the sections of the comparison do not tell in their own way.
_ONLY_HERE = {
    Sort.AGAINST: "More contradictions",
    Sort.UNBACKED: "More that changed without a change of evidence",
    Sort.BREAK: "More breaks that move",
    Sort.LOOK: "More teardowns",
}
_STANDS = {Sort.GONE: "no longer said", Sort.FALLEN: "stands lower", Sort.RISEN: "stands higher"}


def whole(found: Comparison) -> Iterator[Section]:
    """All that changes, after the few lines that tell what to decide."""
    if lines := in_short(found):
        yield section(lines)
    yield from below(found)


def section(lines: tuple[str, ...]) -> Section:
    return Section(TITLE, lines, counted=False)


def in_short(found: Comparison) -> tuple[str, ...]:
    """The few lines that a maintainer decides on; none where nothing changes for readers."""
    return tuple(line for _, line in headline(found))


def below(found: Comparison) -> Iterator[Section]:
    """What comes after them: all that changes, and of what only they tell what did not fit."""
    every = points(found)
    shown = _shown(every)
    for sort, title in _ONLY_HERE.items():
        rest = [point_words(found, p) for p in every if p.sort is sort and p not in shown]
        if rest:
            yield Section(title, tuple(rest))
    yield from diff.sections(found)


def headline(found: Comparison) -> Iterator[tuple[Sort | None, str]]:
    """The same with what each line is about; None: about several things, or about nothing."""
    every = points(found)
    if not every and found.records:
        yield None, _no_answer(found)
    shown = _shown(every)
    yield from ((point.sort, point_words(found, point)) for point in shown)
    rest = Counter(point.sort for point in every)
    rest.subtract(point.sort for point in shown)
    counted = [plural(rest[sort], *_COUNTED[sort]) for sort in Sort if rest[sort]]
    if counted:
        yield None, f"and, told below, {listed(counted)}"


def _no_answer(found: Comparison) -> str:
    named = [diff.record_words(change) for change in found.records[:_OF_ONE_SORT]]
    more = len(found.records) - len(named)
    rest = [plural(more, "{} record more", "{} records more")] if more else []
    return f"nothing that answers depend on changed ({'; '.join(named + rest)})"


def _shown(every: Sequence[Point]) -> list[Point]:
    """The worst, with not too many of one sort; where some are left out, a line is kept to count them."""
    few = [p for sort in Sort for p in [p for p in every if p.sort is sort][:_OF_ONE_SORT]]
    return few if len(few) == len(every) <= MOST else few[: MOST - 1]


def point_words(found: Comparison, point: Point) -> str:
    """A change in a line, with what it does before it."""
    match point.change:
        case Against():
            return against_words(found.new, point.change)
        case StatementChange():
            return f"changed without a change of evidence: {unbacked_words(found.new, point.change)}"
        case GonePage():
            return f"gone for good: {point.change.address}, because: {point.change.why}"
        case RecordChange():
            return f"no longer said: all of {point.change.kind} {point.change.id}"
        case StandingChange():
            return f"{_STANDS[point.sort]}: {diff.standing_words(point.change)}"
        case OrderChange():
            return (
                f"ordered otherwise: {diff.order_words(found, point.change)}{used_words(found, point.change)}"
            )
        case AnswerChange():
            does = "two standards on the same numbers" if point.sort is Sort.CONFLICT else "answers otherwise"
            return f"{does}: {shifted_words(found, point.change)}"
        case BreakChange():
            return f"moves {break_words(found, point.change)}"
        case YearChange():
            return f"dated otherwise: {diff.year_words(found, point.change)}"
        case Look():
            return look_words(found.new, point.change)


def used_words(found: Comparison, change: OrderChange) -> str:
    """Where the number is used: ` (of Oil filter and Pump)`."""
    part = found.new.parts.get(change.key) or found.old.parts[change.key]
    used = list(dict.fromkeys(use.assembly.title for use in part.uses))
    if not used:
        return ""
    more = f" and {len(used) - 2} more" if len(used) > 2 else ""
    return f" (of {', '.join(used[:2])}{more})"


def shifted_words(found: Comparison, at: AnswerChange) -> str:
    """Where, on which numbers, and what is there no more, newly, or otherwise."""
    series = found.new.series.get(at.series) or found.old.series[at.series]
    position = {**found.old.positions, **found.new.positions}[at.position]
    where = f"{position.title}, {numbers_words(at.change.first, at.change.last, series)}"
    return f"{where}: {shift_words(found, at)}"


def shift_words(found: Comparison, at: AnswerChange) -> str:
    """What is there no more, newly, or otherwise."""
    if at.change.before is None:
        return "a number or place that was not there"
    if at.change.after is None:
        return "no such number or place any more"
    told = list(_differences(found, at.change.before, at.change.after))
    return listed(told) or f"{at.change.before.state} → {at.change.after.state}"


def _differences(found: Comparison, before: Answer, after: Answer) -> Iterator[str]:
    was, now = ({(h.assembly, h.fitted, h.option): h for h in answer.held} for answer in (before, after))
    for key, held in was.items():
        if key not in now:
            yield f"no longer {diff.held_words(found, held)}"
        elif now[key] != held:
            yield f"now {diff.held_words(found, now[key])}"
    yield from (f"now also {diff.held_words(found, held)}" for key, held in now.items() if key not in was)
