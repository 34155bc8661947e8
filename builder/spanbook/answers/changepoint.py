"""Where production changed: a discrete posterior over the first number with the later assembly.

Prior: uniform over the numbers that the printed bounds allow. A machine before the break shows the later
assembly with probability f (it was converted), one after it the earlier with probability r (it was robbed
of it or repaired with an old one). Between two observed numbers nothing changes, so the posterior is held
as runs of equal probability, in exact fractions, whatever the length of the range.

The method is Bayes' theorem for one change point in a sequence of two-valued observations, with the
likelihood of Hinkley (Biometrika 57, 1970, 1-17; from memory) and a uniform prior as in Smith (Biometrika
62, 1975, 407-416; from memory).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import log2

from spanbook.ground.intervals import Run, joined

HALF, LOW, HIGH = Fraction(1, 2), Fraction(1, 20), Fraction(19, 20)
SHARE = Fraction(9, 10)


@dataclass(frozen=True, slots=True)
class Rates:
    """How often a machine shows what it did not leave the works with: settings of the community.

    The defaults are a guess for machines that were worked hard (no source): one in ten converted, three
    in a hundred gone back; one in a hundred either way where nobody seems to have been before.
    """

    converted: Fraction = Fraction(1, 10)
    robbed: Fraction = Fraction(3, 100)
    untouched_converted: Fraction = Fraction(1, 100)
    untouched_robbed: Fraction = Fraction(1, 100)

    def of(self, untouched: bool) -> tuple[Fraction, Fraction]:
        """f and r for a machine in that condition."""
        if untouched:
            return self.untouched_converted, self.untouched_robbed
        return self.converted, self.robbed

    def times(self, factor: Fraction) -> Rates:
        """All four rates multiplied, none above one half, where they would tell nothing."""
        four = (self.converted, self.robbed, self.untouched_converted, self.untouched_robbed)
        return Rates(*(min(HALF, rate * factor) for rate in four))


@dataclass(frozen=True, slots=True)
class Observation:
    """A machine that was looked at: its number, which of the two it had, and whether it was untouched."""

    number: int
    later: bool
    untouched: bool


@dataclass(frozen=True, slots=True)
class EvenRun(Run):
    """A run of numbers, each of them the break with the same probability."""

    each: Fraction


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


@dataclass(frozen=True, slots=True)
class Look:
    """The numbers whose teardown, untouched, is expected to tell most: bits, and the width thereafter."""

    numbers: Run
    bits: float
    width_after: float


@dataclass(frozen=True, slots=True)
class Report:
    """Everything about one break. `claim` is what is printed; without observations it is all there is.

    `halved` and `doubled` are the intervals that half and twice the rates would give.
    """

    claim: Run
    observations: tuple[Observation, ...]
    rates: Rates
    posterior: Posterior
    halved: Run | None
    doubled: Run | None
    look: Look | None

    @property
    def printed_only(self) -> bool:
        return not self.observations


def posterior(allowed: Sequence[Run], observations: Iterable[Observation], rates: Rates) -> Posterior:
    """The posterior over the numbers that are allowed and were issued, as runs in rising order."""
    seen = sorted(observations, key=lambda o: (o.number, o.later, o.untouched))
    weighed = [(piece, _likelihood(piece.first, seen, rates)) for piece in _pieces(allowed, seen)]
    total = sum(piece.size * weight for piece, weight in weighed)
    if not total:
        return Posterior(())
    return Posterior(tuple(_joined((p, weight / total) for p, weight in weighed)))


def _pieces(allowed: Sequence[Run], seen: list[Observation]) -> Iterator[Run]:
    """The allowed numbers, cut after every observed one."""
    numbers = sorted({o.number for o in seen})
    for run in allowed:
        ends = [*(n for n in numbers if run.first <= n < run.last), run.last]
        for first, last in zip((run.first, *(end + 1 for end in ends)), ends, strict=False):
            yield Run(first, last)


def _likelihood(at: int, seen: list[Observation], rates: Rates) -> Fraction:
    """How probable what was seen is, if the first number with the later assembly is `at`."""
    product = Fraction(1)
    for one in seen:
        f, r = rates.of(one.untouched)
        shows_later = 1 - r if one.number >= at else f
        product *= shows_later if one.later else 1 - shows_later
    return product


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


def report(claim: Run, allowed: Sequence[Run], observations: Iterable[Observation], rates: Rates) -> Report:
    """The posterior with everything that is told of it; `claim` is the printed range of the break."""
    seen = tuple(sorted(observations, key=lambda o: (o.number, o.later, o.untouched)))
    found = posterior(allowed, seen, rates)
    others = [posterior(allowed, seen, rates.times(factor)) for factor in (HALF, Fraction(2))]
    halved, doubled = (None if p.contradiction else p.interval() for p in others)
    return Report(claim, seen, rates, found, halved, doubled, _look(allowed, seen, rates, found))


def _look(
    allowed: Sequence[Run], seen: tuple[Observation, ...], rates: Rates, found: Posterior
) -> Look | None:
    """Where one more look tells most. What it tells depends only on the probability c that the break is at
    or below the number, and rises to one maximum in c: so the best numbers stand around that c."""
    if found.contradiction or found.interval().first == found.interval().last:
        return None
    f, r = rates.of(untouched=True)
    candidates = _candidates(found, Fraction(_top(float(f), float(r))))
    best = max(candidates, key=lambda c: (gain(float(c[1]), float(f), float(r)), -c[0]))
    numbers = _equal_worth(found, best[1])
    outcomes = [
        (posterior(allowed, [*seen, Observation(best[0], later, True)], rates), later)
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


def _candidates(found: Posterior, top: Fraction) -> Iterator[tuple[int, Fraction]]:
    """Numbers among which the best look is, with the probability up to each: within a run what a look tells
    rises and falls once, so the ends and the two numbers at its top are enough."""
    up_to = Fraction(0)
    for run in found.runs:
        at_top = int((top - up_to) / run.each) if run.each else 1
        steps = {1, run.size, *(step for step in (at_top, at_top + 1) if 1 <= step <= run.size)}
        yield from ((run.first + step - 1, up_to + step * run.each) for step in sorted(steps))
        up_to += run.size * run.each


def _equal_worth(found: Posterior, c: Fraction) -> Run:
    """The numbers with the same probability up to them: where none can be the break, all tell alike."""
    up_to = Fraction(0)
    first = last = found.runs[0].first
    for run in found.runs:
        if run.each:
            step = (c - up_to) / run.each
            if 1 <= step <= run.size:
                first = last = run.first + int(step) - 1
        elif up_to == c:
            last = run.last
        up_to += run.size * run.each
    return Run(first, last)
