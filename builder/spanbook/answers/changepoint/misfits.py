"""Whether what was seen speaks against the picture itself: one break, this way round, changed so often.

Two measures, both told with their figures. How strange: at each place the machines on its wrong side are
counted, and how often as many or more would be there by the rates alone, exactly; the least strange place
decides. How reversed: how many times as probable all that was seen is if the two came the other way round.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from spanbook.answers.changepoint.posteriors import Observation, likelihood, pieces
from spanbook.answers.changepoint.priors import EvenRun
from spanbook.answers.changepoint.rates import Rates

STRANGE = Fraction(1, 100)  # told below
REVERSED = 10  # told from so many times on, where several machines were seen


@dataclass(frozen=True, slots=True)
class Misfit:
    """At the least strange place `wrong` machines are on its wrong side, which the rates give with that
    `chance`; the other way round all is `reversed` times as probable. Each None where it is no matter."""

    wrong: int
    chance: Fraction | None
    reversed: Fraction | None


def misfit(prior: Sequence[EvenRun], seen: Sequence[Observation], rates: Rates) -> Misfit | None:
    """What speaks against the picture; None where nothing does, or where it cannot be at all."""
    straight = _evidence(prior, seen, rates) if seen else None
    if not straight:
        return None
    chance, wrong = max(_strange(piece.first, seen, rates) for piece in pieces(prior, seen))
    turned = _evidence(prior, [replace(one, later=not one.later) for one in seen], rates) / straight
    told = Misfit(
        wrong,
        chance if chance < STRANGE else None,
        turned if turned >= REVERSED and len(seen) > 1 else None,
    )
    return told if told.chance is not None or told.reversed is not None else None


def _evidence(prior: Sequence[EvenRun], seen: Sequence[Observation], rates: Rates) -> Fraction:
    """How probable all that was seen is, wherever the break is."""
    weights = (
        piece.size * piece.each * likelihood(piece.first, seen, rates) for piece in pieces(prior, seen)
    )
    return sum(weights, Fraction(0))


def _strange(at: int, seen: Sequence[Observation], rates: Rates) -> tuple[Fraction, int]:
    """How often the rates put as many machines on the wrong side of a place, or more; and how many are."""
    wrong = sum(one.later != (one.number >= at) for one in seen)
    counts = [Fraction(1)]  # by how many are on the wrong side
    for rate in _changed(at, seen, rates):
        none, more = [*counts, Fraction(0)], [Fraction(0), *counts]
        counts = [(1 - rate) * a + rate * b for a, b in zip(none, more, strict=True)]
    return sum(counts[wrong:], Fraction(0)), wrong


def _changed(at: int, seen: Sequence[Observation], rates: Rates) -> Iterator[Fraction]:
    for one in seen:
        f, r = rates.of(one.untouched)
        yield r if one.number >= at else f
