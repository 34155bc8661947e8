"""The machines that somebody looked at, as dots over a chart: each where its number stands."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.named import GOOD
from spanbook.reading.records import Assembly, Find, Series
from spanbook.site.charts import Dot, Look
from spanbook.site.common import Site
from spanbook.wording.charts import dot_words


def dots(site: Site, series: Series, position: str, this: Assembly | None = None) -> Iterator[Dot]:
    """What teardowns found in this place, of the machines whose number in the series is read whole.

    With an assembly each dot tells whether it was `this` one.
    """
    fits, scale = site.answers.fits, site.scale(series)
    for teardown, find in fits.finds(series, position):
        reading = fits.reading_at(teardown, position)
        if reading and reading.series is series and reading.issued:
            x = scale.at(reading.number) + (scale.at(reading.number + 1) - scale.at(reading.number)) / 2
            titles = [site.register.assemblies[id_].title for id_ in find.named]
            words = dot_words(reading.shown, titles, find.condition)
            yield Dot(round(x, 2), _look(find, this), find.condition in GOOD, words)


def _look(find: Find, this: Assembly | None) -> Look:
    if this is None or find.named == (this.id,):
        return Look.THIS
    return Look.MAYBE if this.id in find.named else Look.OTHER
