"""How likely things are by what was seen, and how much an answer is expected to tell of them.

What a thing weighs is a whole number of thousandths of a natural logarithm, so that weights are added, and
a script in a page that adds the same ones comes to the same.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import exp, log, log2

_UNIT = 1000


def weight(chance: float) -> int:
    """What something weighs that is so likely, above 0."""
    return round(_UNIT * log(chance))


def chance(of: int) -> float:
    """How likely something is that weighs so much."""
    return exp(of / _UNIT)


def shares(weights: Sequence[int]) -> list[float]:
    """How likely each thing is, together 1."""
    most = max(weights)
    each = [chance(one - most) for one in weights]
    total = sum(each)
    return [one / total for one in each]


def gain(held: Sequence[float], answers: Sequence[Sequence[float]]) -> float:
    """How many bits an answer is expected to tell of which thing it is (J. R. Quinlan, Induction of Decision
    Trees, Machine Learning 1, 1986, section 4: the information gained by branching).

    `held` is how likely each thing is, together 1; of each answer, `answers` has how likely each thing gives
    it.
    """
    told = 0.0
    for given in answers:
        both = [one * by for one, by in zip(held, given, strict=True)]
        if total := sum(both):
            told += total * _bits([one / total for one in both])
    return _bits(held) - told


def _bits(held: Sequence[float]) -> float:
    return -sum(one * log2(one) for one in held if one > 0)
