"""Acts followed to their ends: where following stops and says so, and what leads round. By hand."""

from __future__ import annotations

import pytest

from spanbook.answers import terms, ways
from spanbook.answers.orders import Ordering, Orders, Supply
from spanbook.register.model import Register
from tests.answers.test_orders_worked import by, only, world
from tests.support.acts import key, of, shown

NEED = "needs: [{number: %s}]\n"


def order(made: Register, number: str = "n0", quantity: int = 1) -> Orders:
    return Ordering(made).of(key(number), quantity)


def row(length: int) -> Register:
    return of(*((f"act-{i}", f"n{i}", f"n{i + 1}") for i in range(length)))


def supplies(found: Orders) -> list[list[tuple[str, Supply]]]:
    return [[(leaf.key.number, leaf.supply) for leaf in way.leaves] for way in found.alternatives]


# Where following stops


@pytest.mark.parametrize(("most", "cut"), [(4, False), (3, True)])
def test_as_many_numbers_are_followed_as_may_be(
    monkeypatch: pytest.MonkeyPatch, most: int, cut: bool
) -> None:
    """Three acts in a row, four numbers."""
    monkeypatch.setattr(ways, "MOST_FOLLOWED", most)
    found = order(row(3))
    assert (shown(found), found.more) == (["1 n3"], cut)
    assert (supplies(found)[0][0][1] is Supply.TOO_MANY) is cut


def test_what_was_cut_on_the_way_from_one_number_is_not_cut_for_another(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(ways, "MOST_FOLLOWED", 3)
    ordering = Ordering(row(4))
    assert ordering.of(key("n0")).more
    found = ordering.of(key("n2"))
    assert (shown(found), found.more) == (["1 n4"], False)


@pytest.mark.parametrize(("quantity", "cut"), [(5, False), (6, True)])
def test_as_many_of_a_number_are_followed_as_may_be(
    monkeypatch: pytest.MonkeyPatch, quantity: int, cut: bool
) -> None:
    monkeypatch.setattr(ways, "MOST_QUANTITY", 10)
    found = order(of(("a", "n0", "n1 2")), quantity=quantity)
    assert (shown(found), found.more) == ([f"{2 * quantity} n1"], cut)


@pytest.mark.parametrize(("most", "cut"), [(3, False), (2, True)])
def test_an_order_has_as_many_lines_as_may_be(monkeypatch: pytest.MonkeyPatch, most: int, cut: bool) -> None:
    monkeypatch.setattr(ways, "MOST_LINES", most)
    found = order(of(("a", "n0", "p, q, r")))
    assert (shown(found), found.more) == ((["1 n0"], True) if cut else (["1 p, 1 q, 1 r"], False))


@pytest.mark.parametrize(("most", "cut"), [(3, False), (2, True)])
def test_a_way_has_as_many_terms_as_may_be(monkeypatch: pytest.MonkeyPatch, most: int, cut: bool) -> None:
    """Each act is for some machines only; on the longest way all three must apply."""
    monkeypatch.setattr(terms, "MOST_TERMS", most)
    limit = by("book", only("1", "9"))
    made = world(("a", "n0", "n1", limit), ("b", "n1", "n2", limit), ("c", "n2", "n3", limit))
    found = order(made)
    assert found.more is cut
    assert ("1 n3" in shown(found)) is not cut


SEVERAL = [(f"a{i}", "n1", f"p{i}") for i in range(3)]


@pytest.mark.parametrize(("most", "cut"), [(3, False), (2, True)])
@pytest.mark.parametrize(
    ("before", "number"),
    [([], "n1"), ([("on", "n0", "n1")], "n0"), ([("on", "n0", "n1"), ("off", "n0", "z")], "n0")],
)
def test_that_there_are_more_ways_is_said_however_far_below_they_are(
    monkeypatch: pytest.MonkeyPatch, before: list[tuple[str, str, str]], number: str, most: int, cut: bool
) -> None:
    """Three acts on one number, as the answer, or where an act leads to it, or one of two."""
    monkeypatch.setattr(ways, "MOST_ALTERNATIVES", most + (len(before) > 1))
    found = order(of(*before, *SEVERAL), number)
    assert len(found.alternatives) == min(most, 3) + (len(before) > 1)
    assert found.more is cut


def test_one_number_with_several_ways_beside_another_with_several(monkeypatch: pytest.MonkeyPatch) -> None:
    """Two ways of each of two numbers are four together; three are told, and that there are more."""
    made = of(("a", "n0", "l, r"), ("b", "l", "l1"), ("c", "l", "l2"), ("d", "r", "r1"), ("e", "r", "r2"))
    assert sorted(shown(order(made))) == ["1 l1, 1 r1", "1 l1, 1 r2", "1 l2, 1 r1", "1 l2, 1 r2"]
    monkeypatch.setattr(ways, "MOST_ALTERNATIVES", 3)
    found = order(made)
    assert (len(found.alternatives), found.more) == (3, True)


@pytest.mark.parametrize(
    "acts",
    [
        [("a", "n0", "p, q"), ("b", "p", "r 20")],  # of the first of two numbers of one act
        [("a", "n0", "p 20"), ("b", "n0", "q")],  # by the first of two acts
    ],
)
def test_what_was_not_followed_is_said_whatever_stands_after_it(
    monkeypatch: pytest.MonkeyPatch, acts: list[tuple[str, str, str]]
) -> None:
    assert not order(of(*acts)).more
    monkeypatch.setattr(ways, "MOST_QUANTITY", 10)
    assert order(of(*acts)).more


def test_the_same_numbers_by_two_acts_are_one_way() -> None:
    (way,) = order(of(("a", "n0", "p"), ("b", "n0", "p"))).alternatives
    assert [act.id for act in way.grounds.acts] == ["a", "b"]


# What leads round


def test_acts_that_lead_back_and_needs_that_lead_back_are_told_apart() -> None:
    assert supplies(order(of(("a", "n0", "q"), ("b", "q", "n0")))) == [[("n0", Supply.CIRCLE)]]
    one = order(of(("a", "n0", "q", NEED % "c"), ("b", "c", "n0")))
    assert supplies(one) == [[("q", Supply.UNKNOWN), ("n0", Supply.NEEDS_CIRCLE)]]


@pytest.mark.parametrize("given", ["b, y", "y, b"])
def test_what_led_back_from_one_number_is_followed_anew_from_another(given: str) -> None:
    made = of(("a", "n0", "m"), ("c", "m", given), ("d", "b", "n0"))
    ordering = Ordering(made)
    assert dict(supplies(ordering.of(key("n0")))[0])["n0"] is Supply.CIRCLE
    assert supplies(ordering.of(key("m"))) == supplies(order(made, "m"))


def test_a_need_counts_for_what_is_below_it_alone() -> None:
    """The one act needs a nut; that the other leads back has nothing to do with nuts."""
    made = of(("a", "n0", "q", NEED % "nut"), ("b", "n0", "r"), ("c", "r", "n0"))
    assert [("n0", Supply.CIRCLE)] in supplies(order(made))
    # Nor has what leads back below the nut, which goes with the act above it.
    below = of(("a", "n0", "q", NEED % "nut"), ("b", "nut", "pin"), ("c", "pin", "nut"))
    assert supplies(order(below)) == [[("q", Supply.UNKNOWN), ("nut", Supply.CIRCLE)]]


def test_a_need_far_down_that_leads_back_is_one_of_needs() -> None:
    made = of(("a", "n0", "q"), ("b", "q", "r", NEED % "nut"), ("c", "nut", "q"))
    assert supplies(order(made)) == [[("r", Supply.UNKNOWN), ("q", Supply.NEEDS_CIRCLE)]]
