"""What a number has at a position, and how sure that is."""

from __future__ import annotations

from spanbook.answers.applicability import Fit, Segment, State
from spanbook.ground.intervals import Covers
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.punctuation import parted
from spanbook.register.model import Register
from spanbook.wording.records import evidence_words
from spanbook.wording.spans import fitted_words, span_words

STATES = {
    State.SETTLED: marked("settled"),
    State.CHOICE: marked("either"),
    State.UNSURE: marked("not sure"),
    State.CONFLICT: marked("conflict"),
    State.BLANK: marked("not known"),
    State.NO_PLACE: marked("no place"),
    State.OTHER_PLATE: marked("another plate"),
}
STATE_MEANINGS = {
    State.SETTLED: marked("exactly one, surely"),
    State.CHOICE: marked("one and its options, or options only"),
    State.UNSURE: marked("some only possibly"),
    State.CONFLICT: marked("two that cannot both be: the sources disagree"),
    State.BLANK: marked("nobody knows yet"),
    State.NO_PLACE: marked("what is around it has no such place"),
    State.OTHER_PLATE: marked("the number of another plate tells"),
}
COVERS = {Covers.YES: marked("surely"), Covers.MAYBE: marked("possibly"), Covers.NO: marked("not")}

_SAID = {
    Covers.YES: marked("surely {how}; {span}"),
    Covers.MAYBE: marked("possibly {how}; {span}"),
    Covers.NO: marked("not {how}; {span}"),
}
NOTHING = marked("nothing known")
NO_PLACE = marked("not on this machine")
PERHAPS_NO_PLACE = marked("it may have no such place")


def state_word(state: State) -> str:
    """A state in a word."""
    return _(STATES[state])


def state_meaning(state: State) -> str:
    """What that word means."""
    return _(STATE_MEANINGS[state])


def covers_word(covers: Covers) -> str:
    """Whether a span holds a number, in a word."""
    return _(COVERS[covers])


def fit_words(fit: Fit) -> str:
    """How sure an assembly is, how it came there, and its span."""
    how, span = fitted_words(fit.span), span_words(fit.span, fit.fitting.series)
    return _(_SAID[fit.covers]).format(how=how, span=span)


def fit_on_whose_word(register: Register, fit: Fit) -> str:
    """The same, and the evidence that the span names."""
    return parted(fit_words(fit), evidence_words(register, fit.span.evidence))


def ask_by_words(plate: str) -> str:
    """By which other number of the machine to ask."""
    return _("ask by the {plate}'s number").format(plate=plate)


def follows_words(plate: str) -> str:
    """Which plate's number tells what is at a position."""
    return _("What a machine has here goes by the {plate}'s number.").format(plate=plate)


def nothing_words(segment: Segment) -> str:
    """What is said of numbers of which a position has no assembly that is recorded."""
    if segment.ask_by:
        return ask_by_words(segment.ask_by)
    match segment.there:
        case Covers.NO:
            return state_meaning(State.NO_PLACE)
        case Covers.MAYBE:
            return parted(state_meaning(State.BLANK), _(PERHAPS_NO_PLACE))
        case _:
            return state_meaning(State.BLANK)


def segment_words(segment: Segment) -> str:
    """What a segment holds, by name: `Metal-edge strainer, possibly Cartridge filter`."""
    if segment.ask_by:
        return ask_by_words(segment.ask_by)
    if segment.state is State.NO_PLACE:
        return _(NO_PLACE)
    if not segment.fits:
        return _(NOTHING)
    titles: dict[str, str] = {}
    for fit in segment.fits:
        title = fit.assembly.title
        words = _("{} (to order)").format(title) if fit.span.option else title
        titles.setdefault(words, _("possibly {}").format(words) if fit.covers is Covers.MAYBE else words)
    return ", ".join(titles.values())
