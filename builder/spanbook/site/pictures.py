"""The pictures by which pages are shared: which pages have one, and what stands on it."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.ground.pictures import Plate, Strip, Tone
from spanbook.reading.records import Assembly
from spanbook.site.along.files import PICTURES
from spanbook.site.bars import bars_at
from spanbook.site.charts import Bar, Shape, fit_strip
from spanbook.site.common import Site
from spanbook.site.page import SitePage
from spanbook.site.scale import Scale
from spanbook.site.views.fitted_charts import series_of
from spanbook.wording.charts import runs_on

PARTS = "views/part.html"
_PICTURED = {PARTS, "views/assembly.html", "views/series.html", "views/position.html"}
_TONES = {
    Shape.SURE: Tone.SURE,
    Shape.SURE_NEXT: Tone.NEXT,
    Shape.MAYBE: Tone.MAYBE,
    Shape.CONFLICT: Tone.WRONG,
}


def has_one(page: SitePage) -> bool:
    return page.template in _PICTURED


def address_of(page: SitePage) -> str:
    return f"{PICTURES}{page.address.rstrip('/')}.png"


def plate_of(site: Site, page: SitePage, name: str) -> Plate:
    """What stands on the picture of a page of the site that is called `name`."""
    return Plate(name, page.sort, page.title, page.summary, tuple(_strips(site, page)))


def _strips(site: Site, page: SitePage) -> Iterator[Strip]:
    record = page.record
    if isinstance(record, Assembly) and page.template == "views/assembly.html":
        for series in series_of(site, record):
            spans = [one.span for one in site.register.fittings_of(record) if one.series is series]
            yield _drawn(site.scale(series), fit_strip(site.scale(series), "", spans).bars)
    elif page.template == "views/position.html" and page.position:
        every = [site.segments(series, page.position) for series in site.register.series.values()]
        told = [
            (series, found)
            for series, found in zip(site.register.series.values(), every, strict=True)
            if any(segment.fits for segment in found)
        ]
        # Those first in which most changes: a strip without a change says little.
        for series, _ in sorted(told, key=lambda one: -len(one[1])):
            yield _drawn(site.scale(series), bars_at(site, series, page.position))


def _drawn(scale: Scale, bars: tuple[Bar, ...]) -> Strip:
    show = scale.series.stamp.show
    last = show(scale.last) if scale.series.last is not None else runs_on()
    return Strip(
        show(scale.first),
        last,
        tuple((bar.x, bar.width, _TONES[bar.shape]) for bar in bars if bar.shape in _TONES),
    )
