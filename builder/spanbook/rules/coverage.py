"""What the spans of a position make of a series: conflicts, holes, and options without a standard."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.fits import State, reach_of, segments
from spanbook.problems import Finding, Rule, Severity
from spanbook.reading.records import Series
from spanbook.register import Fitting, Register
from spanbook.rules.check import Check
from spanbook.spans import Covers, SpanSet


def _assembly(id_: str, span: str) -> str:
    return (
        f"# file: content/assemblies/{id_}.yml\nkind: assembly\nid: {id_}\ntitle: {id_.capitalize()}\n"
        f"position: body/cover\nserials:\n- {{series: xa, {span}, evidence: [{{source: book}}]}}\n"
    )


_LID = _assembly("lid", "first: 1, last: 20")

STANDARDS_CONFLICT = Rule(
    "standards-conflict",
    Severity.ERROR,
    "One machine left the works with one standard assembly in a place: two spans cannot both be right.",
    bad=_LID + _assembly("hat", "first: 20, last: 99"),
    good=_LID + _assembly("hat", "first: 21, last: 99"),
)
SPAN_HOLE = Rule(
    "span-hole",
    Severity.ADVICE,
    "Between two known assemblies lie machines of which nothing is said: somebody may know.",
    bad=_LID + _assembly("hat", "first: 31, last: 99"),
    good=_LID + _assembly("hat", "first: 21, last: 99"),
)
OPTION_WITHOUT_STANDARD = Rule(
    "option-without-standard",
    Severity.WARNING,
    "An option stands beside a standard assembly; where none is recorded, either one is missing or it was "
    "the standard itself.",
    bad=_assembly("lid", "first: 1, last: 20, option: true"),
    good=_LID + _assembly("hat", "first: 5, last: 20, option: true"),
)


def _by_place(register: Register) -> Iterator[tuple[Series, str, tuple[Fitting, ...]]]:
    for (series_id, position), fittings in register.fittings.items():
        factory = tuple(f for f in fittings if f.span.fitted == "factory")
        if factory:
            yield register.series[series_id], position, factory


def _conflict(register: Register) -> Iterator[Finding]:
    for series, position, fittings in _by_place(register):
        for segment in segments(register, series, position):
            if segment.state is not State.CONFLICT:
                continue
            sure = [f for f in segment.fits if f.covers is Covers.YES and not f.span.option]
            show = series.stamp.show
            numbers = show(segment.first) + (
                f" to {show(segment.last)}" if segment.last is not None else " on"
            )
            titles = " and ".join(dict.fromkeys(fit.assembly.id for fit in sure))
            last = next(f for f in fittings if f.span is sure[-1].span)
            place = last.assembly.origin.place(*last.statement.steps)
            read = f"{titles} are both surely on {numbers} at {position}"
            yield Finding(place, read, "correct one span, or widen it to a pair if nobody knows")


def _hole(register: Register) -> Iterator[Finding]:
    for series, position, fittings in _by_place(register):
        found = segments(register, series, position)
        for before, blank, after in zip(found, found[1:], found[2:], strict=False):
            if blank.state is State.BLANK:
                next_fit = after.fits[0]
                fitting = next(f for f in fittings if f.span is next_fit.span)
                show = series.stamp.show
                read = (
                    f"nothing is recorded for {show(blank.first)} to {show(blank.last or blank.first)}, "
                    f"between {before.fits[0].assembly.id} and {next_fit.assembly.id}"
                )
                place = fitting.assembly.origin.place(*fitting.statement.steps, "first")
                yield Finding(place, read, "fill the hole if you know, or leave it as an open question")


def _option(register: Register) -> Iterator[Finding]:
    for series, _, fittings in _by_place(register):
        standard = SpanSet()
        for fitting in fittings:
            if not fitting.span.option:
                standard = standard | reach_of(fitting.span, series).possibly
        for fitting in fittings:
            alone = reach_of(fitting.span, series).possibly - standard
            if fitting.span.option and alone:
                first = series.stamp.show(alone.first or series.first)
                read = f"an option, and no standard assembly is recorded from {first}"
                place = fitting.assembly.origin.place(*fitting.statement.steps)
                yield Finding(place, read, "record the standard one, or drop option if it was the standard")


CHECKS = (
    Check(STANDARDS_CONFLICT, _conflict),
    Check(SPAN_HOLE, _hole),
    Check(OPTION_WITHOUT_STANDARD, _option),
)
