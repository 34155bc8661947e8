"""Bounds from corners: nothing that is drawn at random lies outside them, where ways lie in rows and
beside.
"""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.ground.flow import laws
from spanbook.ground.flow.bounds import GUIDE, Box, Unknown
from spanbook.ground.flow.network import Network, Way, rest

LITRE_MINUTE, BAR = 1e-3 / 60, 1e5
Tree = tuple[str, list["Tree"]] | tuple[str, int]


@st.composite
def trees(draw: st.DrawFn, depth: int = 3) -> Tree:
    """Ways in rows and side by side, the leaves numbered later."""
    if depth == 0 or draw(st.integers(0, 2)) == 0:
        return ("leaf", draw(st.integers(0, 2)))
    return (
        draw(st.sampled_from(["row", "beside"])),
        draw(st.lists(trees(depth - 1), min_size=2, max_size=3)),
    )


def laid(tree: Tree, start: str, end: str, made: list[tuple[str, str, int]]) -> None:
    """The leaves of a tree as ways from a place to a place."""
    sort, inside = tree
    if isinstance(inside, int):
        made.append((start, end, inside))
    elif sort == "beside":
        for part in inside:
            laid(part, start, end, made)
    else:
        places = [start, *(f"{start}.{len(made)}.{i}" for i in range(len(inside) - 1)), end]
        for part, one, other in zip(inside, places, places[1:], strict=False):
            laid(part, one, other, made)


def law_of(sort: int, value: float) -> laws.Law:
    match sort:
        case 0:
            return laws.Straight(1e-9 * value)
        case 1:
            return laws.Jet(2e-3 * value, 0.7, 880)
        case _:
            return laws.Relief(2 * BAR * value, 1e-9)


@pytest.mark.slow
@given(trees(), st.randoms(use_true_random=False))
def test_nothing_drawn_at_random_lies_outside(tree: Tree, rng: random.Random) -> None:
    ways: list[tuple[str, str, int]] = []
    laid(("beside", [tree, ("leaf", 0)]), "in", "sump", ways)
    unknowns = [Unknown("pump", 4 * LITRE_MINUTE, 9 * LITRE_MINUTE)]
    unknowns += [
        Unknown(f"w{i}", low := 0.5 + rng.random(), low * (1 + rng.random())) for i in range(len(ways))
    ]

    def figures(at: Sequence[float]) -> Mapping[str, float]:
        made = [Way("pump", "sump", "in", laws.Given(at[0]))]
        made += [Way(f"w{i}", a, b, law_of(sort, at[i + 1])) for i, (a, b, sort) in enumerate(ways)]
        found = rest(Network(tuple(made), frozenset({"sump"})))
        guides = {GUIDE + name: value for name, value in found.pulls.items()}
        return {**found.flows, **guides, "at": found.pressures["in"]}

    bounds = Box(tuple(unknowns), figures).bounds()
    for _ in range(10):
        drawn = figures([rng.uniform(one.low, one.high) for one in unknowns])
        for name in bounds:
            value = drawn[name]
            off = 1e-4 * max(abs(bounds[name].low), abs(bounds[name].high)) + 1e-12
            assert bounds[name].low - off <= value <= bounds[name].high + off


def test_one_unknown_at_a_time_says_what_is_worth_measuring() -> None:
    def figures(at: Sequence[float]) -> Mapping[str, float]:
        return {"sum": at[0] + 10 * at[1]}

    widths = Box((Unknown("a", 0, 2), Unknown("b", 1, 2)), figures).widths()
    assert widths == {"sum": {"a": 2, "b": 10}}


def test_an_unknown_that_pulls_only_when_others_are_turned_is_turned_too() -> None:
    """In the middle neither moves the figure: each alone does nothing."""

    def figures(at: Sequence[float]) -> Mapping[str, float]:
        one, other = at
        return {"both": max(0.0, one + other - 1.2)}

    found = Box((Unknown("a", 0, 1), Unknown("b", 0, 1)), figures).bounds()["both"]
    assert [found.low, found.high] == pytest.approx([0, 0.8])
