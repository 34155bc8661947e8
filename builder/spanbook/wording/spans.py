"""Spans, their ends, runs of numbers, and how an assembly came on a machine."""

from __future__ import annotations

from spanbook.ground.intervals import SpanSet
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked, pgettext
from spanbook.reading.records import Around, End, Fitted, FittedSpan, Series, SeriesSpan, Typed
from spanbook.wording.grammar import listed, span_of

FITTED: dict[Fitted, str] = {
    "factory": marked("at the works"),
    "service": marked("as a replacement sold later"),
    "field": marked("by conversion in the field"),
}


def span_words(span: SeriesSpan, series: Series) -> str:
    """A span as a phrase: `from HK 1 to somewhere between HK 588 and HK 612`."""
    if span.first == span.last == "unknown":
        return _("some of {}, which numbers is not known").format(series.name)
    if isinstance(span.first, int | str) and span.first == span.last != "open":
        return _("{} only").format(end_words(span.first, series))
    return _("from {first} to {last}").format(
        first=end_words(span.first, series), last=_last_words(span.last, series)
    )


def _last_words(end: End, series: Series) -> str:
    """The end of a span behind `to`, which some languages say otherwise than behind `from`."""
    return pgettext("behind: to", "a number not known") if end == "unknown" else end_words(end, series)


def end_words(end: End, series: Series) -> str:
    if isinstance(end, tuple):
        first, last = (typed_words(one, series) for one in end)
        return _("somewhere between {first} and {last}").format(first=first, last=last)
    if isinstance(end, Around):
        number = typed_words(end.number, series)
        return _("about {number}, give or take {off}").format(number=number, off=end.off)
    if end == "unknown":
        return _("a number not known")
    if end == "open":
        if series.last is None:
            return _("the end of the series")
        return _("the end, {}").format(series.stamp.show(series.last))
    return typed_words(end, series)


def typed_words(typed: Typed, series: Series) -> str:
    """A number of a series as it is stamped, however it was typed."""
    place = series.order.place(typed)
    return str(typed) if place is None else series.stamp.show(place)


def numbers_words(first: int, last: int | None, series: Series) -> str:
    """A run of numbers: `HK 1 to HK 588`."""
    show = series.stamp.show
    if last is None:
        return _("{} and up").format(show(first))
    return span_of([show(first)] if first == last else [show(first), show(last)])


def runs_words(numbers: SpanSet, series: Series) -> str:
    """Several runs of numbers: `HK 1 to HK 588, HK 612 and HK 701 and up`."""
    return listed([numbers_words(span.first, span.last, series) for span in numbers])


def run_words(series: Series) -> str:
    """How far a series runs."""
    first = series.stamp.show(series.first)
    if series.last is None:
        return _("{} and up").format(first)
    return span_of([first, series.stamp.show(series.last)])


def fitted_words(span: FittedSpan) -> str:
    words = _(FITTED[span.fitted])
    return _("{}, to order").format(words) if span.option else words
