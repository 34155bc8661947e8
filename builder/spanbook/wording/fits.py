"""What a number has at a position, and how sure that is."""

from __future__ import annotations

from spanbook.answers.applicability import Segment, State
from spanbook.ground.intervals import Covers

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


def segment_words(segment: Segment) -> str:
    """What a segment holds, by name: `Metal-edge strainer or, possibly, Cartridge filter`."""
    if not segment.fits:
        return "nothing known"
    titles: dict[str, str] = {}
    for fit in segment.fits:
        words = fit.assembly.title + (" (to order)" if fit.span.option else "")
        titles.setdefault(words, "possibly " if fit.covers is Covers.MAYBE else "")
    return ", ".join(f"{possibly}{title}" for title, possibly in titles.items())
