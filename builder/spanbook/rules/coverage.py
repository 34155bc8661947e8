"""What the spans of a position make of a series: conflicts, holes, and options without a standard."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from spanbook.answers.applicability import Fits, Segment, State, claimed
from spanbook.answers.placed import of_one_mouth
from spanbook.ground.intervals import SpanSet
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.reading.nodes import Step
from spanbook.reading.phrases import all_of
from spanbook.reading.problems import Finding, Place, Rule, Severity
from spanbook.reading.records import Series
from spanbook.register.statements import Fitting
from spanbook.rules.check import FitsCheck


def _assembly(id_: str, span: str) -> str:
    return (
        f"# file: content/assemblies/{id_}.yml\nkind: assembly\nid: {id_}\ntitle: {id_.capitalize()}\n"
        f"position: body/cover\nserials:\n- {{series: xa, {span}, evidence: [{{source: book}}]}}\n"
    )


_LID = _assembly("lid", "first: 1, last: 20")

_HAT = _assembly("hat", "first: 21, last: 99")
_NESTED = (
    "# file: content/positions.yml\nkind: positions\npositions:\n- id: body\n  title: Body\n  positions:\n"
    "  - id: cover\n    title: Cover\n    positions:\n    - {id: valve, title: Valve, within: [hat]}\n"
    "  - {id: drain, title: Drain}\n- id: pump\n  title: Pump\n"
)


def _valve(span: str) -> str:
    return _assembly("ball-valve", span).replace("body/cover", "body/cover/valve")


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

NO_PLACE_FOR_IT = Rule(
    "no-place-for-it",
    Severity.ERROR,
    "What is within an assembly left the works with it, and not on machines that have another.",
    bad=_NESTED + _LID + _HAT + _valve("first: 11, last: 40"),
    good=_NESTED + _LID + _HAT + _valve("first: 21, last: 40"),
)


_TODO = marked(
    "correct one span, or widen it to a pair if nobody knows; where two sources disagree, name each of them "
    "under evidence"
)


@dataclass(frozen=True, slots=True)
class _Place:
    """The factory spans of one position in one series, and the segments they make."""

    series: Series
    position: str
    fittings: tuple[Fitting, ...]
    segments: tuple[Segment, ...]


def _places(fits: Fits) -> Iterator[_Place]:
    """Every place where something left the works."""
    for (series_id, position), fittings in fits.register.fittings.items():
        factory = tuple(f for f in fittings if f.span.fitted == "factory")
        if factory:
            series = fits.register.series[series_id]
            yield _Place(series, position, factory, fits.segments(series, position))


def _conflict(fits: Fits) -> Iterator[Finding]:
    for place in _places(fits):
        for segment in place.segments:
            if segment.state is not State.CONFLICT:
                continue
            sure = [
                fit
                for fit in claimed(segment.fits)
                if any(
                    fit.assembly is not other.assembly and of_one_mouth(fit.fitting, other.fitting)
                    for other in claimed(segment.fits)
                )
            ]
            if not sure:
                continue  # sources that disagree are no error of the records
            show = place.series.stamp.show
            first, last = show(segment.first), segment.last
            numbers = (
                _("{} on").format(first)
                if last is None
                else _("{first} to {last}").format(first=first, last=show(last))
            )
            titles = all_of(dict.fromkeys(fit.assembly.id for fit in sure))
            where = _place_of(fits, sure[-1].fitting)
            read = _("{titles} are both surely on {numbers} at {position}").format(
                titles=titles, numbers=numbers, position=place.position
            )
            yield Finding(
                where,
                read,
                _(_TODO),
            )


def _hole(fits: Fits) -> Iterator[Finding]:
    for place in _places(fits):
        if _may_be_unread(fits, place):
            continue
        found = place.segments
        for before, blank, after in zip(found, found[1:], found[2:], strict=False):
            if blank.state is State.BLANK and before.fits and after.fits:
                next_fit = after.fits[0]
                show = place.series.stamp.show
                read = _("nothing is recorded for {first} to {last}, between {before} and {after}").format(
                    first=show(blank.first),
                    last=show(blank.last or blank.first),
                    before=before.fits[0].assembly.id,
                    after=next_fit.assembly.id,
                )
                where = _place_of(fits, next_fit.fitting, "first")
                yield Finding(where, read, _("fill the hole if you know, or leave it as an open question"))


def _option(fits: Fits) -> Iterator[Finding]:
    for place in _places(fits):
        if _may_be_unread(fits, place):
            continue
        for fitting in (f for f in place.fittings if f.span.option):
            there = fits.there(place.series, place.position).possibly
            alone = (fits.reach(fitting).possibly & there) - _standard(fits, place)
            if alone:
                first = place.series.stamp.show(alone.first)
                read = _("an option, and no standard assembly is recorded from {}").format(first)
                where = _place_of(fits, fitting)
                yield Finding(
                    where, read, _("record the standard one, or drop option if it was the standard")
                )


def _no_place(fits: Fits) -> Iterator[Finding]:
    for place in _places(fits):
        position = fits.register.positions.get(place.position)
        nowhere = place.series.issued - fits.there(place.series, place.position).possibly
        if not nowhere or position is None or position.housing is None:
            continue
        housing = position.housing.position
        around = fits.register.fittings.get((place.series.id, housing), ())
        for fitting in place.fittings:
            lost = fits.reach(fitting).surely & nowhere
            # Sources that disagree are no error of the records; the one that says so is around it.
            if lost and any(fits.reach(f).possibly & lost and of_one_mouth(f, fitting) for f in around):
                first = place.series.stamp.show(lost.first)
                read = _("{id} from {first}, where what is at {housing} has no place for it").format(
                    id=fitting.assembly.id, first=first, housing=housing
                )
                yield Finding(_place_of(fits, fitting, "first"), read, _(_TODO))


def _may_be_unread(fits: Fits, place: _Place) -> bool:
    """Whether an assembly at the place may be in a file that could not be read."""
    named = (place.series.id, place.position)
    return all(fits.register.unread.may_hold("assembly", word) for word in named)


def _standard(fits: Fits, place: _Place) -> SpanSet:
    """Where a standard assembly is possibly recorded."""
    standards = (f for f in place.fittings if not f.span.option)
    return SpanSet.of(span for f in standards for span in fits.reach(f).possibly)


def _place_of(fits: Fits, fitting: Fitting, *below: Step) -> Place:
    return fitting.assembly.origin.place(*fits.register.said[fitting].path, *below)


CHECKS = (
    FitsCheck(STANDARDS_CONFLICT, _conflict),
    FitsCheck(SPAN_HOLE, _hole),
    FitsCheck(OPTION_WITHOUT_STANDARD, _option),
    FitsCheck(NO_PLACE_FOR_IT, _no_place),
)
