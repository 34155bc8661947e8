"""Whose machine to look at next, by hand and by the definitions of what a look tells."""

from __future__ import annotations

from fractions import Fraction
from math import log2

import pytest

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


def test_where_the_best_was_settled_the_next_best_is_told() -> None:
    seen = [Observation(number, False, False, True) for number in range(5, 11)]
    look = next_look(APART, seen, CLEAR, posterior(APART, seen, CLEAR))
    assert look
    assert look.numbers == Run(4, 4)
    assert look.bits == pytest.approx(gain(0.4, 0, 0))


def test_nothing_is_left_to_look_at_where_the_place_is_all_but_known() -> None:
    seen = [Observation(30, False, True), Observation(31, True, True)]
    assert report(PRINTED, seen, Rates(*[Fraction(1, 10_000)] * 4)).look is None


def test_where_a_look_tells_nothing_it_has_no_bits() -> None:
    look = report(PRINTED, [], Rates(*[HALF] * 4)).look
    assert look
    assert look.bits == pytest.approx(0, abs=1e-12)
