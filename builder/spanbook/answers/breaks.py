"""From the register to the breaks: what is printed of each, and what teardowns say of it."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
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
from spanbook.answers.claims import BreakClaim, Claimed, Claims, break_claims, runs_of
from spanbook.answers.named import GOOD
from spanbook.answers.one_of import left_of
from spanbook.answers.totals import Total, total
from spanbook.ground.intervals import Run, Span
from spanbook.reading.records import Assembly, Find, Series, Teardown
from spanbook.register.model import Register
from spanbook.register.worn import MayBe

Place = tuple[Series, str]
# The best first, of those that count.
_CONDITIONS = ("untouched", "likely-original", "unknown")


class NotCounted(StrEnum):
    """Why what was seen on a machine near a break does not count for its place."""

    ALTERED = "altered"
    SAME_MACHINE = "same-machine"  # another look at it, in better condition or earlier, counts
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
    # Between the same two of a place there is seldom another.
    claims: tuple[BreakClaim, ...] = field(hash=False)
    weights: Weights = field(hash=False)
    report: Report = field(hash=False)
    unused: tuple[Unused, ...] = field(hash=False)

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
    ordered = sorted(runs_of(standards, series), key=lambda run: order_of(run, series))
    found = (
        _break(fits, position, series, (before, after), rates, weights)
        for before, after in pairwise(ordered)
        if before[0].assembly is not after[0].assembly
    )
    return tuple(one for one in found if one)


def breaks_of(
    register: Register, at: Callable[[Place], Iterable[Break]]
) -> Callable[[Series | Assembly], Iterator[Break]]:
    """What gives the breaks in a series, or those where an assembly begins or ends, asking `at` no more
    places than can have one."""

    def places(one: Series | Assembly) -> Iterable[Place]:
        if isinstance(one, Series):
            return ((one, position) for position in register.fitted_in.get(one.id, ()))
        series = {fitting.series.id: fitting.series for fitting in register.fittings_of(one)}
        return ((series[id_], one.position) for id_ in sorted(series))

    def found(one: Series | Assembly) -> Iterator[Break]:
        every = (found for place in places(one) for found in at(place))
        return (found for found in every if one in (found.series, found.earlier, found.later))

    return found


def order_of(run: Sequence[Claimed], series: Series) -> tuple[float, float]:
    """Where a run may begin, then where it may end, at the least."""
    ends = [bounds_of(fitting.span, series) for fitting in run]
    return min(first.low for first, _ in ends), min(last.low for _, last in ends)


def _break(
    fits: Fits, position: str, series: Series, pair: tuple[Claims, Claims], rates: Rates, weights: Weights
) -> Break | None:
    earlier, later = (run[0].assembly for run in pair)
    seen = (
        (each, each[1].assembly == later.id)
        for each in _named(fits, series, position)
        if each[1].assembly in (earlier.id, later.id)
    )
    found = weighed(fits, series, pair, seen, rates, weights)
    if found is None:
        return None
    return Break(position, series, earlier, later, found.claims, weights, found.report, found.unused)


_Seen = tuple[Teardown, Find]
_Told = Observation | Unused | None


@dataclass(frozen=True, slots=True)
class Weighed:
    """What is printed of a place of change, what teardowns make of it, and those that do not count."""

    claims: tuple[BreakClaim, ...]
    report: Report
    unused: tuple[Unused, ...]


def weighed(
    fits: Fits,
    series: Series,
    pair: tuple[Sequence[Claimed], Sequence[Claimed]],
    looks: Iterable[tuple[_Seen, bool]],
    rates: Rates,
    weights: Weights,
) -> Weighed | None:
    """Where one thing gave way to the next, by the claims on both and by looks that found either, each with
    whether it found the later. None where the printed bounds leave no end to it."""
    claims = break_claims(fits.register, *pair, series)
    if not claims:
        return None
    each = [Claim(one.run, weights.of(source.sort for source in one.sources)) for one in claims]
    near = _near(pair, series)
    first, last = min(claim.run.first for claim in each), max(claim.run.last for claim in each)
    reach = Run(min(int(near.first) + 1, first), max(last, last if near.last is None else near.last))
    printed = prior(each, reach, series.issued, weights.none_of_them)
    if printed is None:
        return None
    told = [(seen, _observation(fits, series, near, printed.reach, seen, later)) for seen, later in looks]
    counted = list(_one_a_machine(fits, told))
    observed = report(printed, [one for one in counted if isinstance(one, Observation)], rates)
    return Weighed(claims, observed, tuple(one for one in counted if isinstance(one, Unused)))


def _named(fits: Fits, series: Series, position: str) -> Iterator[_Seen]:
    """What teardowns found there; of one of several, the one that it was if the others are not near."""
    for teardown, find in fits.finds(series, position):
        reading = fits.reading_at(teardown, position) if find.one_of else None
        held = left_of(fits, find, reading) if reading else None
        yield teardown, replace(find, assembly=held, one_of=()) if held else find


def _one_a_machine(fits: Fits, told: Sequence[tuple[_Seen, _Told]]) -> Iterator[_Told]:
    """What is told of a break, each machine counted once under whatever number it was seen: as it was in the
    best condition, and of equals as it was first seen."""
    first: dict[object, _Seen] = {}
    for seen, one in told:
        if isinstance(one, Observation):
            machine = _machine(fits, seen)
            first[machine] = min(first.get(machine, seen), seen, key=_best)
    for seen, one in told:
        counted = not isinstance(one, Observation) or first[_machine(fits, seen)] == seen
        yield one if counted else Unused(seen[0], NotCounted.SAME_MACHINE)


def _machine(fits: Fits, seen: _Seen) -> object:
    """What is the same for every look at one machine; a worn number may be another machine each time."""
    teardown, find = seen
    reading = fits.reading_at(teardown, find.position)
    return reading.unit or reading.own if reading else teardown


def _best(seen: _Seen) -> tuple[int, str, str]:
    teardown, find = seen
    return _CONDITIONS.index(find.condition), teardown.date, teardown.id


def _near(pair: tuple[Sequence[Claimed], Sequence[Claimed]], series: Series) -> Span:
    """The numbers that either of the two may have there; machines elsewhere are about others."""
    first = min(bounds_of(fitting.span, series)[0].low for fitting in pair[0])
    last = max(bounds_of(fitting.span, series)[1].high for fitting in pair[1])
    return Span(int(first), None if isinf(last) else int(last))


def _observation(
    fits: Fits, series: Series, near: Span, reach: Run, seen: _Seen, later: bool
) -> Observation | Unused | None:
    """What a teardown says of a break, or why it does not count; None where it is about other numbers."""
    teardown, find = seen
    possible = fits.possible_at((teardown, find.position))
    if {one.series for one in possible} != {series}:
        return None
    before = _lowest(possible, 0, near.first - 1)
    after = None if near.last is None else _lowest(possible, near.last + 1)
    lowest = _lowest(possible)
    if before is not None or after is not None or lowest is None:
        return None
    if find.condition == "altered":
        return Unused(teardown, NotCounted.ALTERED)
    # Every reading has to lie on the same side of every possible break.
    either = lowest < reach.last and _lowest(possible, reach.first) is not None
    read = fits.reading_at(teardown, find.position) is not None
    if either and not read:
        return Unused(teardown, NotCounted.EITHER_SIDE)
    settled = find.condition in GOOD and read
    return Observation(lowest, later, find.condition == "untouched", settled)


def _lowest(possible: Iterable[MayBe], first: int = 0, last: int | None = None) -> int | None:
    """The lowest number from `first` to `last` that a text may be."""
    found = (may_be.lowest(first, last) for may_be in possible)
    return min((number for number in found if number is not None), default=None)


def all_breaks(
    fits: Fits, rates: Rates, only: Collection[str] | None = None, weights: Weights = GUESSED
) -> Iterator[Break]:
    """Every break of every series at every position, or at `only` some, in their order."""
    places = (place for place in fits.register.fittings if only is None or place[1] in only)
    for series_id, position in sorted(places):
        yield from breaks_at(fits, position, fits.register.series[series_id], rates, weights)


def numbers_seen(fits: Fits, series: Series) -> tuple[int, ...]:
    """The distinct numbers of a series that teardowns read beyond doubt; of one machine the highest alone."""
    found: dict[object, int] = {}
    for teardown in fits.register.seen_in.get(series.id, ()):
        reading = fits.reading(teardown)
        if reading and reading.series is series:
            machine = reading.unit or reading.number
            found[machine] = max(found.get(machine, 0), reading.number)
    return tuple(sorted(found.values()))


def total_of(fits: Fits, series: Series) -> Total | None:
    """How far a series ran, from the numbers seen; None when none was. Recorded gaps are taken out."""
    numbers = numbers_seen(fits, series)
    return total(numbers, series.order.as_if_on(None)) if numbers and not series.restarts else None
