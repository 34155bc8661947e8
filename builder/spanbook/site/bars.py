"""The bars of a place, which several pages show: its own, its series' and its assemblies'."""

from __future__ import annotations

from spanbook.reading.records import Assembly, Series
from spanbook.site.charts import Bar, bars_on_page, segment_bars
from spanbook.site.common import Site


def bars_at(site: Site, series: Series, position: str, this: Assembly | None = None) -> tuple[Bar, ...]:
    """A position over the numbers of a series; on `this` assembly's page none leads there."""
    bars = site.once(_bars, (series, position))
    return bars if this is None else bars_on_page(bars, site.segments(series, position), this)


def _bars(site: Site, place: tuple[Series, str]) -> tuple[Bar, ...]:
    return segment_bars(site.scale(place[0]), site.segments(*place))
