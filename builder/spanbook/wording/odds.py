"""On which side of a break a machine was made, in words and a figure."""

from __future__ import annotations

from fractions import Fraction

from spanbook.answers.this_machine import Odds
from spanbook.wording.grammar import capital
from spanbook.wording.pieces import Pieces, Ref

ODDS = "The odds"
# After the scale of the guidance note on uncertainty of the IPCC (2010; from memory), for the likelier side.
LIKELY = (
    (Fraction(99, 100), "almost certainly"),
    (Fraction(9, 10), "very likely"),
    (Fraction(2, 3), "likely"),
)


def odds_words(odds: Odds) -> Pieces:
    """On which side of a break the machine was made, in words and a figure."""
    earlier, later = (Ref(one.title, one) for one in (odds.at.earlier, odds.at.later))
    side = "before" if odds.before >= Fraction(1, 2) else "after"
    share = max(odds.before, 1 - odds.before)
    likely = next((words for least, words in LIKELY if share >= least), "about as likely as not")
    made = f"{capital(likely)} ({percent(share)}) made {side} the change from "
    return made, earlier, " to ", later, ", by all that bears on it"


def percent(share: Fraction) -> str:
    """A share of at least one half as a figure, rounded down so that it never says more than is known."""
    if share == 1:
        return "100 %"
    if share >= Fraction(999, 1000):
        return "over 99.9 %"
    tenths = int(share * 1000)
    return f"{tenths / 10:.1f} %" if tenths >= 990 else f"{tenths // 10} %"
