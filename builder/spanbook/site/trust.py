"""How far a statement is to be trusted, and where a break lies, as a page shows it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from spanbook.answers.breaks import Break, total_of
from spanbook.answers.changepoint import Share
from spanbook.reading.records import Assembly, PartRecord, Series
from spanbook.register.statements import Subject, Telling
from spanbook.site import addresses
from spanbook.site.common import Linked, Site, Trust, linked
from spanbook.site.page import Link
from spanbook.wording.breaks import (
    break_words,
    claim_words,
    look_words,
    none_words,
    printed_words,
    share_words,
    unused_words,
    worked_words,
)
from spanbook.wording.standings import reason_words, standing_meaning, standing_word
from spanbook.wording.totals import total_words


def trust(site: Site, subject: Subject) -> Trust:
    """How far what is said of a subject is to be trusted."""
    judged = site.answers.standing(subject)
    reasons = tuple(linked(reason_words(reason)) for reason in judged.reasons)
    word, meaning = standing_word(judged.standing), standing_meaning(judged.standing)
    return Trust(judged.standing, word, meaning, reasons)


@dataclass(frozen=True, slots=True)
class Column:
    """A run of numbers in the picture: per cent from the left, width, and height of the probability."""

    x: float
    width: float
    height: float
    title: str


@dataclass(frozen=True, slots=True)
class Seen:
    """A teardown in the picture: a square for the earlier assembly, a ring for the later one."""

    x: float
    later: bool
    untouched: bool
    title: str


@dataclass(frozen=True, slots=True)
class ClaimView:
    """One of the claims that disagree: its numbers in the picture, and per cents before and now."""

    words: Linked
    x: float
    width: float
    before: float
    now: float


@dataclass(frozen=True, slots=True)
class BreakView:
    """One break in words and as a strip over the printed range and the machines seen around it."""

    anchor: str
    title: Link
    earlier: Link
    later: Link
    printed: str
    claims: tuple[ClaimView, ...]
    found: tuple[str, ...]
    worked: tuple[str, ...]
    columns: tuple[Column, ...]
    seen: tuple[Seen, ...]
    unused: tuple[str, ...]
    interval: tuple[float, float] | None
    first: str
    last: str


def breaks_of(site: Site, of: Series | Assembly) -> tuple[BreakView, ...]:
    places = ((one, site.once(_views_at, (one.series, one.position))) for one in site.answers.breaks_of(of))
    return tuple(views[id(one)] for one, views in places if id(one) in views)


def breaks_at(site: Site, series: Series, position: str) -> tuple[BreakView, ...]:
    return tuple(site.once(_views_at, (series, position)).values())


def _views_at(site: Site, place: tuple[Series, str]) -> dict[int, BreakView]:
    """The breaks of a place that are shown; by their identities, which the answers keep."""
    return {id(one): _break(site, one) for one in site.answers.breaks_at(place) if _open(one)}


def break_anchors(site: Site, series: Series, position: str) -> tuple[str, ...]:
    """Where the breaks of a series at a position stand."""
    return tuple(map(_anchor, filter(_open, site.answers.breaks_at((series, position)))))


def _anchor(one: Break) -> str:
    return f"break-{one.series.id}-{one.earlier.id}-{one.later.id}"


def _open(one: Break) -> bool:
    """Whether the printed range leaves more than one number."""
    return one.report.claim.size > 1


def _break(site: Site, one: Break) -> BreakView:
    claim = one.report.claim
    shown = [o.number for o in one.report.observations]
    shown = [n for n in shown if claim.first - claim.size < n < claim.last + claim.size]
    if one.disagreeing and not one.report.posterior.contradiction:
        inside = one.report.posterior.interval()
        shown += [inside.first, inside.last]
    first, last = max(one.series.first, min([claim.first, *shown])), max([claim.last, *shown])
    scale = _Window(first, last)
    title = site.register.positions[one.position].title
    return BreakView(
        anchor=_anchor(one),
        title=Link(f"{title}, {one.series.name}", addresses.of_position(one.position)),
        earlier=site.record_link(one.earlier),
        later=site.record_link(one.later),
        printed=printed_words(one),
        claims=tuple(_claims(one, scale)),
        found=tuple(break_words(one)),
        worked=tuple(worked_words(one)),
        columns=tuple(_columns(one, scale)),
        seen=tuple(_seen(one, scale)),
        unused=tuple(map(unused_words, one.unused)),
        interval=_interval(one, scale),
        first=one.series.stamp.show(first),
        last=one.series.stamp.show(last),
    )


@dataclass(frozen=True, slots=True)
class _Window:
    first: int
    last: int

    def at(self, number: int) -> float:
        number = min(max(number, self.first), self.last + 1)
        return round((number - self.first) * 100 / (self.last + 1 - self.first), 2)


def _columns(one: Break, scale: _Window) -> Iterator[Column]:
    runs = one.report.posterior.runs
    top = max((run.each for run in runs), default=None)
    for run in runs:
        if run.last < scale.first or run.first > scale.last:
            continue
        x = scale.at(run.first)
        height = float(run.each / top) if top else 0
        yield Column(
            x, round(scale.at(run.last + 1) - x, 2), round(height * 30, 1), share_words(run, one.series)
        )


def _claims(one: Break, scale: _Window) -> Iterator[ClaimView]:
    for claim, share in one.disagreeing:
        x = scale.at(claim.run.first)
        width = round(scale.at(claim.run.last + 1) - x, 2)
        yield _claim(linked(claim_words(one, claim, share)), x, width, share)
    if one.report.none:
        yield _claim((none_words(one, one.report.none),), 0, 100, one.report.none)


def _claim(words: Linked, x: float, width: float, share: Share) -> ClaimView:
    return ClaimView(words, x, width, *(round(float(part) * 100, 1) for part in (share.before, share.after)))


def _seen(one: Break, scale: _Window) -> Iterator[Seen]:
    for look in one.report.observations:
        if scale.first <= look.number <= scale.last:
            x = scale.at(look.number) + 50 / (scale.last + 1 - scale.first)
            yield Seen(x, look.later, look.untouched, look_words(look, one))


def _interval(one: Break, scale: _Window) -> tuple[float, float] | None:
    if one.report.posterior.contradiction:
        return None
    run = one.report.posterior.interval()
    left = scale.at(run.first)
    return left, round(scale.at(run.last + 1) - left, 2)


def totals_of(site: Site, series: Series) -> tuple[str, ...]:
    """How far the series ran by the numbers seen, if any was."""
    found = total_of(site.answers.fits, series)
    return tuple(total_words(found, series)) if found else ()


def telling(site: Site, record: Assembly | PartRecord) -> Trust | None:
    """How far what is said of telling a thing by eye is to be trusted, where that has evidence of its own."""
    said = (statement.subject for statement in site.register.statements_of[record])
    return next((trust(site, subject) for subject in said if isinstance(subject, Telling)), None)
