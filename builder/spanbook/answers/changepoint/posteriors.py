"""What teardowns make of the prior: Bayes' theorem for one change point, run by run.

A machine before the break shows the later assembly with probability f (it was converted), one after it the
earlier with probability r (it was robbed of it or repaired with an old one). Between two observed numbers
nothing changes, so the posterior is held as runs of equal probability, whatever the length of the range.

The likelihood of two-valued observations is that of Hinkley (Biometrika 57, 1970, 1-17; from memory), with a
prior over the place as in Smith (Biometrika 62, 1975, 407-416; from memory).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from spanbook.answers.changepoint.priors import EvenRun
from spanbook.answers.changepoint.rates import Rates
from spanbook.ground.intervals import Run, joined

LOW, HIGH = Fraction(1, 20), Fraction(19, 20)
SHARE = Fraction(9, 10)


@dataclass(frozen=True, slots=True)
class Observation:
    """A machine that was looked at: its number, which of the two it had, and whether it was untouched.

    `settled` when that very number was looked at in a condition that is known: a second look tells nothing.
    """

    number: int
    later: bool
    untouched: bool
    settled: bool = False


@dataclass(frozen=True, slots=True)
class Posterior:
    """Where the break may be. `runs` are in rising order; skipped numbers are in none of them."""

    runs: tuple[EvenRun, ...]

    @property
    def contradiction(self) -> bool:
        """Under rates of zero the observations cannot all be true: there is no posterior then."""
        return not self.runs

    def mass(self, first: int, last: int) -> Fraction:
        """The probability that the break lies in first..last."""
        meets = ((max(first, run.first), min(last, run.last), run.each) for run in self.runs)
        return sum(((b - a + 1) * each for a, b, each in meets if b >= a), Fraction(0))

    def quantile(self, share: Fraction) -> int:
        """The smallest number with at least that much probability up to it."""
        total = Fraction(0)
        for run in self.runs:
            whole = run.size * run.each
            if total + whole >= share and run.each:
                return run.first + max(0, -(-(share - total) // run.each) - 1)
            total += whole
        return self.runs[-1].last

    def interval(self) -> Run:
        """The 90 % equal-tail interval."""
        return Run(self.quantile(LOW), self.quantile(HIGH))

    def densest(self, share: Fraction = SHARE) -> tuple[Run, ...]:
        """The highest-density set: runs by falling probability until the share is reached, ties all in."""
        levels = sorted({run.each for run in self.runs if run.each}, reverse=True)
        chosen: list[EvenRun] = []
        for level in levels:
            chosen += [run for run in self.runs if run.each == level]
            if sum(run.size * run.each for run in chosen) >= share:
                break
        return joined(chosen)

    def modes(self) -> tuple[Run, ...]:
        """The most probable places."""
        top = max(run.each for run in self.runs)
        return joined(run for run in self.runs if run.each == top)


def posterior(prior: Sequence[EvenRun], observations: Iterable[Observation], rates: Rates) -> Posterior:
    """The posterior over the numbers that the prior holds, as runs in rising order."""
    seen = sorted(observations, key=lambda o: (o.number, o.later, o.untouched))
    weighed = [(piece, piece.each * likelihood(piece.first, seen, rates)) for piece in pieces(prior, seen)]
    total = sum(piece.size * weight for piece, weight in weighed)
    if not total:
        return Posterior(())
    return Posterior(tuple(_joined((p, weight / total) for p, weight in weighed)))


def pieces(prior: Sequence[EvenRun], seen: Iterable[Observation]) -> Iterator[EvenRun]:
    """The runs of the prior, cut after every observed number."""
    numbers = sorted({o.number for o in seen})
    for run in prior:
        ends = [*(n for n in numbers if run.first <= n < run.last), run.last]
        for first, last in zip((run.first, *(end + 1 for end in ends)), ends, strict=False):
            yield EvenRun(first, last, run.each)


def likelihood(at: int, seen: Iterable[Observation], rates: Rates) -> Fraction:
    """How probable what was seen is, if the first number with the later assembly is `at`."""
    changed: dict[tuple[bool, bool], tuple[int, int]] = {}
    for one in seen:
        after = one.number >= at
        wrong = one.later != after
        yes, no = changed.get((one.untouched, after), (0, 0))
        changed[one.untouched, after] = (yes + wrong, no + (not wrong))
    return rates.chance(changed)


def _joined(weighed: Iterable[tuple[Run, Fraction]]) -> Iterator[EvenRun]:
    held: EvenRun | None = None
    for piece, each in weighed:
        if held and held.each == each and held.last + 1 == piece.first:
            held = replace(held, last=piece.last)
            continue
        if held:
            yield held
        held = EvenRun(piece.first, piece.last, each)
    if held:
        yield held
