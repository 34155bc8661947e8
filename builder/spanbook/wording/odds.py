"""On which side of a break a machine was made, in words and a figure."""

from __future__ import annotations

from fractions import Fraction

from spanbook.answers.this_machine import Odds
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.wording.grammar import decimals
from spanbook.wording.pieces import Pieces, Ref, filled

ODDS = marked("The odds")
# After the scale of the guidance note on uncertainty of the IPCC (2010; from memory), for the likelier side.
LIKELY = (
    (Fraction(99, 100), marked("Almost certainly")),
    (Fraction(9, 10), marked("Very likely")),
    (Fraction(2, 3), marked("Likely")),
)
_EVEN = marked("About as likely as not")


def odds_words(odds: Odds) -> Pieces:
    """On which side of a break the machine was made, in words and a figure."""
    earlier, later = (Ref(one.title, one) for one in (odds.at.earlier, odds.at.later))
    share = max(odds.before, 1 - odds.before)
    likely = _(next((words for least, words in LIKELY if share >= least), _EVEN))
    told = (
        _("{likely} ({share}) made before the change from {earlier} to {later}, by all that bears on it")
        if odds.before >= Fraction(1, 2)
        else _("{likely} ({share}) made after the change from {earlier} to {later}, by all that bears on it")
    )
    return filled(told, likely=likely, share=percent(share), earlier=earlier, later=later)


def percent(share: Fraction) -> str:
    """A share of at least one half as a figure, rounded down so that it never says more than is known."""
    if share == 1:
        return _("{} %").format(100)
    if share >= Fraction(999, 1000):
        return _("over 99.9 %")
    tenths = int(share * 1000)
    return _("{} %").format(decimals(f"{tenths / 10:.1f}") if tenths >= 990 else tenths // 10)
