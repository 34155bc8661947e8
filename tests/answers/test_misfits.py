"""Whether what was seen speaks against the picture: counted pattern by pattern, where it does."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import product

import pytest

from spanbook.answers.changepoint import Observation, Rates
from spanbook.answers.changepoint.misfits import Misfit, misfit
from spanbook.answers.changepoint.posteriors import likelihood
from spanbook.answers.changepoint.priors import EvenRun

# The first twenty numbers are together as likely as the next ten.
PRIOR = [EvenRun(1, 20, Fraction(1, 40)), EvenRun(21, 30, Fraction(1, 20))]
RATES = Rates(Fraction(1, 20), Fraction(1, 60), Fraction(1, 300), Fraction(1, 400))


def strangest(seen: Sequence[Observation], of: Rates) -> tuple[Fraction, int]:
    """By the definition: every pattern of changed machines, at every place."""
    found = []
    for at in range(1, 31):
        wrong = sum(one.later != (one.number >= at) for one in seen)
        chance = Fraction(0)
        for pattern in product((False, True), repeat=len(seen)):
            each = Fraction(1)
            for changed, one in zip(pattern, seen, strict=True):
                rate = of.of(one.untouched)[one.number >= at]
                each *= rate if changed else 1 - rate
            chance += each if sum(pattern) >= wrong else 0
        found.append((chance, wrong))
    return max(found)


def turned(seen: Sequence[Observation], of: Rates) -> Fraction:
    """How many times as probable it is the other way round, place by place."""
    both = [
        sum(run.each * likelihood(at, way, of) for run in PRIOR for at in range(run.first, run.last + 1))
        for way in (seen, [Observation(o.number, not o.later, o.untouched) for o in seen])
    ]
    return Fraction(both[1]) / Fraction(both[0])


def look(number: int, later: bool, untouched: bool = False) -> Observation:
    return Observation(number, later, untouched)


@pytest.mark.parametrize(
    "seen",
    [
        [look(3, True), look(8, True, True), look(22, False, True), look(27, False)],
        [look(3, True, True), look(27, False, True)],
        [look(2, True), look(9, False), look(9, True, True), look(28, False, True), look(29, False)],
        [look(12, True, True), look(12, False, True), look(12, True, True), look(12, False, True)],
        [look(4, True, True), look(5, True, True), look(6, False), look(26, False), look(30, True)],
    ],
)
def test_what_is_strange_is_told_with_its_figures(seen: list[Observation]) -> None:
    chance, wrong = strangest(seen, RATES)
    assert chance < Fraction(1, 100)
    told = misfit(PRIOR, seen, RATES)
    assert told
    assert (told.wrong, told.chance) == (wrong, chance)
    times = turned(seen, RATES)
    assert told.reversed == (times if times >= 10 else None)


def test_one_in_a_hundred_is_not_strange_and_ten_times_is_reversed() -> None:
    zero = Fraction(0)
    # The break is at 5 or below, or the rates forbid it: 25 shows the earlier by one in a hundred.
    seen = [look(5, True, True), look(25, False)]
    assert misfit(PRIOR, seen, Rates(zero, Fraction(1, 100), zero, zero)) == Misfit(
        1, None, turned(seen, Rates(zero, Fraction(1, 100), zero, zero))
    )
    # Of the untouched the rates say nothing; of the other 10 to 1.
    half = Fraction(1, 2)
    told = misfit(PRIOR, [look(30, False), look(9, True, True)], Rates(zero, Fraction(1, 11), half, half))
    assert told == Misfit(1, None, Fraction(10))


def test_one_machine_alone_turns_nothing_round() -> None:
    found = misfit(PRIOR, [look(30, False, True)], RATES)
    assert found == Misfit(1, Fraction(1, 400), None)
    assert turned([look(30, False, True)], RATES) > 10


def test_nothing_is_told_where_all_is_as_expected_or_cannot_be() -> None:
    assert misfit(PRIOR, [], RATES) is None
    assert misfit(PRIOR, [look(3, False), look(27, True)], RATES) is None
    assert misfit(PRIOR, [look(3, True), look(27, False)], Rates(*[Fraction(0)] * 4)) is None
