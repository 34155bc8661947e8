"""From the register to the breaks: what is printed of each, and what teardowns say of it."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise
from math import isinf

from spanbook.answers.applicability import Fits
from spanbook.answers.bounds import bounds_of
from spanbook.answers.changepoint import Observation, Rates, Report, report
from spanbook.answers.totals import Total, total
from spanbook.ground.intervals import Bound, Run, SpanSet
from spanbook.reading.records import Assembly, Find, Series, Teardown
from spanbook.register.statements import Fitting


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
    """The place in a series where production changed from one assembly to the next at a position."""

    position: str
    series: Series
    earlier: Assembly
    later: Assembly
    report: Report
    unused: tuple[Unused, ...]


def breaks_at(fits: Fits, position: str, series: Series, rates: Rates) -> tuple[Break, ...]:
    """Every break of a series at a position that printed bounds leave an end to, in rising order."""
    standards = [
        f
        for f in fits.register.fittings.get((series.id, position), ())
        if f.span.fitted == "factory" and not f.span.option
    ]
    ordered = sorted(standards, key=lambda f: [edge.low for edge in bounds_of(f.span, series)])
    found = (
        _break(fits, position, series, (before, after), rates)
        for before, after in pairwise(ordered)
        if before.assembly is not after.assembly
    )
    return tuple(one for one in found if one)


def claimed(earlier: Fitting, later: Fitting, series: Series) -> Run | None:
    """Where the two spans say that the break is: where both allow it, else anywhere between them."""
    end, start = bounds_of(earlier.span, series)[1], bounds_of(later.span, series)[0]
    after = Bound(end.low + 1, end.high + 1)
    low, high = max(after.low, start.low), min(after.high, start.high)
    if low > high:
        low, high = min(after.low, start.low), max(after.high, start.high)
    return None if isinf(high) else Run(int(low), int(high))


def _break(
    fits: Fits, position: str, series: Series, pair: tuple[Fitting, Fitting], rates: Rates
) -> Break | None:
    earlier, later = pair
    claim = claimed(earlier, later, series)
    if claim is None:
        return None
    allowed = series.issued.within(claim)
    if not allowed:
        return None
    told = [
        _observation(fits, series, pair, claim, seen)
        for seen in fits.finds(position)
        if seen[1].assembly in (earlier.assembly.id, later.assembly.id)
    ]
    return Break(
        position,
        series,
        earlier.assembly,
        later.assembly,
        report(claim, allowed, [one for one in told if isinstance(one, Observation)], rates),
        tuple(one for one in told if isinstance(one, Unused)),
    )


def _observation(
    fits: Fits, series: Series, pair: tuple[Fitting, Fitting], claim: Run, seen: tuple[Teardown, Find]
) -> Observation | Unused | None:
    """What a teardown says of a break, or why it does not count; None where it is about other numbers."""
    teardown, find = seen
    possible = fits.possible(teardown)
    if len(possible) != 1 or possible[0].series is not series:
        return None
    (may_be,) = possible
    first, last = bounds_of(pair[0].span, series)[0].low, bounds_of(pair[1].span, series)[1].high
    before = may_be.lowest(0, int(first) - 1)
    after = None if isinf(last) else may_be.lowest(int(last) + 1)
    lowest = may_be.lowest()
    if before is not None or after is not None or lowest is None:
        return None
    if find.condition == "altered":
        return Unused(teardown, NotCounted.ALTERED)
    # Every reading has to lie on the same side of every possible break.
    either = lowest < claim.last and may_be.lowest(claim.first) is not None
    if either and fits.reading(teardown) is None:
        return Unused(teardown, NotCounted.EITHER_SIDE)
    return Observation(lowest, find.assembly == pair[1].assembly.id, find.condition == "untouched")


def all_breaks(fits: Fits, rates: Rates, only: Collection[str] | None = None) -> Iterator[Break]:
    """Every break of every series at every position, or at `only` some, in their order."""
    places = (place for place in fits.register.fittings if only is None or place[1] in only)
    for series_id, position in sorted(places):
        yield from breaks_at(fits, position, fits.register.series[series_id], rates)


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
