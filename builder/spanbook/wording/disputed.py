"""By whom a statement is disputed, inside a sentence."""

from __future__ import annotations

from spanbook.answers.reasons import Reason, Weight
from spanbook.answers.standing import Judgement, Standing
from spanbook.wording.pieces import Pieces, Ref, joined
from spanbook.wording.standings import reason_title

MOST_AGAINST = 2  # named of those who saw, or printed, otherwise


def against_words(judged: Judgement) -> Pieces:
    """By whom a statement is disputed; nothing where it is not."""
    if judged.standing is not Standing.DISPUTED:
        return ()
    reasons = [reason for reason in judged.reasons if reason.weight is Weight.AGAINST]
    named = [_who(reason) for reason in reasons[:MOST_AGAINST]]
    more = len(reasons) - len(named)
    return " by ", *joined([*named, (f"{more} more",)] if more else named)


def _who(reason: Reason) -> Pieces:
    """Who speaks against, and what the record that names it remarks."""
    named = Ref(reason_title(reason), reason.by)
    return (named, f" ({reason.note})") if reason.note else (named,)
