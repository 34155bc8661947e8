"""How far a series ran by the numbers that were seen."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.totals import Total
from spanbook.ground.language import gettext as _
from spanbook.reading.records import Series
from spanbook.wording.grammar import plural, span_of


def none_seen_words(series: Series) -> str:
    """That nothing tells how far a series ran."""
    return _("No number of {} was seen: nothing tells how far it ran.").format(series.name)


def total_words(found: Total, series: Series) -> Iterator[str]:
    """The highest number issued, never how many were built; a sentence each."""
    show = series.stamp.show
    highest = show(found.highest)
    yield plural(
        found.seen,
        "{} number was seen, the highest {highest}.",
        "{} numbers were seen, the highest {highest}.",
        highest=highest,
    )
    if found.estimate is not None:
        at = show(round(found.estimate))
        yield _("From these alone the highest number issued is estimated at {}.").format(at)
    inside = span_of([show(found.interval.first), show(found.interval.last)])
    yield _("Exact 95 % interval: {}.").format(inside)
    if found.median is None:
        yield _("One number tells how high the series ran at the least, and no more.")
    else:
        told = (
            _("Two numbers give no mean: as likely as not the series ended at {} or before.")
            if found.seen == 2
            else _("As likely as not the series ended at {} or before.")
        )
        yield told.format(show(found.median))
    yield _("Blocks that were allotted and never used would make this too high.")
