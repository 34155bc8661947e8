"""Where orders may change over the numbers of a series: by which acts, and that nothing changes between."""

from __future__ import annotations

from spanbook.answers.bounds import pieces
from spanbook.answers.order_edges import acts_on, order_edges
from spanbook.answers.orders import Ordering, Orders
from spanbook.answers.readings import reading_of
from spanbook.register.model import Register
from tests.answers.test_orders_plain import NUMBERS, built, order_of, world
from tests.support.acts import act, key
from tests.support.plain_orders import Order
from tests.support.registers import record, register
from tests.support.rows import each_row
from tests.support.tries import tries


def bearing(made: Register, *numbers: str) -> list[str]:
    """The acts that bear on orders of some numbers; each once, or it is listed twice."""
    return sorted(one.id for one in acts_on(made, map(key, numbers)))


def made_of(*acts: tuple[str, ...], parts: str = "") -> Register:
    """Acts in short, and parts that are sold only in a set, as `part in set`."""
    sold = [
        record(
            f"kind: part\nid: {one}\nnumber: {one}\nname: P\nonly-in: [{{number: {whole}}}]\n", "part", one
        )
        for one, _, whole in (line.split() for line in parts.splitlines())
    ]
    return register(*sold, *(record(act(*one), "supersession", one[0]) for one in acts))


AWAY = ("away", "y", "z")  # of another number, which nothing leads to


@each_row(
    ("acts", "parts", "found"),
    [
        ([("on", "p", "q")], "", ["on"]),
        # What it leads to, to the end, and round again.
        ([("on", "p", "q"), ("then", "q", "r"), ("end", "r", "s")], "", ["end", "on", "then"]),
        ([("on", "p", "q"), ("round", "q", "p")], "", ["on", "round"]),
        # An act that takes several is one.
        ([("both", "p, q", "r"), ("on", "p", "q")], "", ["both", "on"]),
        # What an act needs beside it is ordered as well; a conversion is nothing to order.
        ([("on", "p", "q", "needs: [{number: n}]\n"), ("n-on", "n", "m")], "", ["n-on", "on"]),
        ([("on", "p", "q", "needs: [{conversion: kit}]\n")], "", ["on"]),
        # What brings the number back says whether another is past, and so does what disputes that.
        ([("on", "p", "q"), ("back", "o", "p")], "", ["back", "on"]),
        ([("on", "p", "q"), ("back", "o", "p"), ("other", "o", "t")], "", ["back", "on", "other"]),
        # What becomes of that other is not ordered for this one.
        (
            [("on", "p", "q"), ("back", "o", "p"), ("other", "o", "t"), ("then", "t", "u")],
            "",
            ["back", "on", "other"],
        ),
        # Where it is sold only in a set, the set is what is ordered.
        ([("set-on", "s", "s2")], "p in s", ["set-on"]),
        ([("on", "p", "q"), ("set-on", "s", "s2")], "q in s", ["on", "set-on"]),
        ([], "", []),
    ],
)
def test_the_acts_that_bear_on_an_order(acts: list[tuple[str, ...]], parts: str, found: list[str]) -> None:
    assert bearing(made_of(*acts, AWAY, parts=parts), "p") == found


def test_of_several_numbers_each_act_is_told_once() -> None:
    made = made_of(("a", "p", "q"), ("b", "q", "r"), ("c", "s", "r"), AWAY)
    assert bearing(made, "p", "q", "s", "in-no-record") == ["a", "b", "c"]


def test_only_the_limits_in_the_series_that_is_asked_of_are_edges() -> None:
    span = "serials: [{series: xa, first: 5, last: 10}, {series: xb, first: 15, last: [20, 30]}]\n"
    made = made_of(("on", "p", "q", span), ("then", "q", "r"))
    for series, edges in (("xa", [(5, 10, 10)]), ("xb", [(15, 20, 30)])):
        found = list(order_edges(made, [key("p")], made.series[series]))
        assert [(one.surely.first, one.surely.last, one.possibly.last) for one in found] == edges


def test_between_two_edges_every_machine_is_ordered_for_alike() -> None:
    """In worlds drawn at random, with every issued number of two series."""
    cut = 0
    for seed in range(tries(80)):
        made = built(world(seed))
        for series in made.series.values():
            issued = (n for n in range(1, 41) if n in series.issued)
            at = {n: Ordering(made, reading_of(series, n)) for n in issued}
            for number in NUMBERS:
                edges = list(order_edges(made, [key(number)], series))
                cut += len(edges)
                for piece in pieces(series.issued, edges):
                    inside = (n for n in at if n in piece)
                    first, *others = (said(at[n].of(key(number))) for n in inside)
                    assert all(other == first for other in others), (seed, series.id, number)
    assert cut


def said(found: Orders) -> dict[Order, tuple[str, list[str]]]:
    """Each way, whether it holds, and the acts that it goes by."""
    return {
        order_of(way): (str(way.grounds.applies), [one.id for one in way.grounds.acts])
        for way in found.alternatives
    }
