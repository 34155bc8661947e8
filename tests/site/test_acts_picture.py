"""The picture of the acts around a number."""

from __future__ import annotations

from spanbook.answers.act_years import ActYears
from spanbook.site.acts_picture import Picture, picture
from tests.support.acts import key, of

EARLY = "serials: [{series: xa, first: 1, last: 7}]\n"
LATE = "serials: [{series: xa, first: 10, last: 20}]\n"


def drawn(*acts: tuple[str, str, str] | tuple[str, str, str, str]) -> Picture:
    register = of(*acts)
    made = picture(register, ActYears(register), key("a"))
    assert made
    return made


def test_acts_that_lead_back_for_other_machines_are_drawn() -> None:
    made = drawn(("there", "a", "b", EARLY), ("back", "b", "a", LATE))
    assert [box.link.text for box in made.boxes] == ["a", "b"]
    assert [dot.limited for dot in made.dots] == [True, True]
    assert len(made.lines) == 4


def test_a_number_is_marked_as_given_up_for_whom_it_is() -> None:
    gone, some, still, on = (
        ("gone", "a", ""),
        ("some", "a", "", EARLY),
        ("still", "a", "", "current: true\n"),
        ("on", "a", "b"),
    )
    assert {box.ended for box in drawn(gone).boxes} == {"no longer supplied"}
    assert {box.ended for box in drawn(some).boxes} == {"no longer supplied for some machines"}
    assert {box.ended for box in drawn(still, on).boxes} == {""}


def test_a_number_that_came_back_stands_there_again() -> None:
    made = drawn(
        ("out", "a", "b", "year: 1934\n"),
        ("back", "b", "a", "year: 1937\n"),
        ("on", "a", "c", "year: 1939\n"),
    )
    row = sorted(made.boxes, key=lambda box: box.x)
    assert [box.link.text for box in row] == ["a", "b", "a", "c"]
    assert [box.this for box in row] == [True, False, True, False]
    assert [dot.link.text for dot in sorted(made.dots, key=lambda dot: dot.x)] == ["out", "back", "on"]
    assert all(line.x1 < line.x2 for line in made.lines)
    assert all(box.x + 126 < made.width for box in made.boxes)


def test_a_number_supplied_again_stands_there_again() -> None:
    made = drawn(("gone", "a", "", "year: 1934\n"), ("again", "a", "", "again: true\nyear: 1937\n"))
    first, last = sorted(made.boxes, key=lambda box: box.x)
    assert (first.link.text, first.ended, last.link.text, last.ended) == ("a", "no longer supplied", "a", "")


def test_what_must_go_with_it_is_drawn_and_told_apart_from_what_is_given() -> None:
    made = drawn(("on", "a", "b", "needs: [{number: n, quantity: 2, why: It is shorter}]\n"))
    assert [box.link.text for box in made.boxes] == ["a", "b", "n"]
    assert sorted((line.label, line.beside) for line in made.lines) == [
        ("", False),
        ("", False),
        ("with it ×2", True),
    ]


def test_what_goes_with_another_shows_the_acts_that_need_it() -> None:
    register = of(("on", "b", "c", "needs: [{number: a, quantity: 1, why: It is shorter}]\n"))
    made = picture(register, ActYears(register), key("a"))
    assert made
    assert [box.link.text for box in made.boxes] == ["a", "b", "c"]
    assert [line.label for line in made.lines if line.beside] == ["with it"]
