"""The picture of the acts around a number."""

from __future__ import annotations

from spanbook.site.acts_picture import Picture, picture
from tests.support.acts import key, of

EARLY = "serials: [{series: xa, first: 1, last: 7}]\n"
LATE = "serials: [{series: xa, first: 10, last: 20}]\n"


def drawn(*acts: tuple[str, str, str] | tuple[str, str, str, str]) -> Picture:
    made = picture(of(*acts), key("a"))
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
