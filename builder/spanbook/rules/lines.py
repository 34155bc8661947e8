"""Lines of parts lists that are limited to serial numbers, held against the machines with the assembly."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.applicability import Fits
from spanbook.answers.ever import Ever, union
from spanbook.answers.lines import ListPlace
from spanbook.ground.intervals import SpanSet
from spanbook.ground.language import gettext as _
from spanbook.reading.phrases import all_of
from spanbook.reading.problems import Finding, Rule, Severity
from spanbook.reading.records import Series
from spanbook.rules.check import FitsCheck
from spanbook.rules.shortfalls import told

_LID = (
    "# file: content/assemblies/lid.yml\nkind: assembly\nid: lid\ntitle: Lid\nposition: body/cover\n"
    "serials:\n- {series: xa, first: 1, last: 20, evidence: [{source: book}]}\nparts:\n"
)
_GLASS = (
    "- number: L-%d\n  name: Glass\n  serials:\n"
    "  - {series: xa, first: %d, last: %d, evidence: [{source: book}]}\n"
)

LINE_NEVER_THERE = Rule(
    "line-never-there",
    Severity.WARNING,
    "A line limited to machines that never have the assembly is on none: one of the two spans is wrong.",
    bad=_LID + _GLASS % (1, 30, 40),
    good=_LID + _GLASS % (1, 10, 20),
)
LINE_HOLE = Rule(
    "line-hole",
    Severity.ADVICE,
    "Machines between two lines that follow one another, with neither: a number mistyped, or a third line.",
    bad=_LID + _GLASS % (1, 1, 9) + _GLASS % (2, 12, 20),
    good=_LID + _GLASS % (1, 1, 9) + _GLASS % (2, 10, 20),
)


def _never(fits: Fits) -> Iterator[Finding]:
    ever = Ever(fits)
    for assembly in fits.register.assemblies.values():
        for limit in fits.register.limits_of(assembly):
            there = ever.any_of((limit.series, assembly.position), [assembly.id])
            reach = fits.lists.reach_of(limit).possibly
            if reach and not reach & there:
                where = told(limit.series, reach)
                read = _("{number} only where {id} never is: {where}").format(
                    number=limit.line.number, id=assembly.id, where=where
                )
                place = assembly.origin.place(*fits.register.said[limit].path)
                yield Finding(place, read, _("correct this span, or those of the assembly"))


def _holes(fits: Fits) -> Iterator[Finding]:
    ever = Ever(fits)
    for assembly in fits.register.assemblies.values():
        if not any(line.serials for line in assembly.parts):
            continue
        for place in fits.lists.places(assembly):
            for series in _series_of(place):
                if hole := _hole(fits, place, series) & ever.surely_had(series, assembly):
                    names = all_of(line.part.number for line in place.lines)
                    read = _("neither of {names} on {hole}").format(names=names, hole=told(series, hole))
                    at = assembly.origin.place("parts", assembly.parts.index(place.lines[-1].part), "serials")
                    yield Finding(at, read, _("fill the hole if you know, or leave it as an open question"))


def _series_of(place: ListPlace) -> tuple[Series, ...]:
    """The series in which one line of a place follows another."""
    each = [{limit.series: None for limit in line.limits} for line in place.lines]
    named = [series for found in each for series in found]
    return tuple(dict.fromkeys(series for series in named if named.count(series) > 1))


def _hole(fits: Fits, place: ListPlace, series: Series) -> SpanSet:
    """The numbers between the first line and the last that no line possibly covers."""
    covered = union(fits.lists.reach((line, series)).possibly for line in place.lines)
    return (SpanSet.run(covered.first, covered.last) & series.issued) - covered if covered else covered


CHECKS = (FitsCheck(LINE_NEVER_THERE, _never), FitsCheck(LINE_HOLE, _holes))
