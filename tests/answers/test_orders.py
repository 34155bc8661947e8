"""What to order, however long and tangled the acts: against the tree, and five thousand in a row."""

from __future__ import annotations

from itertools import product
from typing import TypeVar

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from spanbook.answers import ways as answers
from spanbook.answers.answers import Answers
from spanbook.answers.instead import would_do
from spanbook.answers.onward import Ending
from spanbook.answers.orders import Ordering, Supply, orders
from spanbook.answers.supersession import DEEPEST, Need, order_now, steps_of
from spanbook.outputs.json import order as order_json
from spanbook.outputs.text import order as order_text
from spanbook.register.model import Register
from tests.support.acts import key, of, shown

IN_A_ROW = 5_000


def row(length: int, more: str = "") -> Register:
    return of(*((f"act-{i}", f"n{i}", f"n{i + 1}", more) for i in range(length)))


@pytest.fixture(scope="module")
def long_row() -> Register:
    return row(IN_A_ROW, "interchange: both\n")


@pytest.mark.slow
def test_five_thousand_acts_in_a_row_are_followed_to_the_end(long_row: Register) -> None:
    ordering = Ordering(long_row)
    assert shown(ordering.of(key("n0"), 3)) == [f"3 n{IN_A_ROW}"]
    assert all(shown(ordering.of(key(f"n{i}"))) == [f"1 n{IN_A_ROW}"] for i in range(IN_A_ROW))


@pytest.mark.slow
def test_a_tree_stops_where_nobody_reads_on_and_says_so(long_row: Register) -> None:
    need = order_now(long_row, key("n0"), 3)
    steps = list(steps_of(need))
    assert [depth for depth, _ in steps] == list(range(DEEPEST))
    (last,) = steps[-1][1].gives
    assert (last.key, last.quantity, last.ending) == (key(f"n{DEEPEST}"), 3, Ending.GOES_ON)
    found = orders(long_row, key("n0"), 3)
    text = order_text.as_text(Answers(long_row), "n0", need, found, would_do(long_row, key("n0")), ())
    assert text.startswith(f"Order 3 × n{IN_A_ROW}.")
    assert f"3 × n{DEEPEST} (goes on under that number)" in text
    made = order_json.as_object(Answers(long_row), "n0", None, need, found, would_do(long_row, key("n0")), ())
    assert made["alternatives"][0]["leaves"][0]["number"] == f"n{IN_A_ROW}"
    end = order_now(long_row, key(f"n{IN_A_ROW - DEEPEST}"))
    assert all(need.ending is not Ending.GOES_ON for _, step in steps_of(end) for need in step.gives)


@pytest.mark.slow
def test_what_would_do_reaches_as_far_and_says_that_there_is_more(long_row: Register) -> None:
    found = would_do(long_row, key("n2500"))
    assert found.more
    assert {one.keys[0].number for one in found.each} == {
        f"n{i}" for i in range(2500 - DEEPEST, 2501 + DEEPEST) if i != 2500
    }
    assert max(len(one.path) for one in found.each) == DEEPEST
    assert not would_do(row(3), key("n0")).more


def test_quantities_that_grow_past_counting_are_not_followed() -> None:
    made = of(*((f"act-{i}", f"n{i}", f"n{i + 1} 999") for i in range(50)))
    found = orders(made, key("n0"))
    assert found.more
    (leaf,) = found.alternatives[0].leaves
    assert not leaf.followed


@pytest.mark.slow
def test_an_order_too_long_to_read_is_not_made() -> None:
    made = of(*((f"act-{i}", f"n{i}", f"n{i + 1}, x{i}") for i in range(answers.MOST_LINES + 10)))
    found = orders(made, key("n0"))
    assert found.more
    assert any(not leaf.followed for leaf in found.alternatives[0].leaves)
    assert len(found.alternatives[0].leaves) <= answers.MOST_LINES


def test_acts_that_meet_again_are_followed_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Two to the power of sixty ways to walk."""
    monkeypatch.setattr(answers, "MOST_FOLLOWED", 200)
    made = of(
        *((f"split-{i}", f"n{i}", f"l{i}, r{i}") for i in range(30)),
        *((f"left-{i}", f"l{i}", f"n{i + 1}") for i in range(30)),
        *((f"right-{i}", f"r{i}", f"n{i + 1}") for i in range(30)),
    )
    found = orders(made, key("n1"))
    assert shown(found) == [f"{2**29} n30"]
    assert len(found.alternatives[0].grounds.acts) == 3 * 29


def test_what_is_known_from_inside_a_circle_is_not_told_outside_it() -> None:
    """The same number is an end where its acts lead back to it, and goes on where they do not."""
    made = of(("i", "a", "b"), ("j", "b", "a"), ("k", "b", "c"))
    ordering = Ordering(made)
    assert shown(ordering.of(key("a"))) == ["1 a", "1 c"]
    assert shown(ordering.of(key("b"))) == ["1 b", "1 c"]
    assert shown(ordering.of(key("a"))) == ["1 a", "1 c"]


def test_a_circle_through_what_must_go_with_it_ends() -> None:
    made = of(("i", "a", "b", "needs: [{number: c}]\n"), ("j", "c", "d", "needs: [{number: a}]\n"))
    (way,) = orders(made, key("a")).alternatives
    assert [(leaf.key.number, leaf.supply) for leaf in way.leaves] == [
        ("b", Supply.UNKNOWN),
        ("d", Supply.UNKNOWN),
        ("a", Supply.NEEDS_CIRCLE),
    ]


T = TypeVar("T")
NUMBERS = st.sampled_from("abcdef")
USES = st.dictionaries(NUMBERS, st.integers(1, 3), min_size=1, max_size=2)
ACTS = st.lists(st.tuples(USES, st.one_of(st.just({}), USES)), max_size=6)


def _ways(need: Need) -> list[dict[tuple[object, object], int]]:
    """Every way to order by a tree, written down plainly."""
    if need.ending is not None:
        return [{(need.key, need.ending): need.quantity}]
    found = []
    for step in need.steps:
        for together in product(*(_ways(child) for child in (*step.gives, *step.besides))):
            total: dict[tuple[object, object], int] = {}
            for way in together:
                for leaf, quantity in way.items():
                    total[leaf] = total.get(leaf, 0) + quantity
            found.append(total)
    return found


@settings(deadline=None)
@given(ACTS, NUMBERS, st.integers(1, 5))
def test_orders_are_what_stands_at_the_ends_of_the_tree(
    acts: list[tuple[dict[str, int], dict[str, int]]], number: str, quantity: int
) -> None:
    def side(uses: dict[str, int]) -> str:
        return ", ".join(f"{n} {q}" for n, q in uses.items())

    made = of(*((f"act-{i}", side(old), side(new)) for i, (old, new) in enumerate(acts)))
    ordering = Ordering(made)
    for asked in (key(number), *(key(n) for n in "abcdef")):  # known from one, asked from another
        wanted = _ways(order_now(made, asked, quantity))
        found = ordering.of(asked, quantity)
        if not found.more:
            plain = [
                {(leaf.key, leaf.supply is Supply.GIVEN_UP): leaf.quantity for leaf in way.leaves}
                for way in found.alternatives
            ]
            ends = [{(k, e is Ending.GIVEN_UP): q for (k, e), q in way.items()} for way in wanted]
            assert _each_once(plain) == _each_once(ends)


def _each_once(ways: list[T]) -> list[T]:
    """Of the same numbers in another order one is enough."""
    return [way for i, way in enumerate(ways) if way not in ways[:i]]
