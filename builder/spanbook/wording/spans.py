"""Spans, bounds and choices in the words a page uses."""

from __future__ import annotations

from spanbook.answers.applicability import Segment, State
from spanbook.ground.intervals import Covers
from spanbook.reading.records import End, Fitted, FittedSpan, Series, SeriesSpan

FITTED: dict[Fitted, str] = {
    "factory": "at the works",
    "service": "as a replacement sold later",
    "field": "by conversion in the field",
}
STATES = {
    State.SETTLED: "settled",
    State.CHOICE: "choice",
    State.UNSURE: "unsure",
    State.CONFLICT: "conflict",
    State.BLANK: "blank",
}
STATE_MEANINGS = {
    State.SETTLED: "exactly one, surely",
    State.CHOICE: "one and its options, or options only",
    State.UNSURE: "some only possibly",
    State.CONFLICT: "two that cannot both be: one of the records is wrong",
    State.BLANK: "nobody knows yet",
}
COVERS = {Covers.YES: "surely", Covers.MAYBE: "possibly", Covers.NO: "not"}
CONDITIONS = {
    "untouched": "untouched",
    "likely-original": "likely original",
    "altered": "altered",
    "unknown": "not known",
}
SOURCE_CLASSES = {
    "parts-book": "parts book",
    "service-letter": "service letter",
    "manual": "manual",
    "drawing": "drawing",
    "data-plate": "data plate",
    "advertisement": "advertisement",
    "correspondence": "correspondence",
    "recollection": "recollection",
}


def span_words(span: SeriesSpan, series: Series) -> str:
    """A span as a phrase: `from HK 1 to somewhere between HK 588 and HK 612`."""
    if span.first == span.last == "unknown":
        return f"some of {series.name}, which numbers is not known"
    if isinstance(span.first, int) and span.first == span.last:
        return f"{series.stamp.show(span.first)} only"
    return f"from {end_words(span.first, series)} to {end_words(span.last, series)}"


def end_words(end: End, series: Series) -> str:
    show = series.stamp.show
    if isinstance(end, tuple):
        return f"somewhere between {show(end[0])} and {show(end[1])}"
    if end == "unknown":
        return "a number not known"
    if end == "open":
        return "the end of the series" if series.last is None else f"the end, {show(series.last)}"
    return show(end)


def numbers_words(first: int, last: int | None, series: Series) -> str:
    """A run of numbers: `HK 1 to HK 588`."""
    show = series.stamp.show
    if last is None:
        return f"{show(first)} and up"
    return show(first) if first == last else f"{show(first)} to {show(last)}"


def run_words(series: Series) -> str:
    """How far a series runs."""
    first = series.stamp.show(series.first)
    return f"{first} to {series.stamp.show(series.last)}" if series.last is not None else f"{first} and up"


def fitted_words(span: FittedSpan) -> str:
    words = FITTED[span.fitted]
    return f"{words}, to order" if span.option else words


def segment_words(segment: Segment) -> str:
    """What a segment holds, by name: `Metal-edge strainer or, possibly, Cartridge filter`."""
    if not segment.fits:
        return "nothing known"
    titles: dict[str, str] = {}
    for fit in segment.fits:
        words = fit.assembly.title + (" (to order)" if fit.span.option else "")
        titles.setdefault(words, "possibly " if fit.covers is Covers.MAYBE else "")
    return ", ".join(f"{possibly}{title}" for title, possibly in titles.items())


def listed(words: list[str], joint: str = "and") -> str:
    """A list as a phrase: `a, b and c`."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} {joint} {words[-1]}" if words else ""
