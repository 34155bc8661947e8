"""How far a series ran by the numbers that were seen."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.totals import Total
from spanbook.reading.records import Series
from spanbook.wording.grammar import plural


def none_seen_words(series: Series) -> str:
    """That nothing tells how far a series ran."""
    return f"No number of {series.name} was seen: nothing tells how far it ran."


def total_words(found: Total, series: Series) -> Iterator[str]:
    """The highest number issued, never how many were built; a sentence each."""
    show = series.stamp.show
    highest = show(found.highest)
    yield plural(found.seen, "{} number was seen", "{} numbers were seen") + f", the highest {highest}."
    if found.estimate is not None:
        at = show(round(found.estimate))
        yield f"From these alone the highest number issued is estimated at {at}."
    inside = f"{show(found.interval.first)} to {show(found.interval.last)}"
    yield f"Exact 95 % interval: {inside}."
    if found.median is None:
        yield "One number tells how high the series ran at the least, and no more."
    else:
        why = "Two numbers give no mean: as" if found.seen == 2 else "As"
        yield f"{why} likely as not the series ended at {show(found.median)} or before."
    yield "Blocks that were allotted and never used would make this too high."
