"""The series themselves: their runs, their skipped numbers, their years, and how they are stamped."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from spanbook.ground.intervals import Span, SpanSet
from spanbook.ground.language import gettext as _
from spanbook.ground.serials import fold
from spanbook.reading.nodes import Step
from spanbook.reading.problems import Finding, Rule, Severity
from spanbook.reading.records import Machine, Series
from spanbook.register.model import Register
from spanbook.rules.check import Check
from spanbook.rules.spans import shown

_FILE = (
    "# file: content/machines/z-one.yml\nkind: machine\nid: z-one\ntitle: Z\nmaker: Example Works\nseries:\n"
)
_GOOD = _FILE + (
    '- {id: za, stamped: "ZA {number}", plate: machine, first: 10, last: 90, skipped: [[30, 39]], '
    "years: {1931: 10, 1932: 50}, evidence: [{source: book}]}\n"
)

SERIES_REVERSED = Rule(
    "series-reversed",
    Severity.ERROR,
    "A series that ends before it begins has no machines.",
    bad=_GOOD.replace("first: 10, last: 90", "first: 90, last: 10"),
    good=_GOOD,
)
SKIPPED_OUT_OF_SERIES = Rule(
    "skipped-out-of-series",
    Severity.ERROR,
    "A skipped run lies within its series, lower number first; otherwise it takes out nothing or too much.",
    bad=_GOOD.replace("[[30, 39]]", "[[39, 30]]"),
    good=_GOOD,
)
YEARS_OUT_OF_ORDER = Rule(
    "years-out-of-order",
    Severity.ERROR,
    "The first number of a later year is never below that of an earlier one.",
    bad=_GOOD.replace("1932: 50", "1932: 5"),
    good=_GOOD,
)
YEAR_OUT_OF_SERIES = Rule(
    "year-out-of-series",
    Severity.ERROR,
    "A year's first number is a number of the series.",
    bad=_GOOD.replace("1932: 50", "1932: 500"),
    good=_GOOD,
)
YEAR_LAST_AMISS = Rule(
    "year-last-amiss",
    Severity.ERROR,
    "The last number of a year lies in the series, not before that year's first number in the table.",
    bad=_GOOD.replace("1932: 50}", "1932: 50}, years-last: {1932: 40}"),
    good=_GOOD.replace("1932: 50}", "1932: 50}, years-last: {1931: 60}"),
)
STAMP_CLASH = Rule(
    "stamp-clash",
    Severity.WARNING,
    "Two series that are stamped alike and share numbers: whoever reads a plate gets both answers.",
    bad=_GOOD.replace("ZA {number}", "XA {number}"),
    good=_GOOD,
)


def _all_series(register: Register) -> Iterator[tuple[Machine, tuple[Step, ...], Series]]:
    for machine in register.machines.values():
        for i, series in machine.places:
            yield machine, ("series", i), series


def _reversed(register: Register) -> Iterator[Finding]:
    for machine, at, series in _all_series(register):
        if series.last is not None and series.first > series.last:
            first, last = shown(series, series.first), shown(series, series.last)
            read = _("a series from {first} back to {last}").format(first=first, last=last)
            yield Finding(machine.origin.place(*at, "first"), read, _("put the lower number first"))


def _skipped(register: Register) -> Iterator[Finding]:
    for machine, at, series in _all_series(register):
        for i, pair in enumerate(series.skipped_as_typed):
            first, last = map(series.order.place, pair)
            if first is None or last is None:
                continue
            beyond = series.last is not None and last > series.last
            if first > last or first < series.first or beyond:
                place = machine.origin.place(*at, "skipped", i)
                upto = _("unknown") if series.last is None else shown(series, series.last)
                whole = _("{first} to {last}").format(first=shown(series, series.first), last=upto)
                read = _("skipped {first} to {last} in a series of {whole}").format(
                    first=shown(series, first), last=shown(series, last), whole=whole
                )
                yield Finding(place, read, _("correct the run"))


def _years(register: Register) -> Iterator[Finding]:
    for machine, at, series in _all_series(register):
        firsts = series.years.firsts
        for i, year in enumerate(series.years.years):
            if i and firsts[i] < firsts[i - 1]:
                begin, before = (shown(series, first) for first in (firsts[i], firsts[i - 1]))
                read = _("{year} begins at {begin}, and the year before it at {before}").format(
                    year=year, begin=begin, before=before
                )
                yield Finding(
                    machine.origin.place(*at, "years", str(year)), read, _("correct one of the two")
                )


def _year_outside(register: Register) -> Iterator[Finding]:
    for machine, at, series in _all_series(register):
        for year, first in zip(series.years.years, series.years.firsts, strict=True):
            if not _within(series, first):
                place = machine.origin.place(*at, "years", str(year))
                read = _("{year} begins at {first}, outside the series").format(
                    year=year, first=shown(series, first)
                )
                yield Finding(place, read, _("correct the number"))


def _year_last(register: Register) -> Iterator[Finding]:
    for machine, at, series in _all_series(register):
        firsts = dict(zip(series.years.years, series.years.firsts, strict=True))
        for year, last in series.order.year_lasts():
            place = machine.origin.place(*at, "years-last", str(year))
            if year not in firsts:
                yield Finding(
                    place,
                    _("the last number of {}, which years does not have").format(year),
                    _("add its first"),
                )
            elif last < firsts[year]:
                ends, begins = shown(series, last), shown(series, firsts[year])
                read = _("{year} ends at {ends}, and begins at {begins}").format(
                    year=year, ends=ends, begins=begins
                )
                yield Finding(place, read, _("correct one of the two"))
            elif not _within(series, last):
                read = _("{year} ends at {last}, outside the series").format(
                    year=year, last=shown(series, last)
                )
                yield Finding(place, read, _("correct the number"))


def _within(series: Series, place: int) -> bool:
    return series.first <= place and (series.last is None or place <= series.last)


def _clash(register: Register) -> Iterator[Finding]:
    alike: defaultdict[tuple[str, str], dict[Series, SpanSet]] = defaultdict(dict)
    for machine, at, series in _all_series(register):
        told = set()
        for form, numbers in _by_form(series).items():
            told |= {other for other, others in alike[form].items() if numbers & others}
            alike[form][series] = numbers
        for other in sorted(told, key=lambda one: one.id):
            read = _("{series} is stamped like {other} and has numbers in common with it").format(
                series=series.id, other=other.id
            )
            todo = _("check the stamps; if both are right, readers get both answers")
            yield Finding(machine.origin.place(*at, "stamped"), read, todo)


def _by_form(series: Series) -> dict[tuple[str, str], SpanSet]:
    """The numbers that were issued in each form of a series' stamp."""
    found: defaultdict[tuple[str, str], list[Span]] = defaultdict(list)
    for stretch in series.stamp.stretches:
        last = None if stretch.last is None else stretch.at + stretch.last - stretch.first
        back = stretch.first - stretch.at
        for run in SpanSet.run(stretch.at, last) & series.issued:
            numbers = Span(run.first + back, None if run.last is None else run.last + back)
            for form in stretch.forms:
                found[fold(form.prefix), fold(form.suffix)].append(numbers)
    return {form: SpanSet.of(numbers) for form, numbers in found.items()}


CHECKS = (
    Check(SERIES_REVERSED, _reversed),
    Check(SKIPPED_OUT_OF_SERIES, _skipped),
    Check(YEARS_OUT_OF_ORDER, _years),
    Check(YEAR_OUT_OF_SERIES, _year_outside),
    Check(YEAR_LAST_AMISS, _year_last),
    Check(STAMP_CLASH, _clash),
)
