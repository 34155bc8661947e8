"""A machine, and each of its series: every position over all the numbers, as a chart and as tables."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import count

from markupsafe import Markup

from spanbook.answers.applicability import Fit, Segment, State
from spanbook.answers.standing import Standing
from spanbook.ground.intervals import Covers
from spanbook.reading.records import Machine, Series
from spanbook.register.statements import BuiltAt, Dating, Statement
from spanbook.site import addresses, markdown
from spanbook.site.charts import Chart, chart, letters, segment_strip
from spanbook.site.common import Site, Trust
from spanbook.site.figures.figure import FigureView, figures
from spanbook.site.page import Link, SitePage
from spanbook.site.trust import BreakView, breaks_of, totals_of, trust
from spanbook.site.views.retired_series import RetiredView, retired_view
from spanbook.site.ways import circuits_of_machine
from spanbook.wording.charts import machine_chart
from spanbook.wording.fits import COVERS, STATES, nothing_words
from spanbook.wording.pages import open_questions
from spanbook.wording.series import begins_again, issued_again, plant_words, year_words, years_begin
from spanbook.wording.spans import fitted_words, numbers_words, run_words
from spanbook.wording.standings import STANDINGS
from spanbook.wording.summaries import machine_summary, series_summary
from spanbook.wording.years import years_words


@dataclass(frozen=True, slots=True)
class YearRow:
    year: int
    numbers: str


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

    @property
    def known(self) -> bool:
        return bool(self.fits) or self.state is State.NO_PLACE


@dataclass(frozen=True, slots=True)
class PositionTable:
    """The segments of one position in one series; `group` is its place in the tree."""

    link: Link
    group: str
    anchor: str
    rows: tuple[SegmentRow, ...]


@dataclass(frozen=True, slots=True)
class PlantRow:
    """`anchor` and `trust` only where it rests on evidence of its own."""

    name: str
    numbers: str
    anchor: str
    trust: Trust | None


@dataclass(frozen=True, slots=True)
class SeriesView:
    anchor: str
    link: Link
    machine: Link
    stamp: str
    run: str
    plate: str
    where: str | None
    begins_again: str | None
    issued_again: str | None
    plants: tuple[PlantRow, ...]
    years: tuple[YearRow, ...]
    years_begin: str | None
    years_anchor: str
    years_trust: Trust | None
    skipped: tuple[str, ...]
    trust: Trust
    totals: tuple[str, ...]
    breaks: tuple[BreakView, ...]
    questions: Link | None
    notes: Markup | None
    chart: Chart
    tables: tuple[PositionTable, ...]
    known: int


@dataclass(frozen=True, slots=True)
class MachineView:
    maker: str
    figures: tuple[FigureView, ...]
    series: tuple[SeriesView, ...]
    retired: tuple[RetiredView, ...]
    circuits: tuple[Link, ...]
    notes: Markup | None


def pages(site: Site) -> Iterator[SitePage]:
    for machine in site.register.machines.values():
        yield _machine_page(site, machine)
        for series in machine.series:
            yield _series_page(site, machine, series)


def _machine_page(site: Site, machine: Machine) -> SitePage:
    address = addresses.of_record(machine)
    root = "../" * address.count("/")
    return SitePage(
        address=address,
        title=machine.title,
        summary=machine_summary(machine),
        sort="Machine",
        crumbs=(Link("Machines", "machines/"),),
        template="views/machine.html",
        view=MachineView(
            maker=machine.maker,
            figures=tuple(figures(site, ((one, machine, None) for one in machine.figures), count(1))),
            series=tuple(_series_view(site, machine, series, root) for series in machine.series),
            retired=tuple(retired_view(site, machine, series, root) for series in machine.retired_series),
            circuits=circuits_of_machine(site, machine),
            notes=markdown.to_html(machine.notes, root) if machine.notes else None,
        ),
        record=machine,
    )


def _series_page(site: Site, machine: Machine, series: Series) -> SitePage:
    address = addresses.of_series(series)
    return SitePage(
        address=address,
        title=f"{machine.title}, {series.name}",
        summary=series_summary(machine, series),
        sort="Series",
        crumbs=(Link("Machines", "machines/"), site.record_link(machine)),
        template="views/series.html",
        view=_series_view(site, machine, series, "../" * address.count("/")),
        record=machine,
    )


def _dated(site: Site, machine: Machine, series: Series) -> Statement | None:
    """What says of which years its numbers are, on evidence of its own."""
    said = site.register.statements_of[machine]
    return next((s for s in said if isinstance(s.subject, Dating) and s.subject.series is series), None)


def _series_view(site: Site, machine: Machine, series: Series, root: str) -> SeriesView:
    dated = _dated(site, machine, series)
    tables = tuple(_table(site, series, path) for path in site.answers.fits.positions(machine))
    return SeriesView(
        anchor=site.register.said[series].anchor,
        link=site.series_link(series),
        machine=site.record_link(machine),
        stamp=series.stamp.show(series.first),
        run=run_words(series),
        plate=series.plate,
        where=series.where,
        begins_again=begins_again(series),
        issued_again=issued_again(series),
        plants=tuple(_plants(site, machine, series)),
        years=tuple(_years(series)),
        years_begin=years_begin(series),
        years_anchor=dated.anchor if dated else "",
        years_trust=trust(site, dated.subject) if dated else None,
        skipped=tuple(numbers_words(run.first, run.last, series) for run in series.skipped),
        trust=trust(site, series),
        totals=totals_of(site, series),
        breaks=breaks_of(site, series),
        questions=_questions(site, series),
        notes=markdown.to_html(series.notes, root) if series.notes else None,
        chart=_chart(site, machine, series),
        tables=tables,
        known=sum(any(row.known for row in table.rows) for table in tables),
    )


def _plants(site: Site, machine: Machine, series: Series) -> Iterator[PlantRow]:
    every = site.register.statements_of[machine]
    said = {one.subject.plant: one for one in every if isinstance(one.subject, BuiltAt)}
    for plant, numbers in series.order.plants:
        statement = said.get(plant)
        judged = trust(site, statement.subject) if statement else None
        yield PlantRow(*plant_words(series, plant, numbers), statement.anchor if statement else "", judged)


def _questions(site: Site, series: Series) -> Link | None:
    count = len(site.answers.questions_of(series))
    return Link(open_questions(count), addresses.of_questions(series)) if count else None


def _years(series: Series) -> Iterator[YearRow]:
    table, lasts = series.years, dict(series.years.lasts)
    for i, (year, first) in enumerate(zip(table.years, table.firsts, strict=True)):
        after = table.firsts[i + 1] if i + 1 < len(table.firsts) else None
        end = lasts.get(year, None if after is None else after - 1)
        yield YearRow(year, year_words(series, year, first, end))


def _chart(site: Site, machine: Machine, series: Series) -> Chart:
    strips = [
        segment_strip(
            site.scale(series),
            site.register.positions[path].title,
            addresses.of_position(path),
            site.segments(series, path),
        )
        for path in site.answers.fits.positions(machine)
    ]
    words = machine_chart(machine, series)
    return chart(site.scale(series), words, strips)


def _table(site: Site, series: Series, path: str) -> PositionTable:
    found = site.segments(series, path)
    named = letters(found)
    line = site.position_links(path)
    anchor = path.replace("/", "--")
    return PositionTable(
        link=line[-1],
        group=", ".join(link.text for link in line[:-1]),
        anchor=anchor,
        rows=tuple(_row(site, series, segment, named, anchor) for segment in found),
    )


def _row(site: Site, series: Series, segment: Segment, named: dict[str, str], anchor: str) -> SegmentRow:
    years = series.years.span_of(segment.first, segment.last)
    state = _told(site, segment)
    return SegmentRow(
        anchor=f"{anchor}-from-{series.order.slug(segment.first)}",
        numbers=numbers_words(segment.first, segment.last, series),
        years=years_words(years) if years else None,
        state=state,
        state_word=STANDINGS[state] if isinstance(state, Standing) else STATES[state],
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
        STANDINGS[Standing.DISPUTED] if disputed else COVERS[fit.covers],
        fitted_words(fit.span),
        named[fit.assembly.id],
    )
