"""What becomes of a number, by whom and on what terms: by hand, an act or two at a time."""

from __future__ import annotations

import pytest

from spanbook.answers import onward
from spanbook.answers.onward import Ending, Why
from spanbook.answers.orders import Ordering, Supply, orders
from spanbook.answers.readings import read_serial
from spanbook.answers.supersession import order_now
from tests.answers.test_orders_worked import by, on, only, world
from tests.support.acts import key, shown


def dated(year: int, more: str = "", source: str = "book") -> str:
    return by(source, f"year: {year}\n{more}")


# Two acts for the same


@pytest.mark.parametrize(("some", "every"), [("a", "b"), ("b", "a")])
def test_the_same_by_an_act_for_some_and_by_one_for_all_is_for_all(some: str, every: str) -> None:
    made = world((some, "p", "q", on("50", "open")), (every, "p", "q", by("book")))
    (way,) = orders(made, key("p")).alternatives
    (condition,) = way.conditions
    assert (condition.plain, condition.machines, condition.rest) == (True, None, False)
    assert [one.id for one in way.grounds.acts] == ["a", "b"]


# Which come first, and how many


def test_acts_that_nobody_disputes_stand_by_their_ids() -> None:
    """The first names nothing that it rests on, which disputes nothing either."""
    made = world(("a", "p", "q", ""), ("b", "p", "r", by("book")))
    assert shown(orders(made, key("p"))) == ["1 q", "1 r"]


@pytest.mark.parametrize(("most", "cut"), [(2, False), (1, True)])
def test_as_many_acts_on_a_number_are_followed_as_may_be(
    monkeypatch: pytest.MonkeyPatch, most: int, cut: bool
) -> None:
    monkeypatch.setattr(onward, "MOST_ACTS", most)
    ends = order_now(world(("a", "p", "q", by("book")), ("b", "p", "r", by("book"))), key("p")).ends
    assert (Ending.TOO_MANY in [one.ending for one in ends]) is cut


# What does not apply


def test_where_acts_together_are_for_all_machines_none_is_left_to_the_number_itself() -> None:
    rest = by("book", "serials: [{series: xa, first: 51, last: open}, {series: xb, first: 1, last: open}]\n")
    made = world(("a", "p", "q", on("1", "50")), ("b", "p", "r", rest))
    assert shown(orders(made, key("p"))) == ["1 q", "1 r"]


def test_an_act_that_has_no_say_beside_another_is_not_called_past() -> None:
    """Given up by the book that says what replaces it; nothing was brought back."""
    made = world(("on", "p", "q", by("book")), ("gone", "p", "", by("book")))
    assert order_now(made, key("p")).dropped == ()


def test_why_an_act_does_not_apply() -> None:
    made = world(
        ("late", "p", "q", dated(1940)), ("few", "p", "r", on("50", "open")), ("on", "p", "s", dated(1930))
    )
    reading = read_serial(made, "XA 3")[0]
    dropped = order_now(made, key("p"), 1, reading, 1936).dropped
    assert {one.act.id: one.why for one in dropped} == {"late": Why.NOT_YET, "few": Why.OTHER_MACHINES}


def test_an_act_of_which_only_the_year_is_not_sure_is_for_every_machine() -> None:
    made = world(("a", "p", "q", by("book")))
    told = [one for way in orders(made, key("p"), year=1930).alternatives for one in way.conditions]
    assert [(one.made, one.unmade, one.machines, one.rest) for one in told] == [
        (("a",), (), None, False),
        ((), ("a",), None, False),
    ]


# Given up, still current, brought back


def test_what_was_brought_back_later_than_asked_has_no_say_yet() -> None:
    """Given up in 1930 and replaced in 1931, by one book; brought back in 1940."""
    made = world(
        ("gone", "p", "", dated(1930)),
        ("out", "p", "q", dated(1931)),
        ("back", "q", "p", dated(1940)),
    )
    assert shown(orders(made, key("p"), year=1936)) == ["1 q"]
    assert shown(orders(made, key("p"))) == ["1 p"]


def test_what_the_same_source_still_had_later_was_not_given_up() -> None:
    made = world(("gone", "p", "", dated(1930)), ("still", "p", "", dated(1938, "current: true\n")))
    assert [one.ending for one in order_now(made, key("p")).ends] == [Ending.CURRENT]


def test_two_that_still_had_it_in_other_years_are_both_told() -> None:
    made = world(
        ("a", "p", "", dated(1934, "current: true\n")),
        ("b", "p", "", dated(1936, "current: true\n", "letter")),
    )
    assert [one.act and one.act.id for one in order_now(made, key("p")).ends] == ["a", "b", None]


def test_that_a_number_was_supplied_again_is_said_once() -> None:
    made = world(("gone", "p", "", dated(1934)), ("again", "p", "", dated(1936, "again: true\n")))
    assert [(one.ending, one.act and one.act.id) for one in order_now(made, key("p")).ends] == [
        (Ending.CURRENT, "again")
    ]


def test_of_two_numbers_supplied_again_only_the_disputed_one_may_be_ordered_otherwise() -> None:
    made = world(
        ("set", "n", "p, s", by("book")),
        ("gone", "p, s", "", dated(1934)),
        ("again", "p, s", "", dated(1936, "again: true\n", "letter")),
        ("other", "s", "t", dated(1936, source="fitter")),
    )
    assert sorted(shown(orders(made, key("n")))) == ["1 p, 1 s", "1 p, 1 t"]


def test_a_later_act_that_others_dispute_does_not_end_what_was_current() -> None:
    made = world(
        ("still", "p", "", dated(1934, "current: true\n")),
        ("to-q", "p", "q", dated(1938, source="letter")),
        ("to-r", "p", "r", dated(1938, source="fitter")),
    )
    assert sorted(shown(orders(made, key("p")))) == ["1 p", "1 q", "1 r"]
    plain = world(
        ("still", "p", "", dated(1934, "current: true\n")), ("to-q", "p", "q", dated(1938, source="letter"))
    )
    assert shown(orders(plain, key("p"))) == ["1 q"]


def test_where_too_many_terms_would_have_to_be_told_that_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    """It does not apply to a machine that it is not meant for, or not by then: two ways to stay as it was."""
    made = world(("a", "p", "q", by("book", only("50", "open"))))
    found = Ordering(made, None, 1930).of(key("p"))
    assert (shown(found), found.more) == (["1 q", "1 p"], False)
    monkeypatch.setattr(onward, "MOST_COMBINED", 1)
    cut = [leaf for way in Ordering(made, None, 1930).of(key("p")).alternatives for leaf in way.leaves]
    assert [(leaf.key.number, leaf.supply) for leaf in cut] == [
        ("q", Supply.UNKNOWN),
        ("p", Supply.TOO_MANY),
    ]
