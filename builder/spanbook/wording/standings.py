"""How far a statement is to be trusted, and why."""

from __future__ import annotations

from spanbook.answers.standing import Reason, Standing
from spanbook.reading.records import Teardown
from spanbook.wording.records import at_words, record_title, seen_title

MEANINGS = {
    Standing.UNSUPPORTED: "nothing is named that says so",
    Standing.RECALLED: "somebody remembers it",
    Standing.PRINTED: "literature says so",
    Standing.SEEN: "seen on machines that nobody had altered",
    Standing.CONFIRMED: "printed, and seen as printed",
    Standing.DISPUTED: "somebody saw, or printed, otherwise",
}


def reason_title(reason: Reason) -> str:
    """The source or teardown of a reason, and where in it."""
    title = seen_title(reason.by) if isinstance(reason.by, Teardown) else record_title(reason.by)
    return at_words(title, reason.at)
