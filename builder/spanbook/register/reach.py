"""Where the ends of a recorded span lie, and which of the numbers of its series it covers for that."""

from __future__ import annotations

from math import inf

from spanbook.ground.intervals import Bound, Reach, reach
from spanbook.reading.records import Around, End, Series, SeriesSpan


def bounds_of(span: SeriesSpan, series: Series) -> tuple[Bound, Bound]:
    """Where the first and the last number of a span lie, within what the series allows."""
    return _bound(span.first, series), _bound(span.last, series)


def _bound(end: End, series: Series) -> Bound:
    first, last = series.first, inf if series.last is None else series.last
    if end == "open":
        return Bound(last, last)
    ends = series.order.ends(end)
    if ends is None:  # unknown, or no number of the series, which a rule tells
        return Bound(first, last)
    low, high = ends
    if isinstance(end, Around):
        return Bound(min(max(low, first), last), max(min(high, last), first))
    return Bound(low, high)


def reach_of(span: SeriesSpan, series: Series) -> Reach:
    """What a span surely and possibly covers among the numbers that were issued."""
    return reach(*bounds_of(span, series), series.issued)
