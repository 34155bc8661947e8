"""How far a series ran, from the numbers that were seen: the highest issued, never how many were built.

Blocks of numbers that were allotted and not used inflate it, as R. Ruggles and H. Brodie saw (An Empirical
Approach to Economic Intelligence in World War II, JASA 42, 1947, 72-91): where such blocks are recorded
they are taken out before counting and put back into the result.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from fractions import Fraction
from math import comb

from spanbook.ground.intervals import Run, SpanSet

TAIL = Fraction(1, 40)  # 2.5 % at either end


@dataclass(frozen=True, slots=True)
class Total:
    """Numbers of the series throughout. One number gives neither an estimate nor a median.

    `estimate` is m(1 + 1/k) − 1, counted in issued numbers: unbiased and of least variance, and never in a
    block that was not issued. `interval` inverts both exact tails at 95 %; `median` is that of the posterior
    under a flat prior.
    """

    seen: int
    highest: int
    estimate: float | None
    interval: Run
    median: int | None


def total(numbers: Iterable[int], issued: SpanSet) -> Total:
    """From distinct numbers seen in a series; `issued` is the series with its skipped numbers taken out.

    Raises ValueError when nothing was seen or a number was never issued.
    """
    seen = sorted(set(numbers))
    if not seen:
        raise ValueError("no number was seen")
    ranks = [_rank(number, issued) for number in seen]
    k, m = len(ranks), ranks[-1]
    back = _number_of(issued)
    if k == 1:
        return Total(1, seen[-1], None, interval(m, k, back), None)
    return Total(
        seen=k,
        highest=seen[-1],
        estimate=_between(m + Fraction(m, k) - 1, back),
        interval=interval(m, k, back),
        median=back(quantile(m, k, Fraction(1, 2))),
    )


def interval(m: int, k: int, back: Callable[[int], int] = int) -> Run:
    """The lasts that neither tail of the exact distribution of the highest number rules out at 2.5 %."""
    low = m
    while Fraction(comb(m - 1, k), comb(low, k)) >= 1 - TAIL:
        low += 1
    return Run(back(low), back(_largest(lambda n: Fraction(comb(m, k), comb(n, k)) > TAIL, m)))


def quantile(m: int, k: int, share: Fraction) -> int:
    """The smallest last that has at least that much of the flat-prior posterior up to it; for k above 1."""
    over = _largest(lambda n: Fraction(comb(m - 1, k - 1), comb(n, k - 1)) > 1 - share, m - 1)
    return max(m, over + 1)


def _largest(holds: Callable[[int], bool], start: int) -> int:
    """The largest number for which a condition holds that is true at `start`, and false from some on."""
    step = 1
    while holds(start + step):
        step *= 2
    low, high = start, start + step
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if holds(middle) else (low, middle)
    return low


def _between(rank: Fraction, back: Callable[[int], int]) -> float:
    """The number at a rank that may lie between two; where a block was never issued there, the nearer."""
    low = rank.__floor__()
    if back(low + 1) == back(low) + 1:
        return back(low) + float(rank - low)
    return back(round(rank))


def _rank(number: int, issued: SpanSet) -> int:
    """The how-manieth issued number it is, from 1."""
    if number not in issued:
        raise ValueError(f"{number} was never issued")
    return sum(run.size for run in issued.within(Run(issued.first, number)))


def _number_of(issued: SpanSet) -> Callable[[int], int]:
    """From a rank back to the number; beyond the recorded end numbers run on."""

    def number(rank: int) -> int:
        left, end = rank, 0
        for span in issued:
            if span.last is None or left <= span.last - span.first + 1:
                return span.first + left - 1
            left, end = left - (span.last - span.first + 1), span.last
        return end + left

    return number
