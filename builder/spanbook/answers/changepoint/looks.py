"""Whose machine to look at next: where one more look is expected to tell most."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import log2

from spanbook.answers.changepoint.posteriors import Observation, Posterior, posterior
from spanbook.answers.changepoint.priors import EvenRun
from spanbook.answers.changepoint.rates import Rates
from spanbook.ground.intervals import Run


@dataclass(frozen=True, slots=True)
class Look:
    """The numbers whose teardown, untouched, is expected to tell most: bits, and the width thereafter."""

    numbers: Run
    bits: float
    width_after: float


def next_look(
    prior: Sequence[EvenRun], seen: Sequence[Observation], rates: Rates, found: Posterior
) -> Look | None:
    """Where one more look tells most; None where nothing more can be told.

    What it tells depends only on the probability c that the break is at or below the number, and rises to one
    maximum in c: so the best numbers stand around that c. None that was looked at so that it is settled.
    """
    if found.contradiction or found.interval().first == found.interval().last:
        return None
    f, r = rates.of(untouched=True)
    settled = {one.number for one in seen if one.settled}
    pieces = list(_cut(found, settled))
    candidates = _candidates(pieces, settled, Fraction(_top(float(f), float(r))))
    best = max(candidates, key=lambda c: (gain(float(c[1]), float(f), float(r)), -c[0]), default=None)
    if best is None:
        return None
    numbers = _equal_worth(pieces, settled, best)
    outcomes = [
        (posterior(prior, [*seen, Observation(best[0], later, True)], rates), later)
        for later in (True, False)
    ]
    chance_later = float(best[1] * (1 - r) + (1 - best[1]) * f)
    width = sum(
        (chance_later if later else 1 - chance_later) * after.interval().size
        for after, later in outcomes
        if not after.contradiction
    )
    return Look(numbers, gain(float(best[1]), float(f), float(r)), width)


def gain(c: float, f: float, r: float) -> float:
    """Bits that a look is expected to tell, where the break is at or below the number with probability c."""
    later = c * (1 - r) + (1 - c) * f
    return max(0.0, _entropy(later) - c * _entropy(r) - (1 - c) * _entropy(f))


def _entropy(p: float) -> float:
    return -sum(x * log2(x) for x in (p, 1 - p) if x > 0)


def _top(f: float, r: float) -> float:
    """The probability c at which a look tells most: where the gain stops rising, in closed form."""
    told = 1 - r - f
    if not told:
        return 0.5  # it tells nothing anywhere
    later = 1 / (1 + 2 ** ((_entropy(r) - _entropy(f)) / told))
    return (later - f) / told


def _cut(found: Posterior, settled: Collection[int]) -> Iterator[EvenRun]:
    """The runs of a posterior, each settled number in one of its own."""
    for run in found.runs:
        inside = [number for number in sorted(settled) if run.first <= number <= run.last]
        firsts = sorted({run.first, *inside, *(number + 1 for number in inside if number < run.last)})
        for first, after in pairwise([*firsts, run.last + 1]):
            yield EvenRun(first, after - 1, run.each)


def _candidates(
    pieces: Iterable[EvenRun], settled: Collection[int], top: Fraction
) -> Iterator[tuple[int, Fraction]]:
    """Numbers among which the best look is, with the probability up to each: within a run what a look tells
    rises and falls once, so the ends and the two numbers at its top are enough."""
    up_to = Fraction(0)
    for run in pieces:
        at_top = int((top - up_to) / run.each) if run.each else 1
        steps = {1, run.size, *(step for step in (at_top, at_top + 1) if 1 <= step <= run.size)}
        if run.first not in settled:
            yield from ((run.first + step - 1, up_to + step * run.each) for step in sorted(steps))
        up_to += run.size * run.each


def _equal_worth(pieces: Sequence[EvenRun], settled: Collection[int], best: tuple[int, Fraction]) -> Run:
    """The numbers on with the same probability up to them: where none can be the break, all tell alike."""
    first, c = best
    last = first
    up_to = Fraction(0)
    for run in pieces:
        up_to += run.size * run.each
        if run.first > first:
            if up_to != c or run.first in settled:
                break
            last = run.last
        elif run.last >= first and not run.each:
            last = run.last
    return Run(first, last)
