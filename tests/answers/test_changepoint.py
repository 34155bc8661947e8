"""Where the break is: properties, and the best next look against trying every number."""

from __future__ import annotations

import itertools
from dataclasses import replace
from fractions import Fraction
from math import prod

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from spanbook.answers import changepoint
from spanbook.answers.changepoint import Observation, Posterior, Rates, agreed, posterior, report
from spanbook.answers.changepoint.posteriors import likelihood
from spanbook.answers.totals import total
from spanbook.ground.intervals import Run, Span, SpanSet

ZERO = Rates(*[Fraction(0)] * 4)
HALF = Rates(*[Fraction(1, 2)] * 4)
ALLOWED = (Run(1, 19), Run(25, 60))
PRINTED = agreed(Run(1, 60), ALLOWED)
looks = st.builds(Observation, st.integers(1, 60), st.booleans(), st.booleans(), st.booleans())
rates = st.builds(Rates, *[st.fractions(Fraction(1, 50), Fraction(3, 10))] * 4)


def whole(found: Posterior) -> Fraction:
    return found.mass(-100, 1000)


@given(st.lists(looks, max_size=6), rates)
def test_it_sums_to_one_and_skipped_numbers_have_nothing(seen: list[Observation], of: Rates) -> None:
    found = posterior(PRINTED.runs, seen, of)
    assert whole(found) == 1
    assert found.mass(20, 24) == 0


@given(
    st.permutations(
        [Observation(5, False, True), Observation(40, True, False), Observation(30, False, False)]
    )
)
def test_the_order_of_records_never_matters(seen: list[Observation]) -> None:
    assert posterior(PRINTED.runs, seen, Rates()) == posterior(PRINTED.runs, sorted(seen, key=repr), Rates())


@given(st.lists(looks, max_size=5))
def test_rates_of_one_half_give_the_prior_back(seen: list[Observation]) -> None:
    found = posterior(PRINTED.runs, seen, HALF)
    assert {run.each for run in found.runs} == {Fraction(1, 55)}


@given(st.integers(2, 59), st.lists(st.integers(1, 60), max_size=6))
def test_agreeing_teardowns_never_widen_under_zero_rates(at: int, numbers: list[int]) -> None:
    allowed = agreed(Run(1, 60), [Run(1, 60)]).runs
    width = 61
    for i in range(len(numbers) + 1):
        seen = [Observation(n, n >= at, True) for n in numbers[:i]]
        found = posterior(allowed, seen, ZERO)
        assert found.interval().size <= width
        width = found.interval().size
        assert found.mass(at, at) > 0


def test_a_contradiction_is_told_and_divides_by_nothing() -> None:
    seen = [Observation(40, False, True), Observation(10, True, True)]
    found = report(PRINTED, seen, ZERO)
    assert found.posterior.contradiction
    assert (found.look, found.lowest, found.highest) == (None, None, None)


def test_without_observations_the_printed_bounds_are_all() -> None:
    found = report(PRINTED, [], Rates())
    assert found.printed_only
    assert found.posterior.interval() == Run(3, 58)
    assert found.look is not None


@example(  # the top lies in a run whose numbers are each less than half a per cent
    [Observation(1, True, True), Observation(18, True, False), Observation(31, False, True)],
    Rates(
        Fraction(4970948693, 34030654180),
        Fraction(1, 50),
        Fraction(89240609, 3094653100),
        Fraction(4103512, 52398300),
    ),
)
@example(  # the last number before those that were never issued is settled, and would be the best
    [
        Observation(4, False, False, False),
        Observation(19, False, False, True),
        Observation(19, True, False, False),
        Observation(19, True, False, False),
    ],
    Rates(
        Fraction(249, 850),
        Fraction(89, 350),
        Fraction(1779065004595695411, 8791492100316928750),
        Fraction(71726, 433050),
    ),
)
@given(st.lists(looks, max_size=4), rates)
def test_the_best_look_is_the_best_of_all(seen: list[Observation], of: Rates) -> None:
    found = posterior(PRINTED.runs, seen, of)
    told = report(PRINTED, seen, of).look
    f, r = (float(rate) for rate in of.of(untouched=True))
    issued = {n for run in ALLOWED for n in range(run.first, run.last + 1)} - {60}
    bits = {n: changepoint.gain(float(found.mass(1, n)), f, r) for n in issued}
    bits = {n: each for n, each in bits.items() if n not in {one.number for one in seen if one.settled}}
    if told is None:
        return
    # None that was looked at so that nothing is left to see, all along the run.
    assert all(n in bits for n in issued if told.numbers.first <= n <= told.numbers.last)
    assert told.bits == pytest.approx(max(bits.values()), abs=1e-9)
    assert bits[told.numbers.first] == pytest.approx(told.bits, abs=1e-9)
    assert bits[min(59, told.numbers.last)] == pytest.approx(told.bits, abs=1e-9)


def test_halved_and_doubled_rates_move_it() -> None:
    seen = [Observation(n, n >= 30, False) for n in (5, 15, 28, 33, 50)] + [Observation(12, True, False)]
    found = report(PRINTED, seen, Rates())
    assert found.lowest is not None
    assert found.highest is not None
    assert found.highest.size >= found.lowest.size


def test_totals_refuse_what_cannot_be() -> None:
    with pytest.raises(ValueError, match="no number"):
        total([], SpanSet.run(1, None))
    with pytest.raises(ValueError, match="never issued"):
        total([22], SpanSet.run(1, 60) - SpanSet.run(20, 24))
    two = total([5, 10], SpanSet.run(1, None))
    assert two.median == 18
    # Of forty numbers the highest is seen with a chance of exactly 1 in 40, which is ruled out.
    one = total([40], SpanSet.run(1, None))
    assert (one.seen, one.interval, one.estimate, one.median) == (1, Run(41, 1599), None, None)


def test_a_total_counts_in_the_numbers_that_were_issued() -> None:
    """4 and 7 are the second and the fifth of 3 to 7, 10 and up. In ranks: 5 + 5/2 - 1 is the estimate, 10.5
    as numbers go; 8 is the median (4/n is one half), and 28 the last n with 10 to n(n-1)/2 above 1 in 40."""
    issued = SpanSet.of([Span(3, 7), Span(10, None)])
    found = total([7, 4], issued)
    assert (found.seen, found.highest, found.estimate) == (2, 7, 10.5)
    assert (found.interval, found.median) == (Run(7, 32), 12)
    closed = total([7, 4], SpanSet.run(3, 7))
    assert (closed.interval, closed.median) == (Run(7, 30), 10)


def test_the_machine_to_look_at_next_is_none_that_was_settled() -> None:
    """Untouched and earlier at 30: from 31 on is left, and the middle of that was looked at already."""
    seen = [Observation(30, False, True)]
    again = report(
        PRINTED, [*seen, *(Observation(n, n >= 45, False, True) for n in (44, 45, 46))], Rates()
    ).look
    assert again is not None
    assert not {44, 45, 46} & set(range(again.numbers.first, again.numbers.last + 1))
    every = [Observation(n, n >= 45, False, True) for n in range(1, 61)]
    assert report(PRINTED, every, Rates()).look is None


def strange(seen: list[Observation], of: Rates) -> Fraction:
    """By the definition: for each place every pattern of changed machines, and the least strange place."""
    most = Fraction(0)
    for at in (*range(1, 20), *range(25, 61)):
        wrong = sum(one.later != (one.number >= at) for one in seen)
        chance = Fraction(0)
        for pattern in itertools.product((False, True), repeat=len(seen)):
            if sum(pattern) >= wrong:
                product = Fraction(1)
                for changed, one in zip(pattern, seen, strict=True):
                    f, r = of.of(one.untouched)
                    rate = r if one.number >= at else f
                    product *= rate if changed else 1 - rate
                chance += product
        most = max(most, chance)
    return most


@given(st.lists(looks, min_size=1, max_size=5), rates)
def test_how_strange_it_is_is_counted_pattern_by_pattern(seen: list[Observation], of: Rates) -> None:
    told = report(PRINTED, seen, of).misfit
    chance = strange(seen, of)
    assert (told.chance if told else None) == (chance if chance < Fraction(1, 100) else None)


def test_a_pattern_the_other_way_round_is_told() -> None:
    """Later below, earlier above: straight at best one place has two of four wrong."""
    seen = [Observation(n, n < 30, False) for n in (5, 15, 40, 50)]
    told = report(PRINTED, seen, Rates()).misfit
    assert told is not None
    assert told.reversed is not None
    straight, turned = (
        sum(likelihood(at, way, Rates()) for at in (*range(1, 20), *range(25, 61)))
        for way in (seen, [Observation(o.number, not o.later, False) for o in seen])
    )
    assert told.reversed == Fraction(turned) / straight
    right = [Observation(n, n >= 30, False) for n in (5, 15, 40, 50)]
    assert report(PRINTED, right, Rates()).misfit is None
    assert report(PRINTED, [], Rates()).misfit is None


# Rates as ranges

RANGES = replace(
    Rates(Fraction(1, 20), Fraction(1, 100), Fraction(0), Fraction(1, 100)),
    upto=Rates(Fraction(3, 10), Fraction(1, 10), Fraction(1, 50), Fraction(1, 100)),
)


def by_quadrature(at: int, seen: list[Observation]) -> float:
    """The likelihood averaged over 40 middles of each of the ranges, one after another."""
    assert RANGES.upto is not None
    product = 1.0
    for untouched in (False, True):
        ends = zip(fields_of(RANGES, untouched), fields_of(RANGES.upto, untouched), strict=True)
        for after, (low, high) in zip((False, True), ends, strict=True):
            these = [o for o in seen if o.untouched == untouched and (o.number >= at) == after]
            total = 0.0
            for i in range(40):
                rate = low + (high - low) * (i + 0.5) / 40
                total += prod(rate if o.later != after else 1 - rate for o in these)
            product *= total / 40
    return product


def fields_of(of: Rates, untouched: bool) -> tuple[float, float]:
    if untouched:
        return float(of.untouched_converted), float(of.untouched_robbed)
    return float(of.converted), float(of.robbed)


@given(st.lists(looks, max_size=6))
def test_rates_as_ranges_are_averaged_exactly(seen: list[Observation]) -> None:
    found = posterior(PRINTED.runs, seen, RANGES)
    places = [*range(1, 20), *range(25, 61)]
    weights = {at: by_quadrature(at, seen) for at in places}
    total = sum(weights.values())
    assert whole(found) == 1
    for at in places:
        assert float(found.mass(at, at)) == pytest.approx(weights[at] / total, abs=1e-3)


def test_how_much_it_depends_on_the_ranges_is_told_by_their_ends() -> None:
    seen = [Observation(n, n >= 30, False) for n in (5, 15, 28, 33, 50)] + [Observation(12, True, False)]
    found = report(PRINTED, seen, RANGES)
    assert RANGES.upto is not None
    low, high = replace(RANGES, upto=None), RANGES.upto
    assert found.lowest == posterior(PRINTED.runs, seen, low).interval()
    assert found.highest == posterior(PRINTED.runs, seen, high).interval()
    assert RANGES.of(untouched=False) == (Fraction(7, 40), Fraction(11, 200))


def test_a_range_has_the_mean_of_its_chances() -> None:
    """Over 0..1/2 the mean of x is 1/4 and that of x(1 - x) 1/6, by hand."""
    zero = [Fraction(0)] * 3
    converted = replace(Rates(Fraction(0), *zero), upto=Rates(Fraction(1, 2), *zero))
    before = (False, False)
    assert converted.chance({before: (1, 0)}) == Fraction(1, 4)
    assert converted.chance({before: (1, 1)}) == Fraction(1, 6)
    assert converted.chance({before: (0, 2), (True, True): (0, 3)}) == Fraction(7, 12)


def test_without_ranges_the_extremes_are_half_and_twice_and_none_above_one_half() -> None:
    of = Rates(Fraction(1, 10), Fraction(3, 10), Fraction(1, 100), Fraction(0))
    assert of.extremes() == (
        Rates(Fraction(1, 20), Fraction(3, 20), Fraction(1, 200), Fraction(0)),
        Rates(Fraction(1, 5), Fraction(1, 2), Fraction(1, 50), Fraction(0)),
    )


@given(st.lists(looks, max_size=5), rates)
def test_a_range_of_one_point_is_the_rate(seen: list[Observation], of: Rates) -> None:
    assert posterior(PRINTED.runs, seen, replace(of, upto=of)) == posterior(PRINTED.runs, seen, of)
