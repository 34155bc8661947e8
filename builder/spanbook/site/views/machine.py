"""A machine, and each of its series: every position over all the numbers, as a chart and as tables."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import count

from markupsafe import Markup

from spanbook.answers.applicability import State
from spanbook.ground.language import gettext as _
from spanbook.ground.language import pgettext
from spanbook.reading.records import Machine, Series
from spanbook.register.statements import BuiltAt, Dating, Statement
from spanbook.site import addresses, cutting, markdown
from spanbook.site.bars import bars_at
from spanbook.site.charts import Chart, Strip, chart
from spanbook.site.common import Site, Trust
from spanbook.site.each import Each
from spanbook.site.figures.figure import FigureView, figures
from spanbook.site.page import Link, SitePage
from spanbook.site.rows import RowsView
from spanbook.site.segment_table import PositionTable, position_table
from spanbook.site.trust import BreakView, breaks_of, totals_of, trust
from spanbook.site.views.place import of_positions
from spanbook.site.views.retired_series import RetiredView, retired_view
from spanbook.site.ways import circuits_of_machine
from spanbook.wording.charts import machine_chart
from spanbook.wording.pages import open_questions
from spanbook.wording.series import begins_again, issued_again, plant_words, year_words, years_begin
from spanbook.wording.spans import numbers_words, run_words
from spanbook.wording.summaries import machine_summary, series_summary


@dataclass(frozen=True, slots=True)
class YearRow:
    year: int
    numbers: str


@dataclass(frozen=True, slots=True)
class PlantRow:
    """`anchor` and `trust` only where it rests on evidence of its own."""

    name: str
    numbers: str
    anchor: str
    trust: Trust | None


@dataclass(frozen=True, slots=True)
class SeriesView:
    """A series as its page and its machine's have it.

    Breaks and tables stand on its own page, or what leads to its places instead, where they would be too
    long. There is no chart where that would be too long.
    """

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
    chart: Chart | None
    tables: tuple[PositionTable, ...]
    places: RowsView | None
    known: int
    positions: int


@dataclass(frozen=True, slots=True)
class MachineView:
    maker: str
    figures: tuple[FigureView, ...]
    series: tuple[SeriesView, ...]
    retired: tuple[RetiredView, ...]
    circuits: tuple[Link, ...]
    notes: Markup | None


def _things(site: Site) -> Iterator[Machine | Series]:
    machines = site.register.machines.values()
    yield from machines
    for machine in machines:
        yield from machine.series


def _pages(site: Site, one: Machine | Series) -> Iterator[SitePage]:
    if isinstance(one, Machine):
        yield _machine_page(site, one)
    else:
        yield _series_page(site, site.machine_of(one), one)


def _address(one: Machine | Series) -> str:
    return addresses.of_record(one) if isinstance(one, Machine) else addresses.of_series(one)


EACH = Each(_things, _address, _pages)


def _machine_page(site: Site, machine: Machine) -> SitePage:
    address = addresses.of_record(machine)
    root = "../" * address.count("/")
    return SitePage(
        address=address,
        title=machine.title,
        summary=machine_summary(machine),
        sort=_("Machine"),
        crumbs=(Link(_("Machines"), "machines/"),),
        template="views/machine.html",
        view=MachineView(
            maker=machine.maker,
            figures=tuple(figures(site, ((one, machine, None) for one in machine.figures), count(1))),
            series=tuple(_on_machine(site, machine, series, root) for series in machine.series),
            retired=tuple(retired_view(site, machine, series, root) for series in machine.retired_series),
            circuits=circuits_of_machine(site, machine),
            notes=markdown.to_html(machine.notes, root) if machine.notes else None,
        ),
        record=machine,
    )


def _series_page(site: Site, machine: Machine, series: Series) -> SitePage:
    address = addresses.of_series(series)
    view = _series_view(site, machine, series, "../" * address.count("/"))
    if site.series_cut(series):
        fits = cutting.chart_of(site.answers, series, site.answers.fits.positions(machine)) <= cutting.BOUND
        view = replace(view, chart=view.chart if fits else None, places=of_positions(site, series))
    else:
        positions = site.answers.fits.positions(machine)
        tables = tuple(position_table(site, series, path) for path in positions)
        view = replace(view, breaks=breaks_of(site, series), tables=tables)
    return SitePage(
        address=address,
        title=f"{machine.title}, {series.name}",
        summary=series_summary(machine, series),
        sort=pgettext("one", "Series"),
        crumbs=(Link(_("Machines"), "machines/"), site.record_link(machine)),
        template="views/series.html",
        view=view,
        record=machine,
    )


def _on_machine(site: Site, machine: Machine, series: Series, root: str) -> SeriesView:
    """A series among the others of its machine, without its chart where all of them would be too long."""
    view = _series_view(site, machine, series, root)
    return view if cutting.of_machine(site.answers, machine) <= cutting.BOUND else replace(view, chart=None)


def _dated(site: Site, machine: Machine, series: Series) -> Statement | None:
    """What says of which years its numbers are, on evidence of its own."""
    said = site.register.statements_of[machine]
    return next((s for s in said if isinstance(s.subject, Dating) and s.subject.series is series), None)


def _series_view(site: Site, machine: Machine, series: Series, root: str) -> SeriesView:
    dated = _dated(site, machine, series)
    positions = site.answers.fits.positions(machine)
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
        breaks=(),
        questions=_questions(site, series),
        notes=markdown.to_html(series.notes, root) if series.notes else None,
        chart=_chart(site, machine, series),
        tables=(),
        places=None,
        known=sum(_known(site, series, path) for path in positions),
        positions=len(positions),
    )


def _known(site: Site, series: Series, path: str) -> bool:
    return any(one.fits or one.state is State.NO_PLACE for one in site.segments(series, path))


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
        Strip(
            site.register.positions[path].title,
            addresses.of_position(path),
            bars_at(site, series, path),
        )
        for path in site.answers.fits.positions(machine)
    ]
    words = machine_chart(machine, series)
    return chart(site.scale(series), words, strips)
