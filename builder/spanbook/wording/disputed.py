"""How far a statement is to be trusted, and by whom it is disputed, inside a sentence."""

from __future__ import annotations

from spanbook.answers.reasons import Reason, Weight
from spanbook.answers.standing import Judgement, Standing
from spanbook.ground.language import gettext as _
from spanbook.wording.grammar import plural
from spanbook.wording.pieces import Pieces, Ref, filled, joined
from spanbook.wording.standings import reason_title, standing_word

MOST_AGAINST = 2  # named of those who saw, or printed, otherwise


def judged_words(judged: Judgement) -> Pieces:
    """The standing of a statement in a word, with those by whom it is disputed."""
    if judged.standing is not Standing.DISPUTED:
        return (standing_word(judged.standing),)
    reasons = [reason for reason in judged.reasons if reason.weight is Weight.AGAINST]
    named = [_who(reason) for reason in reasons[:MOST_AGAINST]]
    more = len(reasons) - len(named)
    others: list[Pieces] = [(plural(more, "{} more", "{} more"),)] if more else []
    return filled(_("disputed by {who}"), who=joined([*named, *others]))


def _who(reason: Reason) -> Pieces:
    """Who speaks against, and what the record that names it remarks."""
    named = Ref(reason_title(reason), reason.by)
    return (named, f" ({reason.note})") if reason.note else (named,)
