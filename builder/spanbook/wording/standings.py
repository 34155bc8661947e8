"""How far a statement is to be trusted, and why."""

from __future__ import annotations

from spanbook.answers.reasons import Had, HadNumber, Measured, Noted, Reason, SameNumbers, Weight
from spanbook.answers.standing import Standing
from spanbook.reading.records import Teardown
from spanbook.wording.pieces import Pieces, Ref
from spanbook.wording.records import at_words, record_title, seen_title

STANDINGS = {
    Standing.UNSUPPORTED: "unsupported",
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
    Weight.EXPLAINED: "explained",
    Weight.SET_ASIDE: "set aside",
}


def reason_words(reason: Reason) -> Pieces:
    """A reason in a line: what it does, who says so, and what was seen: `seen: HK 588, had the strainer`."""
    named = Ref(reason_title(reason), reason.by)
    shown = "" if reason.weight in (Weight.PRINTED, Weight.RECALLED) else shown_words(reason)
    return f"{WEIGHTS[reason.weight]}: ", named, *((f", {shown}",) if shown else ())


def reason_title(reason: Reason) -> str:
    """The source or teardown of a reason, and where in it."""
    title = seen_title(reason.by) if isinstance(reason.by, Teardown) else record_title(reason.by)
    return at_words(title, reason.at)


def shown_words(reason: Reason) -> str:
    """What was seen, or why it does not count; empty where it is only named."""
    match reason.shown:
        case None:
            return ""
        case Noted(note):
            return note
        case Had(assembly, None):
            return f"had the {assembly.title}"
        case Had(assembly, condition):
            return f"had the {assembly.title}, and its condition is {condition}"
        case HadNumber(number, condition):
            return f"read {number} on it; condition {condition}"
        case Measured(size, same):
            measured = f"measured {size.value} {size.unit}"
            return measured if same else f"{measured}, which may be wear"
        case SameNumbers():
            return "is recorded on the same numbers"
