"""Printed claims that disagree, against trying every claim, break and pattern of swapped machines."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import product

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from spanbook.answers.changepoint import (
    Claim,
    Observation,
    Prior,
    Rates,
    Weights,
    agreed,
    posterior,
    prior,
    report,
)
from spanbook.ground.intervals import Run, Span, SpanSet
from tests.support.tries import tries

ISSUED = SpanSet.of([Span(1, 5), Span(8, 12)])  # 6 and 7 never
ALL = Run(1, 12)
NONE = Fraction(1, 20)
NEVER = Rates(*[Fraction(0)] * 4)
runs = st.builds(lambda a, b: Run(min(a, b), max(a, b)), st.integers(1, 12), st.integers(1, 12))
claim_weights = st.integers(1, 6).map(Fraction)
claims = st.lists(st.builds(Claim, runs, claim_weights), min_size=1, max_size=3)


@st.composite
def differing(draw: st.DrawFn) -> list[Claim]:
    """Claims with no issued number in common: two lie apart, or meet where none was issued, or hold none."""
    end = draw(st.integers(1, 11))
    start = draw(st.integers(6 if end == 7 else end + 1, 12))
    low, high = Run(draw(st.integers(1, end)), end), Run(start, draw(st.integers(start, 12)))
    held = draw(st.sampled_from([(low, high), (low, high), (Run(6, 7),)]))
    said = [*(Claim(run, draw(claim_weights)) for run in held), *draw(claims)[:1]]
    return draw(st.permutations(said))


looks = st.lists(st.builds(Observation, st.integers(1, 12), st.booleans(), st.booleans()), max_size=3)
rates = st.builds(Rates, *[st.fractions(Fraction(1, 50), Fraction(3, 10))] * 4)


def numbers(run: Run) -> list[int]:
    return [n for n in range(run.first, run.last + 1) if n in ISSUED]


def patterns(seen: Sequence[Observation], at: int, of: Rates) -> Iterator[Fraction]:
    """Of every pattern of swapped machines under which just this would be seen, how probable it is."""
    for swapped in product((False, True), repeat=len(seen)):
        chance = Fraction(1)
        for one, was in zip(seen, swapped, strict=True):
            left_with_later = one.number >= at
            f, r = of.of(one.untouched)
            how_often = r if left_with_later else f
            chance *= how_often if was else 1 - how_often
            if one.later != (left_with_later != was):
                chance = Fraction(0)
        yield chance


def tried(
    said: Sequence[Claim], seen: Sequence[Observation], of: Rates
) -> tuple[dict[int, Fraction], list[Fraction]]:
    """Every claim (the last: none of them), break and pattern: the breaks' shares and the claims'."""
    held = [numbers(claim.run) for claim in said]
    total = sum(claim.weight for claim, inside in zip(said, held, strict=True) if inside)
    shares = [
        (1 - NONE) * claim.weight / total if inside else Fraction(0)
        for claim, inside in zip(said, held, strict=True)
    ]
    each: dict[int, Fraction] = {}
    of_claims = []
    for inside, share in zip([*held, numbers(ALL)], [*shares, NONE], strict=True):
        mine = {at: share / len(inside) * sum(patterns(seen, at, of)) for at in inside}
        of_claims.append(sum(mine.values(), Fraction(0)))
        for at, chance in mine.items():
            each[at] = each.get(at, Fraction(0)) + chance
    whole = sum(of_claims)
    return {at: chance / whole for at, chance in each.items()}, [chance / whole for chance in of_claims]


def agree(said: Sequence[Claim]) -> list[int]:
    """The issued numbers that all claims have in common."""
    return [n for n in numbers(ALL) if all(claim.run.first <= n <= claim.run.last for claim in said)]


@settings(max_examples=tries(200))
@given(differing(), looks, rates)
def test_a_mixture_is_what_trying_everything_gives(
    said: list[Claim], seen: list[Observation], of: Rates
) -> None:
    assert not agree(said)
    made = prior(said, ALL, ISSUED, NONE)
    if made is None:
        assert not any(numbers(claim.run) for claim in said)
        return
    found = report(made, seen, of)
    breaks, weighed = tried(said, seen, of)
    assert {n: found.posterior.mass(n, n) for n in numbers(ALL)} == breaks
    assert found.none
    assert [share.after for share in (*found.shares, found.none)] == weighed
    assert [share.run for share in found.shares] == [claim.run for claim in said]
    assert sum(share.before for share in (*found.shares, found.none)) == 1
    assert sum(weighed) == 1


@settings(max_examples=tries(200))
@given(claims, looks, rates)
def test_claims_that_agree_are_one_as_if_it_were_alone(
    said: list[Claim], seen: list[Observation], of: Rates
) -> None:
    """To the last digit what a single printed range gives: every break in common, each as likely before."""
    common = agree(said)
    assume(common)
    made = prior(said, ALL, ISSUED, NONE)
    assert made
    found = report(made, seen, of)
    chances = {at: sum(patterns(seen, at, of)) for at in common}
    whole = sum(chances.values())
    assert {n: found.posterior.mass(n, n) for n in numbers(ALL)} == {
        n: chances.get(n, Fraction(0)) / whole for n in numbers(ALL)
    }
    run = Run(max(c.run.first for c in said), min(c.run.last for c in said))
    assert found == report(agreed(run, ISSUED.within(run)), seen, of)
    assert (found.claim, found.none) == (run, None)
    assert [(share.before, share.after) for share in found.shares] == [(Fraction(1), Fraction(1))]


@given(claims, looks, st.data())
def test_the_order_of_claims_never_matters(
    said: list[Claim], seen: list[Observation], data: st.DataObject
) -> None:
    order = data.draw(st.permutations(range(len(said))))
    one, other = (prior([said[i] for i in ids], ALL, ISSUED, NONE) for ids in (range(len(said)), order))
    assert bool(one) == bool(other)
    if one and other:
        assert one.runs == other.runs
        if one.none:
            assert [one.parts[i] for i in order] == list(other.parts)
            found = report(one, seen, Rates()), report(other, seen, Rates())
            assert found[0].posterior == found[1].posterior


def mixed(*said: Claim, none: Fraction = NONE) -> Prior:
    made = prior(said, ALL, ISSUED, none)
    assert made
    return made


def test_two_books_by_hand() -> None:
    """One says 5, a weightier one 9 or 10; one in ten holds neither, anywhere from 1 to 12 (ten numbers)."""
    made = mixed(Claim(Run(5, 5), Fraction(1)), Claim(Run(9, 10), Fraction(2)), none=Fraction(1, 10))
    each = {n: sum((r.each for r in made.runs if r.first <= n <= r.last), Fraction(0)) for n in range(1, 13)}
    rest = Fraction(1, 100)
    assert each[5] == Fraction(3, 10) + rest
    assert each[9] == each[10] == Fraction(3, 10) + rest
    assert each[4] == each[12] == rest
    assert each[6] == each[7] == 0
    # An untouched 8 with the later: the break is at 8 or before, unless it was converted, one in a hundred.
    found = report(made, [Observation(8, later=True, untouched=True)], Rates())
    before, after, stray = Fraction(99, 100), Fraction(1, 100), Fraction(1, 100)
    left = [
        Fraction(3, 10) * before,
        Fraction(6, 10) * after,
        stray * (6 * before + 4 * after),  # of 1 to 5 and 8; of 9 to 12
    ]
    assert found.none
    assert [s.after for s in (*found.shares, found.none)] == [part / sum(left) for part in left]
    assert found.claim == Run(5, 10)


def test_a_claim_of_numbers_that_were_never_issued_weighs_nothing() -> None:
    made = mixed(Claim(Run(6, 7), Fraction(6)), Claim(Run(3, 3), Fraction(1)))
    assert [part.share for part in made.parts] == [0, 1 - NONE]
    assert [share.after for share in report(made, [], Rates()).shares] == [0, 1 - NONE]
    assert prior([Claim(Run(6, 7), Fraction(1))], ALL, ISSUED, NONE) is None
    # What two have in common was never issued: they do not agree.
    assert mixed(Claim(Run(5, 6), Fraction(1)), Claim(Run(6, 8), Fraction(1))).none


def test_a_community_may_leave_nothing_for_none_of_them() -> None:
    made = mixed(Claim(Run(3, 3), Fraction(1)), Claim(Run(9, 9), Fraction(1)), none=Fraction(0))
    assert (made.reach, made.hull) == (Run(3, 9), Run(3, 9))
    assert mixed(Claim(Run(3, 3), Fraction(1)), Claim(Run(9, 9), Fraction(1))).reach == ALL
    found = report(made, [], Rates())
    assert found.none
    assert (found.none.before, found.none.after) == (Fraction(0), Fraction(0))
    assert found.posterior.modes() == (Run(3, 3), Run(9, 9))
    never = [Observation(5, False, True), Observation(4, True, True)]
    assert report(made, never, NEVER).posterior.contradiction
    assert [share.after for share in report(made, never, NEVER).shares] == [0, 0]


def test_the_posterior_of_a_prior_alone_is_the_prior() -> None:
    made = mixed(Claim(Run(3, 4), Fraction(1)), Claim(Run(8, 9), Fraction(1)))
    found = posterior(made.runs, [], Rates())
    assert {n: found.mass(n, n) for n in numbers(ALL)} == {
        n: sum(r.each for r in made.runs if r.first <= n <= r.last) for n in numbers(ALL)
    }


def test_weights_add_up_and_nobody_weighs_as_the_least() -> None:
    weights = Weights({"parts-book": Fraction(4), "recollection": Fraction(1, 2)})
    assert weights.of(["parts-book"]) == 4
    assert weights.of(["parts-book", "recollection", "parts-book"]) == Fraction(17, 2)
    assert weights.of([]) == Fraction(1, 2)
    with pytest.raises(KeyError):
        weights.of(["rumour"])
