"""The tree of what replaces a number, worked by hand: how deep each act stands, and where the tree is cut."""

from __future__ import annotations

import pytest

from spanbook.answers import supersession
from spanbook.answers.onward import Ending
from spanbook.answers.supersession import Need, Step, acts_of, order_now, steps_of
from spanbook.register.model import Register
from tests.answers.test_orders_worked import by, world
from tests.support.acts import key

NEED = "needs: [{number: %s}]\n"


def tree(made: Register, number: str, quantity: int = 1) -> Need:
    return order_now(made, key(number), quantity)


def told(need: Need) -> list[tuple[int, str, bool]]:
    """Every act with how deep it stands, and whether it gives something."""
    return [(depth, one.act.id if one.act else "", isinstance(one, Step)) for depth, one in acts_of(need)]


def endings(need: Need) -> dict[str, str | None]:
    """How each number of a tree ends where it does."""
    found, waiting = dict[str, str | None](), [need]
    while waiting:
        one = waiting.pop()
        found[one.key.number] = one.ending
        waiting += [below for step in one.steps for below in (*step.gives, *step.besides)]
    return found


SPLIT = world(
    ("a", "p", "q, r", by("book", NEED % "t")),
    ("b", "q", "s", by("book")),
    ("c", "s", "u", by("book")),
    ("d", "r", "", by("book")),
    ("e", "t", "v", by("book")),
)


def test_every_act_stands_below_what_it_follows_from_in_the_order_of_what_is_given() -> None:
    need = tree(SPLIT, "p")
    assert told(need) == [
        (0, "a", True),
        (1, "b", True),
        (2, "c", True),
        (1, "d", False),
        (1, "e", True),
    ]
    assert [(depth, step.act.id) for depth, step in steps_of(need)] == [
        (0, "a"),
        (1, "b"),
        (2, "c"),
        (1, "e"),
    ]


def test_a_number_ends_where_no_act_leads_on() -> None:
    found = endings(tree(SPLIT, "p"))
    assert {number: found[number] for number in "pqst"} == dict.fromkeys("pqst")
    assert (found["r"], found["u"], found["v"]) == (Ending.GIVEN_UP, Ending.CURRENT, Ending.CURRENT)


def test_a_circle_of_needs_is_told_apart_from_one_of_replacing() -> None:
    needs = world(("a", "p", "x", by("book", NEED % "q")), ("b", "q", "p", by("book")))
    assert endings(tree(needs, "q"))["q"] is Ending.NEEDS_CIRCLE
    round_ = world(("a", "p", "q", by("book", NEED % "n")), ("b", "q", "p", by("book")))
    assert endings(tree(round_, "p"))["p"] is Ending.CIRCLE
    # What only went with an act further up is no part of the circle below it.
    below = world(
        ("a", "p", "x", by("book", NEED % "q")), ("b", "q", "r", by("book")), ("c", "r", "q", by("book"))
    )
    assert endings(tree(below, "p"))["q"] is Ending.CIRCLE


@pytest.mark.parametrize(("most", "cut"), [(7, False), (6, True)])
def test_a_tree_of_too_many_numbers_is_cut(monkeypatch: pytest.MonkeyPatch, most: int, cut: bool) -> None:
    """Seven numbers, from p to v."""
    monkeypatch.setattr(supersession, "MOST_NEEDS", most)
    found = endings(tree(SPLIT, "p"))
    assert len(found) == 7
    assert (Ending.TOO_MANY in found.values()) is cut


@pytest.mark.parametrize(("quantity", "cut"), [(5, False), (6, True)])
def test_too_many_of_a_number_are_not_followed(
    monkeypatch: pytest.MonkeyPatch, quantity: int, cut: bool
) -> None:
    monkeypatch.setattr(supersession, "MOST_QUANTITY", 10)
    doubled = world(("a", "p", "q 2", by("book")))
    assert (endings(tree(doubled, "p", quantity))["q"] is Ending.TOO_MANY) is cut


def test_a_row_is_cut_only_where_it_goes_on(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(supersession, "DEEPEST", 2)
    row = world(("a", "p", "q", by("book")), ("b", "q", "r", by("book")), ("c", "r", "s", by("book")))
    assert endings(tree(row, "p"))["r"] is Ending.GOES_ON
    assert endings(tree(row, "q"))["s"] is Ending.CURRENT
    gone = world(("a", "p", "q", by("book")), ("b", "q", "r", by("book")), ("c", "r", "", by("book")))
    assert endings(tree(gone, "p"))["r"] is Ending.GIVEN_UP


def test_that_a_number_came_back_is_told_once_by_the_act_that_leads_to_it() -> None:
    made = world(
        ("out", "p", "q", by("book", "year: 1934\n")), ("back", "q", "p", by("letter", "year: 1937\n"))
    )
    found = tree(made, "q")
    assert told(found) == [(0, "back", True)]
    (end,) = tree(made, "p").ends
    assert (end.ending, end.back, end.act and end.act.id) == (Ending.CURRENT, True, "back")
    kept = world(("still", "p", "", by("book", "current: true\n")))
    assert [(one.ending, one.back) for one in tree(kept, "p").ends] == [(Ending.CURRENT, False)] * 2
