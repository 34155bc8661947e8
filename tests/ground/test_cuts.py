"""Where a long sequence is cut: no run too large, and a change moves few cuts."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from spanbook.ground.cuts import ends

ABOUT = 60


@given(st.lists(st.integers(1, 20), max_size=200))
def test_runs_have_two_to_four_thirds_of_what_was_asked(weights: list[int]) -> None:
    cuts = [0, *ends([str(i) for i in range(len(weights))], weights, ABOUT), len(weights)]
    taken = [sum(weights[begin:end]) for begin, end in pairwise(cuts)]
    assert all(ABOUT * 2 / 3 <= one <= ABOUT * 4 / 3 for one in taken[:-1])
    assert taken[-1] <= ABOUT * 4 / 3


@given(st.lists(st.sampled_from([1, ABOUT, ABOUT * 9]), max_size=12))
def test_what_is_too_large_alone_has_a_run_of_its_own_or_ends_one(weights: list[int]) -> None:
    cuts = [0, *ends([str(i) for i in range(len(weights))], weights, ABOUT), len(weights)]
    assert all(begin < end for begin, end in pairwise(cuts) if weights)
    for begin, end in pairwise(cuts):
        assert sum(weights[begin : end - 1]) <= ABOUT * 4 / 3


def test_another_weight_at_the_beginning_leaves_the_later_cuts() -> None:
    keys, weights = [str(i) for i in range(2000)], [7] * 2000
    before = set(ends(keys, weights, ABOUT))
    for other in (1, 3, 12, 50):
        moved = before ^ set(ends(keys, [other, *weights[1:]], ABOUT))
        assert all(cut < 100 for cut in moved)


def test_it_is_cut_only_where_that_is_free() -> None:
    assert list(ends([str(i) for i in range(100)], [7] * 100, ABOUT, lambda i: i == 31)) == [31]
