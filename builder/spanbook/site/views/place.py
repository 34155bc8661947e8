"""A place, which is a position in a series: what is known there, where the page of either is too long."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby
from operator import attrgetter

from spanbook.ground.language import gettext as _
from spanbook.reading.records import Series
from spanbook.register.model import Position
from spanbook.site import addresses
from spanbook.site.common import Site
from spanbook.site.each import Each
from spanbook.site.page import Link, SitePage
from spanbook.site.rows import Row, RowsView
from spanbook.site.segment_table import PositionTable, position_table, segment_anchor
from spanbook.site.trust import BreakView, break_anchors, breaks_at
from spanbook.site.views.at_position import AssemblyRow, SeriesChart, assembly_row, series_chart
from spanbook.wording import lists
from spanbook.wording.charts import position_chart
from spanbook.wording.spans import run_words


@dataclass(frozen=True, slots=True)
class PlaceView:
    position: Link
    chart: SeriesChart
    table: PositionTable
    breaks: tuple[BreakView, ...]
    assemblies: tuple[AssemblyRow, ...]


def _places(site: Site) -> Iterator[tuple[Series, str]]:
    for series in site.register.series.values():
        for path in site.answers.fits.positions(site.machine_of(series)):
            yield series, path


def _pages(site: Site, place: tuple[Series, str]) -> Iterator[SitePage]:
    series, path = place
    if site.apart(series, path):
        yield _page(site, series, site.register.positions[path])


EACH = Each(_places, lambda place: addresses.of_place(*place), _pages)


def _page(site: Site, series: Series, position: Position) -> SitePage:
    path, machine = position.path, site.machine_of(series)
    return SitePage(
        address=addresses.of_place(series, path),
        title=f"{position.title}, {series.name}",
        summary=position_chart(position.title, series),
        sort=_("Position"),
        crumbs=(Link(_("Machines"), "machines/"), site.record_link(machine), site.series_link(series)),
        template="views/place.html",
        view=PlaceView(
            position=site.position_links(path)[-1],
            chart=series_chart(site, position, series),
            table=position_table(site, series, path),
            breaks=breaks_at(site, series, path),
            assemblies=tuple(_assemblies(site, series, path)),
        ),
        record=machine,
        position=path,
        piece_of=f"{addresses.of_series(series)}#{addresses.anchor_of_position(path)}",
    )


def _assemblies(site: Site, series: Series, path: str) -> Iterator[AssemblyRow]:
    fittings = site.register.fittings.get((series.id, path), ())
    for assembly, here in groupby(fittings, key=attrgetter("assembly")):
        yield assembly_row(site, assembly, list(here))


def of_positions(site: Site, series: Series) -> RowsView:
    """What leads from the page of a series to its places."""
    words = lists.POSITIONS.told()
    rows = (_row(site, series, path) for path in site.answers.fits.positions(site.machine_of(series)))
    return RowsView(words.title, words.columns, tuple(rows))


def _row(site: Site, series: Series, path: str) -> Row:
    words = _(": ").join(link.text for link in site.position_links(path))
    segments = (segment_anchor(series, path, one.first) for one in site.segments(series, path))
    anchors = (addresses.anchor_of_position(path), *segments, *break_anchors(site, series, path))
    link = Link(words, addresses.of_place(series, path))
    return Row(link, (_count(site, series, path),), anchors=anchors)


def of_series(site: Site, path: str) -> RowsView:
    """What leads from the page of a position to its places."""
    rows = (
        Row(
            Link(series.name, addresses.of_place(series, path)),
            (machine.title, run_words(series), _count(site, series, path)),
        )
        for machine in site.register.machines.values()
        if path in site.answers.fits.positions(machine)
        for series in machine.series
    )
    words = lists.SERIES.told()
    columns = (*words.columns[:3], lists.POSITIONS.told().columns[-1])
    return RowsView(words.title, columns, tuple(rows))


def _count(site: Site, series: Series, path: str) -> str:
    fitted = site.register.fittings.get((series.id, path), ())
    return str(len({one.assembly for one in fitted})) if fitted else lists.none_yet()
