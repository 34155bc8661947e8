"""What is at a position, as pages tell it: a series as a chart, and an assembly with its first sign."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from spanbook.reading.records import Assembly, Series
from spanbook.register.model import Position
from spanbook.register.subjects import Fitting
from spanbook.site.bars import bars_at
from spanbook.site.charts import Chart, Strip, changes_of, chart, letters
from spanbook.site.common import Site, Trust
from spanbook.site.page import Link
from spanbook.site.seen import dots
from spanbook.site.thumbnails import Thumbnail, of_assembly
from spanbook.site.trust import trust
from spanbook.wording.charts import position_chart
from spanbook.wording.places import nothing_recorded
from spanbook.wording.spans import fitted_words, span_words


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


def assembly_row(site: Site, assembly: Assembly, fittings: Iterable[Fitting]) -> AssemblyRow:
    spans = ((f"{span_words(f.span, f.series)}, {fitted_words(f.span)}", trust(site, f)) for f in fittings)
    tell = assembly.tell[0] if assembly.tell else None
    return AssemblyRow(
        of_assembly(site, assembly), site.record_link(assembly), assembly.number, tuple(spans), tell
    )


def series_chart(site: Site, position: Position, series: Series) -> SeriesChart:
    found = site.segments(series, position.path)
    strip = Strip(position.title, None, bars_at(site, series, position.path))
    key = tuple(
        (letter, site.record_link(site.register.assemblies[id_])) for id_, letter in letters(found).items()
    )
    words = position_chart(position.title, series)
    machine = site.record_link(site.machine_of(series))
    seen = dots(site, series, position.path)
    drawn = chart(site.scale(series), words, [strip], changes_of(found), seen)
    return SeriesChart(machine, site.series_link(series), drawn, key, nothing_recorded(found))
