"""Where the ends of a recorded span lie, what it covers for that, and numbers cut where anything changes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from spanbook.ground.intervals import Reach, Span, SpanSet
from spanbook.register.reach import bounds_of, reach_of

# What is asked of one span is the register's, which tells by it what a reused number means.
__all__ = ["bounds_of", "pieces", "reach_of"]


def pieces(issued: SpanSet, reaches: Iterable[Reach]) -> Iterator[Span]:
    """The issued numbers, cut wherever anything begins or ends."""
    if not issued:
        return
    edges = {
        edge
        for r in reaches
        for spans in (r.surely, r.possibly)
        for span in spans
        for edge in (span.first, None if span.last is None else span.last + 1)
        if edge is not None
    }
    firsts = sorted({issued.first, *edges})
    lasts = [*(first - 1 for first in firsts[1:]), None]
    for first, last in zip(firsts, lasts, strict=True):
        inside = SpanSet.run(first, last) & issued
        if inside:
            yield Span(inside.first, inside.last)
