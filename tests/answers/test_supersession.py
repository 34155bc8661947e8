"""Supersessions: worked by hand, by property, and against reachability."""

from __future__ import annotations

import random
from pathlib import Path

import networkx as nx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.answers import circles
from spanbook.answers.condition import Applies
from spanbook.answers.instead import would_do
from spanbook.answers.onward import Ending
from spanbook.answers.orders import Supply, orders
from spanbook.answers.readings import read_serial
from spanbook.answers.supersession import End, Need, order_now
from spanbook.answers.ways import MOST_ALTERNATIVES
from spanbook.register.model import Register
from tests.support import worlds
from tests.support.acts import act, key, of, shown
from tests.support.demo import demo
from tests.support.registers import register

DEMO = demo()
EVIDENCE = "evidence: [{source: book}]\n"
MAKER = "wexmoor-engine-works"


def ordered(made: Register, number: str, quantity: int = 1, serial: str | None = None) -> list[str]:
    reading = read_serial(made, serial)[0] if serial else None
    return shown(orders(made, key(number), quantity, reading))


def test_quantities_multiply_through_a_chain_and_a_split() -> None:
    made = of(("i", "a", "b 2"), ("j", "b", "c, d 3"))
    assert ordered(made, "a", 5) == ["10 c, 30 d"]


def test_whole_multiples_leave_some_over() -> None:
    made = of(("i", "a 2", "b"))
    need = order_now(made, key("a"), 5)
    assert ordered(made, "a", 5) == ["3 b"]
    assert (need.steps[0].times, need.steps[0].spare) == (3, 1)


def test_alternatives_are_kept_apart() -> None:
    made = of(("i", "a", "b"), ("j", "a", "c"), ("k", "c", "d 2"))
    assert ordered(made, "a") == ["1 b", "2 d"]


def test_a_part_reached_twice_counts_once_for_each_need() -> None:
    made = of(("i", "a", "b, c"), ("j", "b", "d 2"), ("k", "c", "d"))
    assert ordered(made, "a") == ["3 d"]


def test_many_to_one_says_what_goes_with_it() -> None:
    made = of(("i", "a, b 2", "c"))
    (step,) = order_now(made, key("a"), 3).steps
    assert [(k.number, n) for k, n in step.together] == [("b", 6)]
    assert ordered(made, "b", 4) == ["2 c"]


def test_a_dead_branch_shows_while_the_other_lives() -> None:
    made = of(("i", "a", "b, c"), ("j", "b", ""))
    found = orders(made, key("a"))
    assert [(leaf.key.number, leaf.supply) for leaf in found.alternatives[0].leaves] == [
        ("b", Supply.GIVEN_UP),
        ("c", Supply.UNKNOWN),
    ]


def test_what_must_go_with_it_is_ordered_too() -> None:
    made = of(("i", "a", "b", 'needs: [{number: "n", quantity: 2}]\n'), ("j", "n", "m"))
    assert ordered(made, "a", 3) == ["3 b, 6 m"]


def test_acts_limited_to_serials() -> None:
    made = of(
        ("i", "a", "b", "serials: [{series: xa, first: 1, last: [5, 7]}]\n"),
        ("j", "a", "c", "serials: [{series: xa, first: [10, 12], last: open}]\n"),
    )
    assert ordered(made, "a") == ["1 b", "1 c", "1 a"]
    assert ordered(made, "a", serial="XA 3") == ["1 b"]
    need = order_now(made, key("a"), 1, read_serial(made, "XA 3")[0])
    assert [d.act.id for d in need.dropped] == ["j"]
    assert (
        order_now(made, key("a"), 1, read_serial(made, "XA 6")[0]).steps[0].condition.applies is Applies.MAYBE
    )
    assert order_now(made, key("a"), 1, read_serial(made, "XA 10")[0]).steps[0].act.id == "j"


def test_a_number_nobody_has_replaced_is_itself() -> None:
    made = of(("i", "a", "b"))
    assert order_now(made, key("b"), 4) == Need(key("b"), 4, (), (End(Ending.CURRENT),))
    assert order_now(made, key("never-heard-of")).ending is Ending.CURRENT


def test_circles_end_and_are_found_whole() -> None:
    made = of(("i", "a", "b"), ("j", "b", "c"), ("k", "c", "a"), ("l", "x", "y"))
    (cycle,) = circles.cycles(made)
    assert {k.number for k, _ in cycle} == {"a", "b", "c"}
    assert [a.id for _, a in sorted(cycle, key=lambda c: c[0])] == ["i", "j", "k"]
    assert (
        order_now(made, key("a")).steps[0].gives[0].steps[0].gives[0].steps[0].gives[0].ending
        is Ending.CIRCLE
    )


def test_a_circle_is_told_from_its_first_act_at_every_run() -> None:
    there = [(f"{n}-a", f"b{n}", f"a{n}") for n in range(9)]
    made = of(*there, *((f"{n}-b", f"a{n}", f"b{n}") for n in range(9)))
    assert [cycle[0][1].id for cycle in circles.cycles(made)] == [f"{n}-a" for n in range(9)]


def instead(made: Register, number: str) -> list[str]:
    return ["+".join(k.number for k in one.keys) for one in would_do(made, key(number)).each]


def test_what_would_do_goes_back_only_where_interchange_is_both() -> None:
    both = "interchange: both\n"
    made = of(("i", "a", "b"), ("j", "b", "c", both), ("k", "d", "c"), ("l", "c", "e, f"))
    assert instead(made, "a") == ["b", "c", "e+f"]
    assert instead(made, "c") == ["e+f", "b"]
    assert [(hop.act.id, hop.back) for hop in would_do(made, key("d")).each[-1].path] == [
        ("k", False),
        ("j", True),
    ]


def test_the_demonstration_by_hand() -> None:
    """WH-1181 became WH-2240, which was split into a pack and two end discs."""
    found = orders(DEMO, key("WH-1181", MAKER), 3)
    assert shown(found) == ["3 wh-2241, 6 wh-2242"]
    jets = orders(DEMO, key("WH-1204", MAKER), 1, read_serial(DEMO, "HK 950")[0])
    assert shown(jets) == ["1 wh-1208"]
    balls = order_now(DEMO, key("WH-1214", MAKER), 3)
    assert (shown(orders(DEMO, key("WH-1214", MAKER), 3)), balls.steps[0].spare) == (["2 wh-1217"], 1)


numbers = st.sampled_from("abcdefgh")
sides = st.dictionaries(numbers, st.integers(1, 3), min_size=1, max_size=3)
worlds_of_acts = st.lists(
    st.tuples(sides, st.dictionaries(numbers, st.integers(1, 3), max_size=3)), max_size=8
)


def made_of(pairs: list[tuple[dict[str, int], dict[str, int]]]) -> Register:
    def side(uses: dict[str, int]) -> str:
        return ", ".join(f"{n} {q}" for n, q in uses.items())

    return of(*((f"act-{i}", side(old), side(new)) for i, (old, new) in enumerate(pairs)))


def leaves_of(need: Need) -> list[Need]:
    if not need.steps:
        return [need]
    return [leaf for s in need.steps for child in (*s.gives, *s.besides) for leaf in leaves_of(child)]


@given(worlds_of_acts, numbers, st.integers(1, 7))
def test_resolution_ends_on_any_graph_and_its_leaves_stay(
    pairs: list[tuple[dict[str, int], dict[str, int]]], number: str, quantity: int
) -> None:
    made = made_of(pairs)
    need = order_now(made, key(number), quantity)
    for leaf in leaves_of(need):
        assert leaf.ending is not None
        if leaf.ending is Ending.CURRENT:
            assert order_now(made, leaf.key, leaf.quantity) == leaf
    reach = circles.graph(made)
    reachable = {key(number)} | (nx.descendants(reach, key(number)) if key(number) in reach else set())
    assert {leaf.key for leaf in leaves_of(need)} <= reachable


@given(st.lists(st.integers(1, 4), min_size=1, max_size=6), st.integers(1, 9))
def test_quantities_conserve_along_a_chain(factors: list[int], quantity: int) -> None:
    made = of(*((f"act-{i}", f"n{i}", f"n{i + 1} {f}") for i, f in enumerate(factors)))
    total = quantity
    for factor in factors:
        total *= factor
    assert ordered(made, "n0", quantity) == [f"{total} n{len(factors)}"]


@given(worlds_of_acts, numbers, st.integers(0, 100))
def test_the_order_of_files_never_shows(
    pairs: list[tuple[dict[str, int], dict[str, int]]], number: str, seed: int
) -> None:
    records = [r for r in made_of(pairs).records if r.kind == "supersession"]
    other = list(records)
    random.Random(seed).shuffle(other)
    assert order_now(register(*records), key(number)) == order_now(register(*other), key(number))


@given(worlds_of_acts, numbers)
def test_what_is_ordered_is_where_reachability_ends(
    pairs: list[tuple[dict[str, int], dict[str, int]]], number: str
) -> None:
    made = made_of(pairs)
    reach = circles.graph(made)
    after = {key(number)} | (nx.descendants(reach, key(number)) if key(number) in reach else set())
    stops = {n for n in after if n not in reach or reach.out_degree(n) == 0}
    found = orders(made, key(number))
    leaves = {leaf.key: leaf.followed for way in found.alternatives for leaf in way.leaves}
    assert {leaf for leaf, followed in leaves.items() if followed} <= stops
    if not found.more:
        assert stops <= set(leaves)


@pytest.mark.parametrize("wide", [12])
def test_a_thicket_is_cut_and_said_to_be(wide: int) -> None:
    made = of(*((f"act-{i}-{j}", f"n{i}", f"n{i + 1} {j + 1}") for i in range(wide) for j in range(3)))
    found = orders(made, key("n0"))
    assert found.more
    assert len(found.alternatives) <= MOST_ALTERNATIVES


def test_cycles_are_an_error_with_the_whole_of_it(tmp_path: Path) -> None:
    head = "# file: content/supersessions/"
    world = "".join(
        f"{head}{i}.yml\n{act(i, old, new, EVIDENCE)}"
        for i, old, new in (("i", "a", "b"), ("j", "b", "c"), ("k", "c", "a"))
    )
    problems = [p for p in worlds.check(tmp_path, world).problems if p.name == "supersession-cycle"]
    assert len(problems) == 1
    for part in ("a", "b", "c", "supersessions/i.yml:", "supersessions/j.yml:", "supersessions/k.yml:"):
        assert part in problems[0].read
