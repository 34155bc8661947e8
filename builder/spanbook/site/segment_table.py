"""What a series left the works with at one position, run by run of its numbers."""

from __future__ import annotations

from dataclasses import dataclass

from spanbook.answers.applicability import Fit, Segment, State
from spanbook.answers.standing import Standing
from spanbook.ground.intervals import Covers
from spanbook.reading.records import Series
from spanbook.site import addresses
from spanbook.site.charts import letters
from spanbook.site.common import Site
from spanbook.site.page import Link
from spanbook.wording.fits import covers_word, nothing_words, state_word
from spanbook.wording.spans import fitted_words, numbers_words
from spanbook.wording.standings import standing_word
from spanbook.wording.years import years_words


@dataclass(frozen=True, slots=True)
class FitLine:
    link: Link
    covers: str
    fitted: str
    letter: str


@dataclass(frozen=True, slots=True)
class SegmentRow:
    anchor: str
    numbers: str
    years: str | None
    state: State | Standing
    state_word: str
    fits: tuple[FitLine, ...]
    nothing: str


@dataclass(frozen=True, slots=True)
class PositionTable:
    """The segments of one position in one series; `group` is its place in the tree."""

    link: Link
    group: str
    anchor: str
    rows: tuple[SegmentRow, ...]


def position_table(site: Site, series: Series, path: str) -> PositionTable:
    found = site.segments(series, path)
    named = letters(found)
    line = site.position_links(path)
    anchor = addresses.anchor_of_position(path)
    return PositionTable(
        link=line[-1],
        group=", ".join(link.text for link in line[:-1]),
        anchor=anchor,
        rows=tuple(_row(site, series, path, segment, named) for segment in found),
    )


def segment_anchor(series: Series, path: str, first: int) -> str:
    return f"{addresses.anchor_of_position(path)}-from-{series.order.slug(first)}"


def _row(site: Site, series: Series, path: str, segment: Segment, named: dict[str, str]) -> SegmentRow:
    years = series.years.span_of(segment.first, segment.last)
    state = _told(site, segment)
    return SegmentRow(
        anchor=segment_anchor(series, path, segment.first),
        numbers=numbers_words(segment.first, segment.last, series),
        years=years_words(years) if years else None,
        state=state,
        state_word=standing_word(state) if isinstance(state, Standing) else state_word(state),
        fits=tuple(dict.fromkeys(_fit(site, fit, named) for fit in segment.fits)),
        nothing=nothing_words(segment),
    )


def _told(site: Site, segment: Segment) -> State | Standing:
    """The state of numbers as a reader is told: nothing is settled that somebody disputes, as on a card."""
    disputed = any(fit.covers is Covers.YES and _disputed(site, fit) for fit in segment.fits)
    return Standing.DISPUTED if disputed and segment.state is not State.CONFLICT else segment.state


def _disputed(site: Site, fit: Fit) -> bool:
    claims = site.answers.fits.claims(fit.fitting)
    return any(site.answers.standing(claim).standing is Standing.DISPUTED for claim in claims)


def _fit(site: Site, fit: Fit, named: dict[str, str]) -> FitLine:
    """An assembly once, however many claims give it the numbers; nothing is called sure that is disputed."""
    disputed = fit.covers is Covers.YES and _disputed(site, fit)
    return FitLine(
        Link(fit.assembly.title, addresses.of_record(fit.assembly)),
        standing_word(Standing.DISPUTED) if disputed else covers_word(fit.covers),
        fitted_words(fit.span),
        named[fit.assembly.id],
    )
