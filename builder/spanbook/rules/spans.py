"""Spans that cannot be: reversed, outside their series, or over numbers that were never issued."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.bounds import bounds_of
from spanbook.ground.intervals import possible
from spanbook.ground.language import gettext as _
from spanbook.reading.nodes import Step
from spanbook.reading.problems import Finding, Rule, Severity
from spanbook.reading.records import Record, Series, SeriesSpan
from spanbook.reading.roles import Role
from spanbook.reading.series_typed import numbers_of
from spanbook.reading.walk import Walk
from spanbook.register.model import Register
from spanbook.rules.check import Check

_FILE = "# file: content/assemblies/lid.yml\n"
_HEAD = _FILE + "kind: assembly\nid: lid\ntitle: Lid\nposition: body/cover\nserials:\n"
_GOOD = _HEAD + "- {series: xa, first: 1, last: 20, evidence: [{source: book}]}\n"

SPAN_REVERSED = Rule(
    "span-reversed",
    Severity.ERROR,
    "A span that ends before it begins covers nothing; most are two numbers in the wrong order.",
    bad=_GOOD.replace("first: 1, last: 20", "first: 20, last: [5, 10]"),
    good=_GOOD,
)
SPAN_OUT_OF_SERIES = Rule(
    "span-out-of-series",
    Severity.ERROR,
    "A number beyond the series is on no machine: the span or the series is wrong.",
    bad=_GOOD.replace("last: 20", "last: 2000"),
    good=_GOOD,
)
SPAN_SKIPPED = Rule(
    "span-skipped",
    Severity.ERROR,
    "A span over skipped numbers only was fitted to no machine.",
    bad=_GOOD.replace("first: 1, last: 20", "first: 41, last: 45"),
    good=_GOOD,
)


def spans_of(register: Register) -> Iterator[tuple[Record, tuple[Step, ...], SeriesSpan, Series]]:
    """Every span of every record in a series that exists, with its place in the record."""
    for record, leaf in Walk(Role.SPAN).over(register.records):
        if series := register.series.get(leaf.value.series):
            yield record, leaf.steps, leaf.value, series


def _reversed(register: Register) -> Iterator[Finding]:
    for record, at, span, series in spans_of(register):
        first, last = bounds_of(span, series)
        for steps, low, high in (
            ((*at, "first"), first.low, first.high),
            ((*at, "last"), last.low, last.high),
            (at, first.low, last.high),
        ):
            if low > high:
                read = _("a span that runs from {low} back to {high}").format(
                    low=shown(series, low), high=shown(series, high)
                )
                yield Finding(record.origin.place(*steps), read, _("put the lower number first"))
                break


def _out_of_series(register: Register) -> Iterator[Finding]:
    for record, at, span, series in spans_of(register):
        for end in ("first", "last"):
            value = span.first if end == "first" else span.last
            for typed in numbers_of(value):
                number = series.order.place(typed)
                if number is None:
                    continue
                if number < series.first or (series.last is not None and number > series.last):
                    read = _("{end} {typed}, and the series {id} has {numbers}").format(
                        end=end, typed=typed, id=series.id, numbers=run(series)
                    )
                    todo = _("correct the number, or the series in its machine's record")
                    yield Finding(record.origin.place(*at, end), read, todo)
                elif series.order.restarts and number not in series.issued | series.order.skipped:
                    read = _("{end} {typed}, a number that the series {id} never came to").format(
                        end=end, typed=typed, id=series.id
                    )
                    todo = _("correct it, or the highest number in its machine's record")
                    yield Finding(record.origin.place(*at, end), read, todo)


def _skipped(register: Register) -> Iterator[Finding]:
    for record, at, span, series in spans_of(register):
        first, last = bounds_of(span, series)
        if first.low <= last.high and not possible(first, last, series.issued):
            read = _("a span over numbers of the series {} that were never issued").format(series.id)
            todo = _("correct the numbers, or the skipped numbers in the machine's record")
            yield Finding(record.origin.place(*at), read, todo)


def shown(series: Series, place: float) -> str:
    """A number in a message: the number itself, or as stamped where it has more parts."""
    return f"{place:.0f}" if series.order.plain else series.stamp.show(int(place))


def run(series: Series) -> str:
    """How far a series runs, in a message."""
    first = shown(series, series.first)
    return (
        _("{} and up").format(first)
        if series.last is None
        else _("{first} to {last}").format(first=first, last=shown(series, series.last))
    )


CHECKS = (
    Check(SPAN_REVERSED, _reversed),
    Check(SPAN_OUT_OF_SERIES, _out_of_series),
    Check(SPAN_SKIPPED, _skipped),
)
