"""A position: what may occupy it, series by series; a group: the positions inside it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from spanbook.reading.records import Assembly, Series
from spanbook.register.model import Position
from spanbook.site import addresses
from spanbook.site.arrangements import Drawing, drawings
from spanbook.site.charts import Chart, changes_of, chart, letters, segment_strip
from spanbook.site.common import Linked, Site, Trust, linked
from spanbook.site.page import Link, SitePage
from spanbook.site.seen import dots
from spanbook.site.signs import PaperKey, paper_key
from spanbook.site.thumbnails import Apart, Thumbnail, of_assembly, told_apart
from spanbook.site.trust import trust
from spanbook.site.ways import circuits_at
from spanbook.wording.charts import position_chart
from spanbook.wording.fits import follows_words
from spanbook.wording.holding import HOLDING, WHICH_PART
from spanbook.wording.places import INSIDE, nothing_recorded, within_words
from spanbook.wording.spans import fitted_words, span_words
from spanbook.wording.summaries import position_summary


@dataclass(frozen=True, slots=True)
class AssemblyRow:
    picture: Thumbnail | None
    link: Link
    number: str | None
    spans: tuple[tuple[str, Trust], ...]
    tell: str | None


@dataclass(frozen=True, slots=True)
class SeriesChart:
    machine: Link
    series: Link
    chart: Chart
    key: tuple[tuple[str, Link], ...]
    nothing: str


@dataclass(frozen=True, slots=True)
class PositionView:
    where: str | None
    keys: tuple[Link, ...]
    follows: str | None
    within: Linked
    inside: str
    below: tuple[Link, ...]
    assemblies: tuple[AssemblyRow, ...]
    apart: tuple[Apart, ...]
    charts: tuple[SeriesChart, ...]
    conversions: tuple[Link, ...]
    circuits: tuple[Link, ...]
    drawings: tuple[Drawing, ...]
    paper: PaperKey | None


def pages(site: Site) -> Iterator[SitePage]:
    for position in site.register.positions.values():
        yield _page(site, position)


def _page(site: Site, position: Position) -> SitePage:
    line = site.position_links(position.path)
    assemblies = site.register.at_position.get(position.path, ())
    return SitePage(
        address=addresses.of_position(position),
        title=position.title,
        summary=position_summary(site.register, position),
        sort="Position",
        crumbs=(Link("Positions", "positions/"), *line[:-1]),
        template="views/position.html",
        view=PositionView(
            where=position.where,
            keys=tuple(_keys(site, position)),
            follows=follows_words(position.follows) if position.follows else None,
            within=linked(within_words(site.register, position)),
            inside=INSIDE if position.holds and position.below else "",
            below=tuple(site.position_links(path)[-1] for path in position.below),
            assemblies=tuple(_row(site, assembly) for assembly in assemblies),
            apart=told_apart(site, assemblies),
            charts=tuple(_charts(site, position)) if position.holds else (),
            conversions=tuple(
                site.record_link(c) for c in site.register.conversions_at.get(position.path, ())
            ),
            circuits=tuple(site.record_link(one) for one in circuits_at(site, position.path)),
            drawings=tuple(drawings(site, position.path)),
            paper=paper_key(site, position.path),
        ),
        record=next((r for r in site.register.records if r.kind == "positions"), None),
        position=position.path,
    )


def _keys(site: Site, position: Position) -> Iterator[Link]:
    """Where somebody is helped to find which of them he holds, or which of their parts."""
    for parts, words in ((False, HOLDING), (True, WHICH_PART)):
        if position.path in site.with_keys[parts]:
            yield Link(words.title, addresses.of_key(position.path, parts=parts))


def _row(site: Site, assembly: Assembly) -> AssemblyRow:
    spans = (
        (f"{span_words(f.span, f.series)}, {fitted_words(f.span)}", trust(site, f))
        for f in site.register.fittings_of(assembly)
    )
    tell = assembly.tell[0] if assembly.tell else None
    return AssemblyRow(
        of_assembly(site, assembly), site.record_link(assembly), assembly.number, tuple(spans), tell
    )


def _charts(site: Site, position: Position) -> Iterator[SeriesChart]:
    for machine in site.register.machines.values():
        if position.path in site.answers.fits.positions(machine):
            for series in machine.series:
                yield _chart(site, position, series)


def _chart(site: Site, position: Position, series: Series) -> SeriesChart:
    found = site.segments(series, position.path)
    strip = segment_strip(site.scale(series), position.title, None, found)
    key = tuple(
        (letter, site.record_link(site.register.assemblies[id_])) for id_, letter in letters(found).items()
    )
    words = position_chart(position.title, series)
    machine = site.record_link(site.machine_of(series))
    seen = dots(site, series, position.path)
    drawn = chart(site.scale(series), words, [strip], changes_of(found), seen)
    return SeriesChart(machine, site.series_link(series), drawn, key, nothing_recorded(found))
