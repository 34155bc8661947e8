"""How far a statement is to be trusted, and why."""

from __future__ import annotations

from spanbook.answers.reasons import (
    Had,
    HadNumber,
    InPlace,
    Measured,
    Reason,
    SameNumbers,
    Says,
    ShowedSign,
    Weight,
)
from spanbook.answers.standing import Judgement, Standing
from spanbook.ground.language import gettext as _
from spanbook.reading.records import Conversion, Source, Supersession, Teardown
from spanbook.register.statements import Fitting, Limit
from spanbook.wording.grammar import listed
from spanbook.wording.pieces import Pieces, Ref
from spanbook.wording.records import CONDITIONS, act_title, at_words, record_title, seen_title
from spanbook.wording.spans import span_words

STANDINGS = {
    Standing.UNSUPPORTED: "no evidence",
    Standing.RECALLED: "recalled",
    Standing.PRINTED: "printed",
    Standing.SEEN: "seen",
    Standing.CONFIRMED: "confirmed",
    Standing.DISPUTED: "disputed",
}
MEANINGS = {
    Standing.UNSUPPORTED: "nothing is named that says so",
    Standing.RECALLED: "somebody remembers it",
    Standing.PRINTED: "literature says so",
    Standing.SEEN: "seen on machines that nobody had altered",
    Standing.CONFIRMED: "printed, and seen as printed",
    Standing.DISPUTED: "somebody saw, or printed, otherwise",
}
WEIGHTS = {
    Weight.PRINTED: "printed",
    Weight.RECALLED: "recalled",
    Weight.SEEN: "seen",
    Weight.AGAINST: "against",
    Weight.EXPLAINED: "explained by a later change",
    Weight.SET_ASIDE: "not counted",
}


def reason_words(reason: Reason) -> Pieces:
    """A reason in a line: what it does, who says so, what was seen and what the record remarks of it:
    `seen: HK 588, had the strainer: paint unbroken`."""
    named = Ref(reason_title(reason), reason.by)
    shown, note = shown_words(reason), reason.note
    told = (f", {shown}" if shown else "") + (f": {note}" if note else "")
    return f"{WEIGHTS[reason.weight]}: ", named, *((told,) if told else ())


def reason_title(reason: Reason) -> str:
    """The source or teardown of a reason, and where in it; what speaks against from memory is told to."""
    title = seen_title(reason.by) if isinstance(reason.by, Teardown) else record_title(reason.by)
    recalled = isinstance(reason.by, Source) and reason.by.sort == "recollection"
    from_memory = " (from memory)" if recalled and reason.weight is Weight.AGAINST else ""
    return at_words(title, reason.at) + from_memory


def word_of(judged: Judgement) -> str:
    """On whose word a statement stands, and who speaks against it, in sentences."""
    against = [reason_title(reason) for reason in judged.reasons if reason.weight is Weight.AGAINST]
    others = [reason_title(reason) for reason in judged.reasons if reason.weight is not Weight.AGAINST]
    said = f"On the word of {', '.join(others) or 'no evidence named'}."
    return f"{said} Against it: {', '.join(against)}." if against else said


def _claim(claim: Fitting | Limit | Supersession) -> str:
    if isinstance(claim, Supersession):
        return act_title(claim)
    return span_words(claim.span, claim.series)


def shown_words(reason: Reason) -> str:
    """What was seen, or why it does not count; empty where it is only named."""
    match shown := reason.shown:
        case None:
            return ""
        case Had(condition=None):
            return f"had {had_words(shown)}"
        case Had(condition=condition):
            return f"had {had_words(shown)}, and its condition is {condition}"
        case HadNumber(number, condition):
            return f"read {number} on it; condition {condition}"
        case ShowedSign(seen, condition):
            return f"saw {seen}; condition {condition}"
        case InPlace():
            return _in_place(shown)
        case Measured(size, same):
            measured = f"measured {size.value} {size.unit}"
            return measured if same else f"{measured}, which may be wear"
        case SameNumbers():
            return "is recorded on the same numbers"
        case Says(claim):
            return f"which says {_claim(claim)}"


def had_words(shown: Had) -> str:
    """What a machine had, or one of what: `the Metal-edge strainer or the Duplex strainer`."""
    return listed([f"the {assembly.title}" for assembly in shown.any_of], "or")


def _in_place(shown: InPlace) -> str:
    read = f"read {shown.number} in its place"
    match shown.by:
        case Conversion(title=title):
            return f"{read}, which the {title} puts on"
        case "later":
            return f"{read}, which replaced it"
        case "earlier":
            return f"{read}, which it replaced"
        case _:
            return f"{read}; condition {_(CONDITIONS[shown.condition])}" if shown.condition else read
