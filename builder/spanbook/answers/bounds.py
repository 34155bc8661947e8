"""Where the ends of a recorded span lie, what it covers for that, and numbers cut where anything changes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import inf

from spanbook.ground.intervals import Bound, Reach, Span, SpanSet, reach
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


def pieces(issued: SpanSet, reaches: Iterable[Reach]) -> Iterator[Span]:
    """The issued numbers, cut wherever anything begins or ends."""
    if not issued:
        return
    edges = {
        edge
        for r in reaches
        for spans in (r.surely, r.possibly)
        for span in spans
        for edge in (span.first, None if span.last is None else span.last + 1)
        if edge is not None
    }
    firsts = sorted({issued.first, *edges})
    lasts = [*(first - 1 for first in firsts[1:]), None]
    for first, last in zip(firsts, lasts, strict=True):
        inside = SpanSet.run(first, last) & issued
        if inside:
            yield Span(inside.first, inside.last)
