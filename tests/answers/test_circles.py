"""Circles of acts, worked by hand: for whom they are one, and what opens them."""

from __future__ import annotations

import pytest

from spanbook.answers import circles
from spanbook.answers.circles import circles_of_needs, cycles
from spanbook.register.link import build
from spanbook.register.model import Register
from tests.answers.test_orders_worked import by, on, only, world
from tests.support.acts import act
from tests.support.registers import record
from tests.support.rows import each_row

NEED = "needs: [{number: %s}]\n"


def round_(first: tuple[str, str], second: tuple[str, str]) -> Register:
    """One number for another, and back, each for some machines."""
    return world(("out", "p", "q", on(*first)), ("back", "q", "p", on(*second)))


def beside(first: tuple[str, str], second: tuple[str, str]) -> Register:
    """Two numbers of which each, to be replaced, needs the other as it was."""
    return world(
        ("a", "p", "p2", by("book", NEED % "q" + only(*first))),
        ("b", "q", "q2", by("book", NEED % "p" + only(*second))),
    )


MEET = [
    (("1", "10"), ("10", "20"), True),
    (("1", "10"), ("11", "20"), False),
    (("1", "[9, 12]"), ("11", "20"), True),
]


@pytest.mark.parametrize(("first", "second", "met"), MEET)
def test_a_circle_is_one_only_where_a_machine_may_meet_all_of_it(
    first: tuple[str, str], second: tuple[str, str], met: bool
) -> None:
    assert bool(cycles(round_(first, second))) is met
    assert bool(circles_of_needs(beside(first, second))) is met
    assert cycles(beside(first, second)) == ()


def test_needs_lead_round_by_what_they_need_and_by_what_is_given() -> None:
    """The first needs q, which is replaced by r, which is replaced by the start."""
    made = world(
        ("a", "p", "p2", by("book", NEED % "q")), ("b", "q", "r", by("book")), ("c", "r", "p", by("book"))
    )
    (circle,) = circles_of_needs(made)
    assert [(key.number, act.id) for key, act in circle] == [("p", "a"), ("q", "b"), ("r", "c")]
    assert cycles(made) == ()


def test_a_need_that_leads_nowhere_is_no_circle_and_neither_is_a_number_that_goes_with_nothing() -> None:
    made = world(
        ("a", "p", "p2", by("book", NEED % "q")),
        ("b", "p2", "p3", by("book", "needs: [{conversion: kit}]\n")),
    )
    assert circles_of_needs(made) == ()


def test_each_knot_is_told_once_in_the_order_of_its_numbers() -> None:
    made = world(
        ("z", "y", "z", by("book")),
        ("y", "z", "y", by("book")),
        ("a", "a", "b", by("book")),
        ("b", "b", "a", by("book")),
        ("on", "b", "y", by("book")),
    )
    assert [[act.id for _, act in circle] for circle in cycles(made)] == [["a", "b"], ["y", "z"]]


def test_where_no_machine_is_recorded_acts_for_all_are_looked_at_all_the_same() -> None:
    acts = (act("out", "p", "q"), act("back", "q", "p"))
    made = build([record(text, "supersession", id_) for text, id_ in zip(acts, ("out", "back"), strict=True)])
    assert len(cycles(made)) == 1


def test_of_too_many_sorts_of_machines_all_acts_are_told_as_if_together(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Numbers that were never issued stand between some: there are five sorts in two series."""
    made = round_(("1", "10"), ("11", "20"))
    monkeypatch.setattr(circles, "MOST_SORTS", 5)
    assert cycles(made) == ()
    monkeypatch.setattr(circles, "MOST_SORTS", 4)
    assert len(cycles(made)) == 1


OUT = ("out", "p", "q", by("book", "year: 1934\n"))


def brought(*more: tuple[str, str, str, str], limits: str = "", source: str = "letter") -> Register:
    """A number replaced in 1934 and brought back in 1937."""
    return world(OUT, ("back", "q", "p", by(source, f"year: 1937\n{limits}")), *more)


def test_what_was_brought_back_is_no_circle() -> None:
    assert cycles(brought()) == ()


def test_brought_back_for_some_machines_it_is_none_for_those_and_for_no_others() -> None:
    """For the machines before 50 the act that brings it back does not apply, and nothing leads round."""
    assert cycles(brought(limits=only("50", "open"))) == ()


HERE = only("50", "60")


def led_round(limits: str, *more: tuple[str, str, str, str]) -> int:
    """Circles of p to q, of 1934, and back in no known year, on XA 50 to 60.

    In 1937 p came in the place of s, which q had led to.
    """
    made = world(
        ("out", "p", "q", by("book", "year: 1934\n" + HERE)),
        ("round", "q", "p", by("book", HERE)),
        ("on", "q", "s", by("book", HERE)),
        ("back", "s", "p", by("letter", f"year: 1937\n{limits}")),
        *more,
    )
    return len(cycles(made))


@each_row(
    ("limits", "circles_there"),
    [
        ("", 0),
        (only("50", "open"), 0),
        (only("[50, 60]", "open"), 1),
        (only("55", "open"), 1),
        (only("61", "open"), 1),
        (only("[1, 50]", "open"), 0),
        (only("[1, 51]", "open"), 1),
    ],
)
def test_what_surely_brought_a_number_back_opens_a_circle(limits: str, circles_there: int) -> None:
    assert led_round(limits) == circles_there


def test_one_that_others_dispute_may_not_have_brought_it_back() -> None:
    assert led_round("", ("other", "s", "t", by("letter"))) == 0
    assert led_round("", ("other", "s", "t", by("book"))) == 1


def test_of_too_many_that_may_have_brought_numbers_back_none_is_taken_to_have(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    unsure = brought(limits=only("[50, 60]", "open"))
    assert cycles(unsure) == ()
    monkeypatch.setattr(circles, "MOST_UNSURE", 1)
    assert cycles(unsure) == ()
    monkeypatch.setattr(circles, "MOST_UNSURE", 0)
    assert len(cycles(unsure)) == 1


def test_what_may_have_brought_a_number_back_may_itself_lead_round() -> None:
    """Of p nothing else is past than that it is replaced by q; the circle goes by what came since."""
    made = world(
        ("out", "p", "q", by("book", "year: 1934\n")),
        ("on", "p", "x", by("book")),
        ("then", "x", "s", by("book")),
        ("back", "s", "p", by("letter", "year: 1937\n" + only("[50, 60]", "open"))),
    )
    ((*circle,),) = cycles(made)
    assert {act.id for _, act in circle} == {"on", "then", "back"}
