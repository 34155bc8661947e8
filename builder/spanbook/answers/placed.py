"""What is claimed at one place: each span of an assembly beside the others that speak of the same machines.

Claims on one run (`claims.runs_of`) may agree, be more or less exact, or contradict one another. Each keeps
its own bounds and evidence, and none is preferred.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from spanbook.answers.bounds import bounds_of, reach_of
from spanbook.answers.claims import Claimed, Claims
from spanbook.ground.intervals import Bound, Covers, Reach
from spanbook.reading.records import Evidence
from spanbook.register.statements import Fitting


class Placed(NamedTuple):
    """A claim with what it covers, and what the other claims on its run cover."""

    fitting: Fitting
    reach: Reach
    others: tuple[Reach, ...] = ()

    def heard(self, number: int) -> Covers:
        """Whether the assembly was on a number, by all that is claimed of the run.

        Surely where a claim says so and none says no; possibly where they contradict one another.
        """
        says = {reach.covers(number) for reach in (self.reach, *self.others)}
        if says == {Covers.NO}:
            return Covers.NO
        return Covers.YES if Covers.YES in says and Covers.NO not in says else Covers.MAYBE


def placed(runs: Iterable[Claims]) -> tuple[Placed, ...]:
    """Claims at one place with what they cover; those on one run in rising order."""
    found: list[Placed] = []
    for run in runs:
        reaches = [reach_of(one.span, one.series) for one in run]
        for i, (fitting, reach) in enumerate(zip(run, reaches, strict=True)):
            found.append(Placed(fitting, reach, (*reaches[:i], *reaches[i + 1 :])))
    return tuple(found)


def contradict(one: Claimed, other: Claimed) -> bool:
    """Whether no run can be as both say: their first numbers, or their last, cannot be the same."""
    ends = zip(bounds_of(one.span, one.series), bounds_of(other.span, other.series), strict=True)
    return any(mine.high < theirs.low or theirs.high < mine.low for mine, theirs in ends)


def supports(one: Claimed, other: Claimed) -> bool:
    """Whether one says what the other says, or says it more exactly: whose word is one is the other's too."""
    mine, theirs = (bounds_of(each.span, each.series) for each in (one, other))
    return all(_inside(inner, outer) for inner, outer in zip(mine, theirs, strict=True))


def _inside(inner: Bound, outer: Bound) -> bool:
    return outer.low <= inner.low and inner.high <= outer.high


def of_one_mouth(one: Fitting, other: Fitting) -> bool:
    """Whether two statements come from one source or teardown, or either names none that says it."""
    mine, theirs = _named(one.span.evidence), _named(other.span.evidence)
    return not mine or not theirs or bool(mine & theirs)


def _named(evidence: Iterable[Evidence]) -> set[tuple[str | None, str | None]]:
    return {(piece.source, piece.teardown) for piece in evidence if not piece.against}
