"""What a posterior tells, against every number by itself; and what a look at a machine is worth."""

from __future__ import annotations

from fractions import Fraction
from math import log2

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.answers.changepoint import Observation, Posterior, Rates, agreed, gain, posterior, report
from spanbook.answers.changepoint.priors import EvenRun
from spanbook.ground.intervals import Run
from tests.support.rows import each_row

# Numbers 1 to 6 and 9 to 14: 7 and 8 were never issued.
PRINTED = agreed(Run(1, 14), (Run(1, 6), Run(9, 14)))
PLACES = [*range(1, 7), *range(9, 15)]
looks = st.lists(st.builds(Observation, st.integers(1, 14), st.booleans(), st.booleans()), max_size=5)
rates = st.builds(Rates, *[st.sampled_from([Fraction(0), Fraction(1, 20), Fraction(1, 5)])] * 4)


def each(found: Posterior) -> dict[int, Fraction]:
    return {n: run.each for run in found.runs for n in range(run.first, run.last + 1)}


def as_runs(numbers: set[int]) -> list[Run]:
    """Numbers as runs; those that touch are one."""
    firsts = sorted(n for n in numbers if n - 1 not in numbers)
    lasts = sorted(n for n in numbers if n + 1 not in numbers)
    return [Run(*ends) for ends in zip(firsts, lasts, strict=True)]


@given(looks, rates)
def test_every_place_has_what_bayes_theorem_gives_it(seen: list[Observation], of: Rates) -> None:
    def weight(at: int) -> Fraction:
        product = Fraction(1)
        for one in seen:
            f, r = of.of(one.untouched)
            later = 1 - r if one.number >= at else f
            product *= later if one.later else 1 - later
        return product

    found, total = posterior(PRINTED.runs, seen, of), sum(map(weight, PLACES))
    assert found.contradiction == (total == 0)
    if total:
        assert each(found) == {at: weight(at) / total for at in PLACES}
        # As few runs as can be.
        for one, other in zip(found.runs, found.runs[1:], strict=False):
            assert one.last + 1 < other.first or one.each != other.each


@st.composite
def posteriors(draw: st.DrawFn) -> Posterior:
    """A few runs with weights, some of nothing, some with a gap between them."""
    runs, first = [], 1
    for size in draw(st.lists(st.integers(1, 4), min_size=1, max_size=5)):
        first += draw(st.integers(0, 2))
        runs.append((first, first + size - 1, draw(st.integers(0, 4))))
        first += size
    total = sum((last - first + 1) * weight for first, last, weight in runs)
    if not total:
        return Posterior((EvenRun(1, 1, Fraction(1)),))
    return Posterior(tuple(EvenRun(first, last, Fraction(weight, total)) for first, last, weight in runs))


shares = st.fractions(Fraction(1, 50), Fraction(1), max_denominator=50)


@given(posteriors(), shares)
def test_a_quantile_is_the_first_number_with_as_much_up_to_it(found: Posterior, share: Fraction) -> None:
    held, up_to, wanted = each(found), Fraction(0), 0
    for number in sorted(held):
        up_to += held[number]
        if up_to >= share:
            wanted = number
            break
    assert found.quantile(share) == wanted
    assert found.interval() == Run(found.quantile(Fraction(1, 20)), found.quantile(Fraction(19, 20)))


@given(posteriors(), shares)
def test_the_densest_numbers_are_taken_with_all_that_are_as_dense(found: Posterior, share: Fraction) -> None:
    held = each(found)
    chosen: set[int] = set()
    for level in sorted({one for one in held.values() if one}, reverse=True):
        chosen |= {number for number, one in held.items() if one == level}
        if sum(held[number] for number in chosen) >= share:
            break
    assert list(found.densest(share)) == as_runs(chosen)
    top = max(held.values())
    assert list(found.modes()) == as_runs({number for number, one in held.items() if one == top})


@given(posteriors(), st.integers(0, 30), st.integers(0, 30))
def test_the_mass_of_a_run_is_that_of_its_numbers(found: Posterior, first: int, last: int) -> None:
    held = each(found)
    assert found.mass(first, last) == sum(held.get(number, 0) for number in range(first, last + 1))


@each_row(
    ("c", "f", "r", "bits"),
    [
        (0.5, 0.0, 0.0, 1.0),  # half to half, and what is seen is so
        (0.25, 0.0, 0.0, 0.25 * log2(4) + 0.75 * log2(4 / 3)),
        (0.0, 0.0, 0.0, 0.0),
        (1.0, 0.1, 0.1, 0.0),
        (0.5, 0.5, 0.5, 0.0),  # as often wrong as right
        (0.5, 0.11, 0.11, 1 + 0.11 * log2(0.11) + 0.89 * log2(0.89)),  # the binary symmetric channel
        (0.5, 0.0, 1.0, 0.0),  # the earlier is seen on all
    ],
)
def test_what_a_look_tells_is_the_information_in_it(c: float, f: float, r: float, bits: float) -> None:
    """Mutual information of a place and what is seen (Shannon 1948, section 12; from memory)."""
    assert gain(c, f, r) == pytest.approx(bits, abs=1e-12)


@given(looks, rates)
def test_the_width_after_a_look_is_that_of_both_outcomes(seen: list[Observation], of: Rates) -> None:
    found = report(PRINTED, seen, of)
    if found.look is None:
        return
    f, r = of.of(untouched=True)
    at = found.look.numbers.first
    below = found.posterior.mass(1, at)
    later = below * (1 - r) + (1 - below) * f
    width = Fraction(0)
    for shows, chance in ((True, later), (False, 1 - later)):
        after = posterior(PRINTED.runs, [*seen, Observation(at, shows, True)], of)
        width += 0 if after.contradiction else chance * after.interval().size
    assert found.look.width_after == pytest.approx(float(width))
