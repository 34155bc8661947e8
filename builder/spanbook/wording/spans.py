"""Spans, their ends, runs of numbers, and how an assembly came on a machine."""

from __future__ import annotations

from spanbook.ground.intervals import SpanSet
from spanbook.reading.records import Around, End, Fitted, FittedSpan, Series, SeriesSpan, Typed
from spanbook.wording.grammar import listed

FITTED: dict[Fitted, str] = {
    "factory": "at the works",
    "service": "as a replacement sold later",
    "field": "by conversion in the field",
}


def span_words(span: SeriesSpan, series: Series) -> str:
    """A span as a phrase: `from HK 1 to somewhere between HK 588 and HK 612`."""
    if span.first == span.last == "unknown":
        return f"some of {series.name}, which numbers is not known"
    if isinstance(span.first, int | str) and span.first == span.last != "open":
        return f"{end_words(span.first, series)} only"
    return f"from {end_words(span.first, series)} to {end_words(span.last, series)}"


def end_words(end: End, series: Series) -> str:
    show = series.stamp.show
    if isinstance(end, tuple):
        return f"somewhere between {typed_words(end[0], series)} and {typed_words(end[1], series)}"
    if isinstance(end, Around):
        return f"about {typed_words(end.number, series)}, give or take {end.off}"
    if end == "unknown":
        return "a number not known"
    if end == "open":
        return "the end of the series" if series.last is None else f"the end, {show(series.last)}"
    return typed_words(end, series)


def typed_words(typed: Typed, series: Series) -> str:
    """A number of a series as it is stamped, however it was typed."""
    place = series.order.place(typed)
    return str(typed) if place is None else series.stamp.show(place)


def numbers_words(first: int, last: int | None, series: Series) -> str:
    """A run of numbers: `HK 1 to HK 588`."""
    show = series.stamp.show
    if last is None:
        return f"{show(first)} and up"
    return show(first) if first == last else f"{show(first)} to {show(last)}"


def runs_words(numbers: SpanSet, series: Series) -> str:
    """Several runs of numbers: `HK 1 to HK 588, HK 612 and HK 701 and up`."""
    return listed([numbers_words(span.first, span.last, series) for span in numbers])


def run_words(series: Series) -> str:
    """How far a series runs."""
    first = series.stamp.show(series.first)
    return f"{first} to {series.stamp.show(series.last)}" if series.last is not None else f"{first} and up"


def fitted_words(span: FittedSpan) -> str:
    words = FITTED[span.fitted]
    return f"{words}, to order" if span.option else words
