"""From the register to the breaks: what is printed of each, and what teardowns say of it."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise
from math import isinf

from spanbook.answers.applicability import Fits
from spanbook.answers.bounds import bounds_of
from spanbook.answers.changepoint import (
    GUESSED,
    Claim,
    Observation,
    Rates,
    Report,
    Share,
    Weights,
    prior,
    report,
)
from spanbook.answers.claims import BreakClaim, Claims, break_claims, runs_of
from spanbook.answers.named import GOOD
from spanbook.answers.totals import Total, total
from spanbook.ground.intervals import Run, Span, SpanSet
from spanbook.reading.records import Assembly, Find, Series, Teardown


class NotCounted(StrEnum):
    """Why what was seen on a machine near a break does not count for its place."""

    ALTERED = "altered"
    EITHER_SIDE = "either-side"  # the worn number may lie before the break or after it


@dataclass(frozen=True, slots=True)
class Unused:
    """A teardown of a machine near a break that is not among its observations, and why."""

    teardown: Teardown
    why: NotCounted


@dataclass(frozen=True, slots=True)
class Break:
    """The place in a series where production changed from one assembly to the next at a position.

    `claims` are what is printed of it, each with its sources, in the order of the report's shares where they
    disagree; where they agree the report has but one share.
    """

    position: str
    series: Series
    earlier: Assembly
    later: Assembly
    claims: tuple[BreakClaim, ...]
    weights: Weights
    report: Report
    unused: tuple[Unused, ...]

    @property
    def disagreeing(self) -> tuple[tuple[BreakClaim, Share], ...]:
        """The claims that disagree, each with what it weighs; none where they agree."""
        return tuple(zip(self.claims, self.report.shares, strict=True)) if self.report.none else ()


def breaks_at(
    fits: Fits, position: str, series: Series, rates: Rates, weights: Weights = GUESSED
) -> tuple[Break, ...]:
    """Every break of a series at a position that printed bounds leave an end to, in rising order."""
    standards = [
        f
        for f in fits.register.fittings.get((series.id, position), ())
        if f.span.fitted == "factory" and not f.span.option
    ]
    ordered = sorted(runs_of(standards, series), key=lambda run: _order(run, series))
    found = (
        _break(fits, position, series, (before, after), rates, weights)
        for before, after in pairwise(ordered)
        if before[0].assembly is not after[0].assembly
    )
    return tuple(one for one in found if one)


def _order(run: Claims, series: Series) -> tuple[float, float]:
    """Where a run may begin, then where it may end, at the least."""
    ends = [bounds_of(fitting.span, series) for fitting in run]
    return min(first.low for first, _ in ends), min(last.low for _, last in ends)


def _break(
    fits: Fits, position: str, series: Series, pair: tuple[Claims, Claims], rates: Rates, weights: Weights
) -> Break | None:
    claims = break_claims(fits.register, *pair, series)
    if not claims:
        return None
    weighed = [Claim(one.run, weights.of(source.sort for source in one.sources)) for one in claims]
    near = _near(pair, series)
    first, last = min(claim.run.first for claim in weighed), max(claim.run.last for claim in weighed)
    reach = Run(min(int(near.first) + 1, first), max(last, last if near.last is None else near.last))
    printed = prior(weighed, reach, series.issued, weights.none_of_them)
    if printed is None:
        return None
    earlier, later = (run[0].assembly for run in pair)
    told = [
        _observation(fits, series, later, near, printed.reach, seen)
        for seen in fits.finds(position)
        if seen[1].assembly in (earlier.id, later.id)
    ]
    return Break(
        position,
        series,
        earlier,
        later,
        claims,
        weights,
        report(printed, [one for one in told if isinstance(one, Observation)], rates),
        tuple(one for one in told if isinstance(one, Unused)),
    )


def _near(pair: tuple[Claims, Claims], series: Series) -> Span:
    """The numbers that either of the two assemblies may have there; machines elsewhere are about others."""
    first = min(bounds_of(fitting.span, series)[0].low for fitting in pair[0])
    last = max(bounds_of(fitting.span, series)[1].high for fitting in pair[1])
    return Span(int(first), None if isinf(last) else int(last))


def _observation(
    fits: Fits, series: Series, later: Assembly, near: Span, reach: Run, seen: tuple[Teardown, Find]
) -> Observation | Unused | None:
    """What a teardown says of a break, or why it does not count; None where it is about other numbers."""
    teardown, find = seen
    possible = fits.possible(teardown)
    if len(possible) != 1 or possible[0].series is not series:
        return None
    (may_be,) = possible
    before = may_be.lowest(0, near.first - 1)
    after = None if near.last is None else may_be.lowest(near.last + 1)
    lowest = may_be.lowest()
    if before is not None or after is not None or lowest is None:
        return None
    if find.condition == "altered":
        return Unused(teardown, NotCounted.ALTERED)
    # Every reading has to lie on the same side of every possible break.
    either = lowest < reach.last and may_be.lowest(reach.first) is not None
    if either and fits.reading(teardown) is None:
        return Unused(teardown, NotCounted.EITHER_SIDE)
    settled = find.condition in GOOD and fits.reading(teardown) is not None
    return Observation(lowest, find.assembly == later.id, find.condition == "untouched", settled)


def all_breaks(
    fits: Fits, rates: Rates, only: Collection[str] | None = None, weights: Weights = GUESSED
) -> Iterator[Break]:
    """Every break of every series at every position, or at `only` some, in their order."""
    places = (place for place in fits.register.fittings if only is None or place[1] in only)
    for series_id, position in sorted(places):
        yield from breaks_at(fits, position, fits.register.series[series_id], rates, weights)


def numbers_seen(fits: Fits, series: Series) -> tuple[int, ...]:
    """The distinct numbers of a series that teardowns read beyond doubt."""
    found = set()
    for teardown in fits.register.teardowns.values():
        reading = fits.reading(teardown)
        if reading and reading.series is series:
            found.add(reading.number)
    return tuple(sorted(found))


def total_of(fits: Fits, series: Series) -> Total | None:
    """How far a series ran, from the numbers seen; None when none was. Recorded gaps are taken out."""
    numbers = numbers_seen(fits, series)
    return total(numbers, SpanSet.run(series.first, None) - series.skipped) if numbers else None
