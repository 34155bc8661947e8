"""What a number has at a position, and how sure that is."""

from __future__ import annotations

from spanbook.answers.applicability import Fit, Segment, State
from spanbook.ground.intervals import Covers
from spanbook.register.model import Register
from spanbook.wording.records import evidence_words
from spanbook.wording.spans import fitted_words, span_words

STATES = {
    State.SETTLED: "settled",
    State.CHOICE: "either",
    State.UNSURE: "not sure",
    State.CONFLICT: "conflict",
    State.BLANK: "not known",
    State.NO_PLACE: "no place",
    State.OTHER_PLATE: "another plate",
}
STATE_MEANINGS = {
    State.SETTLED: "exactly one, surely",
    State.CHOICE: "one and its options, or options only",
    State.UNSURE: "some only possibly",
    State.CONFLICT: "two that cannot both be: the sources disagree",
    State.BLANK: "nobody knows yet",
    State.NO_PLACE: "what is around it has no such place",
    State.OTHER_PLATE: "the number of another plate tells",
}
COVERS = {Covers.YES: "surely", Covers.MAYBE: "possibly", Covers.NO: "not"}

NOTHING = "nothing known"
NO_PLACE = "not on this machine"
PERHAPS_NO_PLACE = "it may have no such place"


def fit_words(fit: Fit) -> str:
    """How sure an assembly is, how it came there, and its span."""
    sure = f"{COVERS[fit.covers]} {fitted_words(fit.span)}"
    return f"{sure}; {span_words(fit.span, fit.fitting.series)}"


def fit_on_whose_word(register: Register, fit: Fit) -> str:
    """The same, and the evidence that the span names."""
    return f"{fit_words(fit)}; {evidence_words(register, fit.span.evidence)}"


def ask_by_words(plate: str) -> str:
    """By which other number of the machine to ask."""
    return f"ask by the {plate}'s number"


def follows_words(plate: str) -> str:
    """Which plate's number tells what is at a position."""
    return f"What a machine has here goes by the {plate}'s number."


def nothing_words(segment: Segment) -> str:
    """What is said of numbers of which a position has no assembly that is recorded."""
    if segment.ask_by:
        return ask_by_words(segment.ask_by)
    match segment.there:
        case Covers.NO:
            return STATE_MEANINGS[State.NO_PLACE]
        case Covers.MAYBE:
            return f"{STATE_MEANINGS[State.BLANK]}; {PERHAPS_NO_PLACE}"
        case _:
            return STATE_MEANINGS[State.BLANK]


def segment_words(segment: Segment) -> str:
    """What a segment holds, by name: `Metal-edge strainer, possibly Cartridge filter`."""
    if segment.ask_by:
        return ask_by_words(segment.ask_by)
    if segment.state is State.NO_PLACE:
        return NO_PLACE
    if not segment.fits:
        return NOTHING
    titles: dict[str, str] = {}
    for fit in segment.fits:
        words = fit.assembly.title + (" (to order)" if fit.span.option else "")
        titles.setdefault(words, "possibly " if fit.covers is Covers.MAYBE else "")
    return ", ".join(f"{possibly}{title}" for title, possibly in titles.items())
