"""What a community takes for likely before it looks, by its settings; the defaults are our own guess."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from types import MappingProxyType

from spanbook.answers.changepoint import GUESSED, Rates, Weights
from spanbook.answers.standing import Standing

WRONG: Mapping[Standing, Fraction] = MappingProxyType(
    {
        Standing.CONFIRMED: Fraction(1, 200),
        Standing.SEEN: Fraction(1, 100),
        Standing.PRINTED: Fraction(1, 50),
        Standing.RECALLED: Fraction(1, 5),
        Standing.UNSUPPORTED: Fraction(1, 4),
        Standing.DISPUTED: Fraction(1, 4),
    }
)


@dataclass(frozen=True, slots=True)
class StoryOdds:
    """How likely the stories are that rates do not tell. The defaults are our own guess (no source).

    `sold_later` and `unrecorded` are for each machine that was converted: so many got a part sold later, so
    many something that nobody has recorded. `swapped` is the share of machines that bear another's number,
    and `wrong` how often a record is wrong that stands so well.
    """

    sold_later: Fraction = Fraction(1)
    unrecorded: Fraction = Fraction(1, 5)
    swapped: Fraction = Fraction(1, 200)
    wrong: Mapping[Standing, Fraction] = field(default_factory=lambda: WRONG)


@dataclass(frozen=True, slots=True)
class Assumed:
    """How often machines are changed, what printed claims weigh beside one another, and how likely what may
    have happened is."""

    rates: Rates = field(default_factory=Rates)
    weights: Weights = GUESSED
    odds: StoryOdds = field(default_factory=StoryOdds)
