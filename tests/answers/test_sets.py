"""What is sold only in sets: how many sets, and what is left over, held against trying every choice."""

from __future__ import annotations

from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from spanbook.answers.answers import Answers
from spanbook.answers.instead import would_do
from spanbook.answers.orders import Ordering, Supply, orders
from spanbook.answers.sets import contents, held_in, sets_needed, sets_of
from spanbook.answers.supersession import order_now
from spanbook.ground.part_numbers import PartKey
from spanbook.outputs.text import order as order_text
from spanbook.reading.records import Record
from spanbook.register.model import Register
from tests.answers.test_numbers import part
from tests.support.acts import act, key
from tests.support.registers import record, register

Sets = dict[str, dict[str, int]]


def world(sets: Sets, only_in: dict[str, list[str]], *more: Record) -> Register:
    made = []
    for name, holds in sets.items():
        lines = ", ".join(f"{{number: {n}, quantity: {q}}}" for n, q in holds.items())
        made.append(part(f"set-{name}", name, f"holds: [{lines}]\n" if lines else ""))
    for name, of in only_in.items():
        lines = ", ".join(f"{{number: {one}}}" for one in of)
        made.append(part(f"part-{name}", name, f"only-in: [{lines}]\n"))
    return register(*made, *more)


PARTS = "abc"
SETS = st.dictionaries(
    st.sampled_from(["s", "t", "u"]),
    st.dictionaries(st.sampled_from(PARTS), st.integers(1, 3), min_size=1),
    min_size=1,
)


@given(SETS, st.dictionaries(st.sampled_from(PARTS), st.integers(1, 7), min_size=1))
def test_as_few_sets_as_do_and_everything_else_is_left_over(sets: Sets, wanted: dict[str, int]) -> None:
    only_in = {one: [s for s, holds in sets.items() if one in holds] for one in wanted}
    only_in = {one: of for one, of in only_in.items() if of}
    made = world(sets, only_in)
    found = sets_needed(made, {key(one): n for one, n in wanted.items()})
    if not only_in:
        assert found == ()
        return
    # Every choice of a set for each part, counted up one by one until it does.
    tried = []
    for chosen in product(*only_in.values()):
        counts: dict[str, int] = {}
        for one, of in zip(only_in, chosen, strict=True):
            while sets[of][one] * counts.get(of, 0) < wanted[one]:
                counts[of] = counts.get(of, 0) + 1
        tried.append(counts)
    best = [
        counts
        for counts in tried
        if not any(
            other != counts and all(n <= counts.get(of, 0) for of, n in other.items()) for other in tried
        )
    ]
    told = [{need.key.number: need.quantity for need in way} for way in found]
    assert {frozenset(one.items()) for one in told} == {frozenset(one.items()) for one in best}
    for way in found:
        assert {one for need in way for one in need.covers} == {key(one) for one in only_in}
        for need in way:
            held = {k: n * need.quantity for k, n in need.holds}
            used = {one: wanted[one.number] for one in need.covers}
            left = {k: n - used.get(k, 0) for k, n in held.items()}
            assert dict(need.left) == {k: n for k, n in left.items() if n}
            assert all(n >= 0 for n in left.values())


def said(made: Register, number: str, quantity: int = 1) -> str:
    asked = (made, key(number), quantity)
    text = order_text.as_text(
        Answers(made), number, order_now(*asked), orders(*asked), would_do(made, key(number)), ()
    )
    return text.split("\n")[0]


def test_an_order_says_what_the_set_holds_and_what_is_left_over() -> None:
    made = world({"s": {"a": 2, "b": 1}}, {"a": ["s"]})
    assert said(made, "a", 3) == (
        "Nobody has replaced it: it is sold only in a set. "
        "Order 2 × the set s set-s (supply not known) for a part-a: "
        "each holds 2 × a part-a and 1 × b; left over: 1 × a part-a and 2 × b."
    )
    assert said(world({"s": {"a": 2}}, {"a": ["s"]}), "a", 2).endswith(
        "for a part-a: it holds 2 × a part-a; left over: nothing."
    )


def test_of_several_sets_any_one_will_do() -> None:
    made = world({"s": {"a": 1}, "t": {"a": 2}}, {"a": ["s", "t"]})
    assert said(made, "a", 2).endswith(
        "Order the set t set-t (supply not known) for a part-a: it holds 2 × a part-a; left over: nothing; "
        "or 2 × the set s set-s (supply not known) for a part-a: each holds 1 × a part-a; left over: nothing."
    )


def test_parts_of_one_order_share_a_set() -> None:
    acts = record(act("x", "o", "a, b"), "supersession", "x")
    made = world({"s": {"a": 1, "b": 1, "c": 1}}, {"a": ["s"], "b": ["s"]}, acts)
    assert said(made, "o") == (
        "Order a part-a (sold only in the set s set-s) and b part-b (sold only in the set s set-s). "
        "Order the set s set-s (supply not known) for a part-a and b part-b: "
        "it holds 1 × a part-a, 1 × b part-b and 1 × c; left over: 1 × c. Nobody has named evidence for it."
    )


def test_a_set_that_was_replaced_itself_is_ordered_as_what_replaced_it() -> None:
    made = world({"s": {"a": 1}}, {"a": ["s"]}, record(act("x", "s", "t 2"), "supersession", "x"))
    assert "Order the set s set-s (itself replaced: order 2 × t (supply not known)) for a" in said(made, "a")
    (way,) = Ordering(made).of(key("a")).alternatives
    assert [[(leaf.key.number, leaf.quantity) for leaf in leaves] for leaves in way.sets[0][0].today] == [
        [("t", 2)]
    ]


def test_sets_that_are_sold_only_in_one_another_come_to_an_end() -> None:
    made = world({"s": {"t": 1}, "t": {"s": 1}}, {})
    both = [part("s2", "s2", "only-in: [{number: t2}]\n"), part("t2", "t2", "only-in: [{number: s2}]\n")]
    assert said(made, "s")
    made = register(*both)
    (way,) = Ordering(made).of(key("s2")).alternatives
    assert [one.needed.key for (one,) in way.sets] == [key("t2")]


def test_what_a_set_holds_may_not_be_known() -> None:
    made = register(part("p", "a", "only-in: [{number: s}]\n"))
    assert said(made, "a", 5).endswith(
        "the set s (supply not known) for a p: what it holds is not recorded, nor how many to get."
    )


def test_a_set_is_known_from_both_sides() -> None:
    made = world({"s": {"a": 2}}, {"a": ["s"]})
    assert (sets_of(made, key("a")), sets_of(made, key("s"))) == ((key("s"),), ())
    assert contents(made, key("s")) == {key("a"): 2}
    assert [(one.key, one.quantity) for one in held_in(made, made.parts[key("a")])] == [(key("s"), 2)]
    assert Ordering(made).of(key("a")).alternatives[0].leaves[0].supply is Supply.IN_SET
    assert PartKey.of("example-works", "s") in made.parts
