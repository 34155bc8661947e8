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
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked, marked_forms
from spanbook.ground.punctuation import labelled, parted
from spanbook.reading.records import GonePage
from spanbook.wording import diff
from spanbook.wording.grammar import first_of, listed, plural
from spanbook.wording.grounds import against_words, break_words, look_words, unbacked_words
from spanbook.wording.proposal import Section
from spanbook.wording.spans import numbers_words

MOST = 7  # lines that are read before anything else
_OF_ONE_SORT = 3
_COUNTED = {
    Sort.AGAINST: marked_forms("{} contradiction", "{} contradictions"),
    Sort.CONFLICT: marked_forms("{} conflict", "{} conflicts"),
    Sort.UNBACKED: marked_forms(
        "{} change without a change of evidence", "{} changes without a change of evidence"
    ),
    Sort.GONE: marked_forms("{} thing that is no longer said", "{} things that are no longer said"),
    Sort.FALLEN: marked_forms("{} standing that falls", "{} standings that fall"),
    Sort.ORDER: marked_forms("{} order", "{} orders"),
    Sort.ANSWER: marked_forms("{} answer", "{} answers"),
    Sort.BREAK: marked_forms("{} break that moves", "{} breaks that move"),
    Sort.YEAR: marked_forms("{} year", "{} years"),
    Sort.LOOK: marked_forms("{} teardown", "{} teardowns"),
    Sort.RISEN: marked_forms("{} standing that rises", "{} standings that rise"),
}
# What the sections of the comparison do not tell in their own way.
_ONLY_HERE = {
    Sort.AGAINST: marked("More contradictions"),
    Sort.UNBACKED: marked("More that changed without a change of evidence"),
    Sort.BREAK: marked("More breaks that move"),
    Sort.LOOK: marked("More teardowns"),
}
_STANDS = {
    Sort.GONE: marked("no longer said: {}"),
    Sort.FALLEN: marked("stands lower: {}"),
    Sort.RISEN: marked("stands higher: {}"),
}


def whole(found: Comparison) -> Iterator[Section]:
    """All that changes, after the few lines that tell what to decide."""
    if lines := in_short(found):
        yield section(lines)
    yield from below(found)


def title() -> str:
    return _("In short")


def section(lines: tuple[str, ...]) -> Section:
    return Section(title(), lines, counted=False)


def in_short(found: Comparison) -> tuple[str, ...]:
    """The few lines that a maintainer decides on; none where nothing changes for readers."""
    return tuple(line for _, line in headline(found))


def below(found: Comparison) -> Iterator[Section]:
    """What comes after them: all that changes, and of what only they tell what did not fit."""
    every = points(found)
    shown = _shown(every)
    for sort, called in _ONLY_HERE.items():
        rest = [point_words(found, p) for p in every if p.sort is sort and p not in shown]
        if rest:
            yield Section(_(called), tuple(rest))
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
        yield None, _("and, told below, {}").format(listed(counted))


def _no_answer(found: Comparison) -> str:
    named = [diff.record_words(change) for change in found.records[:_OF_ONE_SORT]]
    more = len(found.records) - len(named)
    rest = [plural(more, "{} record more", "{} records more")] if more else []
    return _("nothing that answers depend on changed ({})").format(parted(*named + rest))


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
            told = _("changed without a change of evidence: {}")
            return told.format(unbacked_words(found.new, point.change))
        case GonePage():
            told = _("gone for good: {address}, because: {why}")
            return told.format(address=point.change.address, why=point.change.why)
        case RecordChange():
            return _("no longer said: all of {}").format(f"{point.change.kind} {point.change.id}")
        case StandingChange():
            return _(_STANDS[point.sort]).format(diff.standing_words(point.change))
        case OrderChange():
            told = f"{diff.order_words(found, point.change)}{used_words(found, point.change)}"
            return _("ordered otherwise: {}").format(told)
        case AnswerChange():
            told = (
                _("two standards on the same numbers: {}")
                if point.sort is Sort.CONFLICT
                else _("answers otherwise: {}")
            )
            return told.format(shifted_words(found, point.change))
        case BreakChange():
            return _("moves {}").format(break_words(found, point.change))
        case YearChange():
            return _("dated otherwise: {}").format(diff.year_words(found, point.change))
        case Look():
            return look_words(found.new, point.change)


def used_words(found: Comparison, change: OrderChange) -> str:
    """Where the number is used: ` (of Oil filter and Pump)`."""
    part = found.new.parts.get(change.key) or found.old.parts[change.key]
    used = list(dict.fromkeys(use.assembly.title for use in part.uses))
    if not used:
        return ""
    return f" ({_('of {}').format(first_of(used, 2))})"


def shifted_words(found: Comparison, at: AnswerChange) -> str:
    """Where, on which numbers, and what is there no more, newly, or otherwise."""
    series = found.new.series.get(at.series) or found.old.series[at.series]
    position = {**found.old.positions, **found.new.positions}[at.position]
    where = f"{position.title}, {numbers_words(at.change.first, at.change.last, series)}"
    return labelled(where, shift_words(found, at))


def shift_words(found: Comparison, at: AnswerChange) -> str:
    """What is there no more, newly, or otherwise."""
    if at.change.before is None:
        return _("a number or place that was not there")
    if at.change.after is None:
        return _("no such number or place any more")
    told = list(_differences(found, at.change.before, at.change.after))
    return listed(told) or (f"{diff.state_words(at.change.before)} → {diff.state_words(at.change.after)}")


def _differences(found: Comparison, before: Answer, after: Answer) -> Iterator[str]:
    was, now = ({(h.assembly, h.fitted, h.option): h for h in answer.held} for answer in (before, after))
    for key, held in was.items():
        if key not in now:
            yield _("no longer {}").format(diff.held_words(found, held))
        elif now[key] != held:
            yield _("now {}").format(diff.held_words(found, now[key]))
    for key, held in now.items():
        if key not in was:
            yield _("now also {}").format(diff.held_words(found, held))
