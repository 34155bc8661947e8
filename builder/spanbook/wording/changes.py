"""What readers are answered otherwise since a release: a line for each change, what is so now first."""

from __future__ import annotations

from collections.abc import Mapping

from spanbook.answers.diff.model import (
    Against,
    AnswerChange,
    BreakChange,
    Comparison,
    OrderChange,
    Ordered,
    RecordChange,
    StandingChange,
    StatementKey,
    YearChange,
)
from spanbook.answers.diff.points import Point
from spanbook.answers.standing import Standing
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.punctuation import labelled, parted
from spanbook.ground.years import Years
from spanbook.reading.records import GonePage, Series
from spanbook.register.model import Register
from spanbook.register.statements import Statement
from spanbook.wording.grammar import capital, plural
from spanbook.wording.grounds import called, moved_words, recorded_words, spoken_words
from spanbook.wording.headline import point_words, shifted_words, used_words
from spanbook.wording.orders import ways_words
from spanbook.wording.records import record_title
from spanbook.wording.spans import numbers_words
from spanbook.wording.years import years_words

_STANDS = {
    Standing.UNSUPPORTED: marked("without evidence"),
    Standing.RECALLED: marked("as somebody remembers it"),
    Standing.PRINTED: marked("in print"),
    Standing.SEEN: marked("seen on machines that nobody had altered"),
    Standing.CONFIRMED: marked("printed, and seen as printed"),
    Standing.DISPUTED: marked("disputed"),
}


def change_words(found: Comparison, point: Point, said: Mapping[StatementKey, Statement]) -> str:
    """A change in a line: `said` are the statements of both sides by what they are known by."""
    return capital(_words(found, point, said))


def _words(found: Comparison, point: Point, said: Mapping[StatementKey, Statement]) -> str:
    match change := point.change:
        case Against():
            return _against(found.new, change)
        case OrderChange():
            return _order(found, change)
        case AnswerChange():
            return shifted_words(found, change)
        case StandingChange():
            statement = said.get((change.kind, change.record, change.anchor))
            what = called(statement) if statement else f"{change.kind} {change.record}"
            return labelled(what, _standing(change.before, change.after))
        case BreakChange():
            return _("where it changes {}").format(moved_words(found, change))
        case YearChange():
            return _year(found, change)
        case RecordChange():
            old = found.old.named(change.kind).get(change.id)
            called_so = record_title(old) if old else f"{change.kind} {change.id}"
            return _("no longer recorded: {}").format(called_so)
        case GonePage():
            told = _("a page is gone for good, {address}: {why}")
            return told.format(address=change.address, why=change.why)
        case _:
            return point_words(found, point)


def _against(register: Register, one: Against) -> str:
    """What is recorded and on whose word, and who speaks against it."""
    recorded = parted(*recorded_words(register, one)[:2])
    said = spoken_words(one.reason)
    if one.fresh:
        return _("{recorded}: now spoken against. {said}").format(recorded=recorded, said=said)
    told = _("now recorded: {recorded}. It was spoken against before. {said}")
    return told.format(recorded=recorded, said=said)


def _order(found: Comparison, change: OrderChange) -> str:
    part = found.new.parts.get(change.key) or found.old.parts[change.key]
    now, was = _ways(found.new, change.after), _ways(found.old, change.before)
    before = _("it was {}").format(was) if was else _("nothing was told before")
    told = now or _("nothing is told any more")
    number = f"{part.number}{used_words(found, change)}"
    return _("what to order for {number}: {now}; {before}").format(number=number, now=told, before=before)


def _ways(register: Register, ordered: Ordered | None) -> str:
    return ways_words(register, ordered.ways) if ordered else ""


def order_told_alike(found: Comparison, change: OrderChange) -> bool:
    """Whether a reader is told the same of what to order, whatever it rests on."""
    return _ways(found.old, change.before) == _ways(found.new, change.after)


def _standing(before: Standing | None, after: Standing | None) -> str:
    if after is None:
        return _("no longer recorded")
    if not before:
        return _("now {}").format(_(_STANDS[after]))
    return _("now {now}; before, {before}").format(now=_(_STANDS[after]), before=_(_STANDS[before]))


def _year(found: Comparison, at: YearChange) -> str:
    series = found.new.series.get(at.series) or found.old.series[at.series]
    numbers = numbers_words(at.change.first, at.change.last, series)
    told = _("years of {numbers}: now {now}; before, {before}")
    return told.format(numbers=numbers, now=_dated(at.change.after), before=_dated(at.change.before))


def _dated(years: Years | None) -> str:
    return years_words(years) if years else _("not known")


def new_series(series: Series, positions: int) -> str:
    """That the numbers of a series are answered, which nobody had recorded before."""
    return plural(
        positions,
        "{series}: new here, with answers at {} position",
        "{series}: new here, with answers at {} positions",
        series=series.name,
    )
