"""Where along each series an assembly was fitted, beside what is known of its place and was seen there."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from spanbook.reading.records import Absence, Assembly, Series
from spanbook.site import addresses
from spanbook.site.bars import bars_at
from spanbook.site.charts import Chart, Strip, changes_of, chart, fit_strip, letters
from spanbook.site.common import Site
from spanbook.site.page import Link
from spanbook.site.seen import dots
from spanbook.wording.charts import all_known, assembly_chart, this_assembly


@dataclass(frozen=True, slots=True)
class FittedChart:
    """`key` tells what each letter stands for; no link at the assembly itself."""

    series: Link
    chart: Chart
    key: tuple[tuple[str, str, Link | None], ...]


def charts(site: Site, assembly: Assembly) -> Iterator[FittedChart]:
    assemblies = site.register.assemblies
    for series in series_of(site, assembly):
        found = site.segments(series, assembly.position)
        spans = [f.span for f in site.register.fittings_of(assembly) if f.series is series]
        strips = [
            fit_strip(
                site.scale(series),
                assembly.title if isinstance(assembly, Absence) else this_assembly(),
                spans,
            ),
            Strip(
                all_known(),
                addresses.of_position(assembly.position),
                bars_at(site, series, assembly.position, assembly),
            ),
        ]
        words = assembly_chart(assembly, spans, series)
        key = tuple(
            (letter, assemblies[id_].title, None if id_ == assembly.id else site.record_link(assemblies[id_]))
            for id_, letter in letters(found).items()
        )
        seen = dots(site, series, assembly.position, assembly)
        drawn = chart(site.scale(series), words, strips, changes_of(found), seen)
        yield FittedChart(site.series_link(series), drawn, key)


def series_of(site: Site, assembly: Assembly) -> Iterator[Series]:
    return iter(dict.fromkeys(fitting.series for fitting in site.register.fittings_of(assembly)))
