"""What is taken of a break before any machine is looked at: what is printed of it, in exact fractions.

Claims that have an issued number in common agree: the break is equally likely anywhere in what they share.
Where they have none it is a mixture: each claim equally likely anywhere in its own run, weighed against the
others, and a small share for none of them over all that is possible.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from spanbook.ground.intervals import Run, SpanSet
from spanbook.ground.memo import kept


@dataclass(frozen=True, slots=True)
class EvenRun(Run):
    """A run of numbers, each of them the break with the same probability."""

    each: Fraction


@dataclass(frozen=True, slots=True)
class Claim:
    """The break lies in a run, somebody says; what that weighs beside other claims is above nothing."""

    run: Run
    weight: Fraction


@dataclass(frozen=True, slots=True)
class Part:
    """A share of the whole, spread evenly over the numbers of a run that were issued, if any was."""

    run: Run
    issued: tuple[Run, ...]
    share: Fraction

    @property
    def each(self) -> Fraction:
        return self.share / sum(run.size for run in self.issued) if self.issued else Fraction(0)


@dataclass(frozen=True)
class Prior:
    """What is printed of a break. `parts` are the claims in their order, or the one that all agree on; `none`
    is what is left for none of them, and is not there where they agree."""

    parts: tuple[Part, ...]
    none: Part | None = None

    @property
    def hull(self) -> Run:
        """From the first to the last number of any claim."""
        return Run(min(part.run.first for part in self.parts), max(part.run.last for part in self.parts))

    @property
    def reach(self) -> Run:
        """From the first to the last number that may be the break."""
        return self.none.run if self.none and self.none.share else self.hull

    @kept
    def runs(self) -> tuple[EvenRun, ...]:
        """The issued numbers of all parts in rising order, with the probability of each."""
        parts = [*self.parts, *([self.none] if self.none else [])]
        covers = [(run, part.each) for part in parts for run in part.issued]
        return tuple(_piled(covers))


def _piled(covers: Sequence[tuple[Run, Fraction]]) -> Iterator[EvenRun]:
    """Runs that overlap, cut where any begins or ends, with the sum over each piece."""
    edges = sorted({edge for run, _ in covers for edge in (run.first, run.last + 1)})
    for first, after in pairwise(edges):
        over = [each for run, each in covers if run.first <= first <= run.last]
        if over:
            yield EvenRun(first, after - 1, sum(over, Fraction(0)))


def agreed(run: Run, issued: Iterable[Run]) -> Prior:
    """Anywhere in a run, of which these numbers were issued."""
    return Prior((Part(run, tuple(issued), Fraction(1)),))


def prior(claims: Sequence[Claim], reach: Run, issued: SpanSet, none: Fraction) -> Prior | None:
    """What claims say together; None where none of them holds a number that was issued.

    `reach` is all that is possible and holds every claim; `none` the share for none of them, below one.
    """
    common = Run(max(claim.run.first for claim in claims), min(claim.run.last for claim in claims))
    if allowed := issued.within(common):
        return agreed(common, allowed)
    held = [issued.within(claim.run) for claim in claims]
    total = sum((claim.weight for claim, runs in zip(claims, held, strict=True) if runs), Fraction(0))
    if not total:
        return None
    shares = (
        (1 - none) * claim.weight / total if runs else Fraction(0)
        for claim, runs in zip(claims, held, strict=True)
    )
    parts = (Part(claim.run, runs, share) for claim, runs, share in zip(claims, held, shares, strict=True))
    return Prior(tuple(parts), Part(reach, issued.within(reach), none))
