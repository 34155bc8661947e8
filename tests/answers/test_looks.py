"""Whose machine to look at next, by hand and by the definitions of what a look tells."""

from __future__ import annotations

from fractions import Fraction
from math import log2

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.answers.changepoint import Observation, Rates, agreed, gain, posterior, report
from spanbook.answers.changepoint.looks import next_look
from spanbook.answers.changepoint.priors import EvenRun
from spanbook.ground.intervals import Run

PRINTED = agreed(Run(1, 60), (Run(1, 19), Run(25, 60)))
HALF, ZERO = Fraction(1, 2), Fraction(0)
# The break is not from 6 to 10; of altered machines the rates say nothing, and untouched ones never lie.
APART = [EvenRun(1, 5, Fraction(1, 10)), EvenRun(6, 10, ZERO), EvenRun(11, 15, Fraction(1, 10))]
CLEAR = Rates(HALF, HALF, ZERO, ZERO)


@pytest.mark.parametrize(
    ("c", "f", "r"), [(0.5, 0.1, 0.03), (0.3, 0.01, 0.2), (0.9, 0.25, 0.0), (0.5, 0.0, 0.0), (0.4, 0.5, 0.5)]
)
def test_a_look_tells_the_information_that_it_shares_with_the_break(c: float, f: float, r: float) -> None:
    """Shannon's mutual information of two two-valued things, summed over their four cases (from memory)."""
    cases = {(True, True): c * (1 - r), (True, False): c * r, (False, True): (1 - c) * f}
    cases[False, False] = (1 - c) * (1 - f)
    later = cases[True, True] + cases[False, True]
    told = sum(
        p * log2(p / ((c if below else 1 - c) * (later if shown else 1 - later)))
        for (below, shown), p in cases.items()
        if p
    )
    assert gain(c, f, r) == pytest.approx(told, abs=1e-12)


@pytest.mark.parametrize(
    "seen", [[], [Observation(5, False, True), Observation(40, True, False)], [Observation(30, False, False)]]
)
def test_the_width_thereafter_is_what_is_expected_of_both_outcomes(seen: list[Observation]) -> None:
    rates = Rates(untouched_robbed=Fraction(1, 20))
    look = report(PRINTED, seen, rates).look
    assert look
    number = look.numbers.first
    f, r = rates.of(untouched=True)
    c = posterior(PRINTED.runs, seen, rates).mass(1, number)
    later = c * (1 - r) + (1 - c) * f
    widths = [
        posterior(PRINTED.runs, [*seen, Observation(number, shown, True)], rates).interval().size
        for shown in (True, False)
    ]
    assert look.width_after == pytest.approx(float(later * widths[0] + (1 - later) * widths[1]))


def test_numbers_where_none_can_be_the_break_tell_alike_but_for_one_that_is_settled() -> None:
    for seen, last in (
        ([], 10),
        ([Observation(7, False, False)], 10),
        ([Observation(7, False, False, True)], 6),
    ):
        look = next_look(APART, seen, CLEAR, posterior(APART, seen, CLEAR))
        assert look
        assert (look.numbers, look.bits, look.width_after) == (Run(5, last), 1.0, 5.0)


def test_numbers_that_tell_alike_begin_after_one_that_is_settled() -> None:
    seen = [Observation(5, False, False, True)]
    look = next_look(APART, seen, CLEAR, posterior(APART, seen, CLEAR))
    assert look
    assert look.numbers == Run(6, 10)


def test_where_the_best_was_settled_the_next_best_is_told() -> None:
    seen = [Observation(number, False, False, True) for number in range(5, 11)]
    look = next_look(APART, seen, CLEAR, posterior(APART, seen, CLEAR))
    assert look
    assert look.numbers == Run(4, 4)
    assert look.bits == pytest.approx(gain(0.4, 0, 0))


@pytest.mark.parametrize(
    ("settled", "best"),
    [([1], Run(2, 2)), ([2], Run(3, 3)), ([1, 2, 3, 4], Run(5, 5)), ([1, 2, 3, 4, 5], None)],
)
def test_what_was_settled_is_left_out_wherever_it_stands_in_a_run(
    settled: list[int], best: Run | None
) -> None:
    """At the last number of all there is nothing to tell: the break lies no farther, whatever is seen."""
    five = [EvenRun(1, 5, Fraction(1, 5))]
    seen = [Observation(number, False, False, True) for number in settled]
    look = next_look(five, seen, CLEAR, posterior(five, seen, CLEAR))
    assert (look and look.numbers) == best
    assert not look or (look.bits, look.width_after == 5) == (
        gain(look.numbers.first / 5, 0, 0),
        not look.bits,
    )


def test_where_robbed_machines_are_the_more_frequent_the_best_is_not_in_the_middle() -> None:
    long = [EvenRun(1, 100, Fraction(1, 100))]
    rates = Rates(untouched_converted=Fraction(1, 20), untouched_robbed=Fraction(2, 5))
    look = next_look(long, [], rates, posterior(long, [], rates))
    best = max(range(1, 101), key=lambda n: gain(n / 100, 0.05, 0.4))
    assert best not in (50, 51)
    assert look
    assert look.numbers == Run(best, best)


def test_nothing_is_left_to_look_at_where_the_place_is_all_but_known() -> None:
    seen = [Observation(30, False, True), Observation(31, True, True)]
    assert report(PRINTED, seen, Rates(*[Fraction(1, 10_000)] * 4)).look is None


def test_where_a_look_tells_nothing_it_has_no_bits() -> None:
    look = report(PRINTED, [], Rates(*[HALF] * 4)).look
    assert look
    assert look.bits == pytest.approx(0, abs=1e-12)


@st.composite
def priors(draw: st.DrawFn) -> list[EvenRun]:
    """Runs one after another, some of which the break cannot be in, with numbers skipped between."""
    runs, number = [], 1
    for each in draw(st.lists(st.sampled_from([0, 0, 1, 2, 5]), min_size=1, max_size=5)):
        number += draw(st.integers(0, 2))
        size = draw(st.integers(1, 4))
        runs.append(EvenRun(number, number + size - 1, Fraction(each)))
        number += size
    return runs


LOOKS = st.builds(Observation, st.integers(1, 30), st.booleans(), st.booleans(), st.booleans())
RATES = st.sampled_from(
    [
        CLEAR,
        Rates(),
        Rates(untouched_robbed=Fraction(1, 5)),
        Rates(untouched_converted=Fraction(1, 5)),
        Rates(*[HALF] * 4),
    ]
)


@given(priors(), st.lists(LOOKS, max_size=4), RATES)
def test_the_best_of_all_numbers_is_told_with_those_that_tell_alike(
    prior: list[EvenRun], seen: list[Observation], rates: Rates
) -> None:
    """Every number tried in turn."""
    found = posterior(prior, seen, rates)
    look = next_look(prior, seen, rates, found)
    numbers = [n for run in prior for n in range(run.first, run.last + 1)]
    left = [n for n in numbers if n not in {one.number for one in seen if one.settled}]
    if found.contradiction or found.interval().size == 1 or not left:
        assert look is None
        return
    assert look
    f, r = map(float, rates.of(untouched=True))
    up_to = {n: found.mass(1, n) for n in numbers}
    told = {n: gain(float(up_to[n]), f, r) for n in left}
    first, last = look.numbers.first, look.numbers.last
    assert look.bits == told[first] == pytest.approx(max(told.values()), abs=1e-12)
    alike = [n for n in numbers if up_to[n] == up_to[first]]
    assert {n for n in numbers if first <= n <= last} <= {*alike} & {*left}
    assert last in left
    assert not {n for n in alike if n == next((m for m in numbers if m > last), 0)} & {*left}
    assert first == min(n for n in left if told[n] == told[first])
