"""Which numbers a disputed span is in doubt on: not the whole of it where what disputes it is about some.

Another assembly that was found on one of its machines puts in doubt the numbers from there to the end that
the other stands at. Claims on one run that differ put in doubt what one surely has and another has not. Two
standards on the same numbers, and what was found elsewhere, are asked about by themselves. A source that says
otherwise puts all of it in doubt.
"""

from __future__ import annotations

from collections.abc import Sequence

from spanbook.answers.applicability import Fits, State
from spanbook.answers.readings import Reading
from spanbook.answers.reasons import Had, Reason, SameNumbers, Says, Weight
from spanbook.answers.standing import Judgement
from spanbook.ground.intervals import Span, SpanSet
from spanbook.reading.records import Teardown
from spanbook.register.statements import Fitting


def in_doubt(fits: Fits, fitting: Fitting, judgement: Judgement) -> SpanSet:
    """The numbers of a disputed span that are in doubt."""
    found = SpanSet()
    for reason in judgement.reasons:
        if reason.weight is Weight.AGAINST:
            found |= _by(fits, fitting, reason)
    return found


def inside(fitting: Fitting, reasons: Sequence[Reason]) -> tuple[Teardown, ...]:
    """The teardowns among the reasons that found another assembly where a span has this one."""
    return tuple(
        reason.by
        for reason in reasons
        if reason.weight is Weight.AGAINST
        and isinstance(reason.by, Teardown)
        and isinstance(reason.shown, Had)
        and reason.shown.assembly is not fitting.assembly
    )


def _by(fits: Fits, fitting: Fitting, reason: Reason) -> SpanSet:
    reach = fits.reach(fitting).possibly
    match reason.by, reason.shown:
        case _, SameNumbers():
            return SpanSet()
        case _, Says():
            return _contested(fits, fitting)
        case Teardown() as teardown, Had() as had if reading := _at(fits, teardown, fitting):
            if fitting.assembly in had.any_of:
                return SpanSet()
            others = (f for one in had.any_of for f in fits.register.fittings_of(one))
            stands = [f for f in others if f.series is fitting.series]
            after = {fits.reach(f).possibly.first > reading.number for f in stands}
            if after == {True}:
                return reach & SpanSet.run(reading.number, None)
            before = {(fits.reach(f).possibly.last or reading.number) < reading.number for f in stands}
            return reach & SpanSet.run(0, reading.number) if before == {True} else reach
        case _:
            return reach


def _at(fits: Fits, teardown: Teardown, fitting: Fitting) -> Reading | None:
    return fits.reading_at(teardown, fitting.assembly.position)


def _contested(fits: Fits, fitting: Fitting) -> SpanSet:
    """The numbers that one claim on a run surely has and another has not; without those that are asked of
    because another standard is on them."""
    reaches = [fits.reach(claim) for claim in fits.claims(fitting)]
    agreed = reaches[0].possibly
    for reach in reaches:
        agreed &= reach.possibly
    asked = (s for s in fits.segments(fitting.series, fitting.assembly.position) if s.state is State.CONFLICT)
    given = SpanSet.of(Span(segment.first, segment.last) for segment in asked)
    return SpanSet.of(span for reach in reaches for span in reach.surely) - agreed - given
