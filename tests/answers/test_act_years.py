"""Numbers withdrawn and brought back, worked by hand; what was ordered when."""

from __future__ import annotations

import pytest

from spanbook.answers.act_years import ActYears, Made
from spanbook.answers.answers import Answers
from spanbook.answers.instead import Fate, would_do
from spanbook.answers.orders import orders
from spanbook.answers.standing import Standing
from spanbook.answers.then import MOST_YEARS, then
from spanbook.register.model import Register
from spanbook.wording.orders import order_words, then_words, years_of
from tests.answers.test_orders_worked import by, form, only, text, world
from tests.support.acts import key, shown
from tests.support.registers import record
from tests.support.rows import each_row


def of(*acts: tuple[str, str, str, str]) -> Register:
    return world(*acts)


def in_(made: Register, number: str, year: int | None) -> str:
    return order_words(made, orders(made, key(number), year=year), key(number))


UNDATED = of(("a", "p", "q", by("book")), ("b", "q", "r", by("book", "year: 1934\n")))
BACK = of(
    ("out", "p", "q", by("book", "year: 1934\n")),
    ("back", "q", "p", by("letter", "year: 1937\n")),
)


@each_row(
    ("number", "year", "said"),
    [
        (
            "p",
            None,
            "It was withdrawn, and brought back in 1937: order it under its own number; whether it is ",
        ),
        ("q", None, "Order p."),
        ("p", 1933, "As in 1933: order p itself."),
        ("p", 1934, "As in 1934: order q."),
        ("p", 1936, "As in 1936: order q."),
        ("p", 1937, "As in 1937: order p itself."),
        (
            "q",
            1933,
            "As in 1933: order q itself. It is first named in 1934: whether it was there before is not",
        ),
        ("q", 1936, "As in 1936: order q itself."),
        ("q", 1937, "As in 1937: order p."),
    ],
)
def test_withdrawn_and_brought_back(number: str, year: int | None, said: str) -> None:
    assert in_(BACK, number, year).startswith(said)


def test_the_act_that_is_past_is_told_with_what_made_it_so() -> None:
    told = text(BACK, "p")
    assert "out is past: the number was brought back in 1937 by back." in told
    assert "q replaced by p: brought back." in told
    tree = form(BACK, "p")["tree"]
    assert tree["dropped"] == [{"act": "out", "why": "brought back since", "back": "back"}]
    assert text(BACK, "q").count("  q replaced by p:") == 1


def test_to_and_fro() -> None:
    made = of(
        ("a", "p", "q", by("book", "year: 1931\n")),
        ("b", "q", "p", by("book", "year: 1933\n")),
        ("c", "p", "q", by("book", "year: 1935\n")),
    )
    sent = [shown(orders(made, key("p"), year=year)) for year in (1930, 1931, 1933, 1935)]
    assert sent == [["1 p"], ["1 q"], ["1 p"], ["1 q"]]
    assert shown(orders(made, key("p"))) == ["1 q"]


def test_given_up_and_supplied_again() -> None:
    made = of(
        ("gone", "p", "", by("book", "year: 1934\n")),
        ("again", "p", "", by("letter", "again: true\nyear: 1936\n")),
    )
    assert in_(made, "p", 1935) == "As in 1935: it is no longer supplied, and nothing replaces it."
    assert in_(made, "p", None).startswith("It was withdrawn, and brought back in 1936: order it")
    assert Answers(made).standing(made.supersessions["gone"]).standing is Standing.PRINTED
    last = of(
        ("gone", "p", "", by("book", "year: 1934\n")),
        ("again", "p", "", by("letter", "again: true\nyear: 1936\n")),
        ("end", "p", "", by("letter", "year: 1940\n")),
    )
    assert in_(last, "p", None).startswith("It is no longer supplied")


def test_what_was_said_before_and_since_are_no_claims_against_one_another() -> None:
    made = of(
        ("a", "p", "q", by("book", "year: 1931\n")),
        ("b", "q", "p", by("book", "year: 1933\n")),
        ("c", "p", "r", by("letter", "year: 1935\n")),
    )
    assert in_(made, "p", None) == "Order r. Whether it is supplied is not known."
    assert Answers(made).standing(made.supersessions["a"]).standing is Standing.PRINTED


def test_that_a_number_was_still_current_bears_on_the_years_before() -> None:
    made = of(
        ("out", "p", "q", by("book", "year: 1934\n")),
        ("still", "p", "", by("letter", "current: true\nyear: 1938\n")),
    )
    for year in (1933, 1936, None):
        assert ["1 p"] in [[leaf] for leaf in shown(orders(made, key("p"), year=year))]
    assert in_(made, "p", 1936).startswith("As in 1936: sources differ, and nothing is picked: ")


def test_what_would_do_in_a_year() -> None:
    found = {
        year: [
            (one.keys[0].number, one.ways[0].condition.made)
            for one in would_do(UNDATED, key("p"), year=year).each
        ]
        for year in (None, 1930, 1934)
    }
    assert found[None] == [("q", ()), ("r", ())]
    assert found[1930] == [("q", ("a",))]
    assert found[1934] == [("q", ("a",)), ("r", ("a",))]


def test_given_up_after_it_was_brought_back() -> None:
    """The act that replaced it before has no say any more."""
    made = of(
        ("out", "p", "q", by("book", "year: 1934\n")),
        ("back", "q", "p", by("book", "year: 1937\n")),
        ("end", "p", "", by("book", "year: 1940\n")),
    )
    assert in_(made, "p", None).startswith("It is no longer supplied")
    assert in_(made, "p", 1938) == "As in 1938: order p itself."


def test_an_act_of_no_year_was_done_for_all_its_numbers_or_for_none() -> None:
    made = of(("on", "t", "p, s", by("book", "year: 1930\n")), ("both", "p, s", "r", by("book")))
    assert sorted(shown(orders(made, key("t"), year=1932))) == ["1 p, 1 s", "2 r"]


def test_a_way_by_an_act_of_no_year_hides_none_that_is_sure() -> None:
    made = of(
        ("short", "p", "q", by("book")),
        ("one", "p", "x", by("book", "year: 1931\n")),
        ("two", "x", "q", by("book", "year: 1931\n")),
    )
    (found,) = (one for one in would_do(made, key("p"), year=1932).each if one.keys == (key("q"),))
    assert [(len(way.hops), str(way.condition.applies)) for way in found.ways] == [(1, "maybe"), (2, "yes")]


def test_what_would_do_then_says_nothing_of_its_supply_today() -> None:
    part = "kind: part\nid: q\nnumber: q\nby: example-works\nname: Q\nsupplied: yes\n"
    made = world(("a", "p", "q", by("book", "year: 1934\n")), more=(record(part, "part", "q"),))
    for year, fate in ((None, Fate.SUPPLIED), (1936, Fate.UNKNOWN)):
        assert would_do(made, key("p"), year=year).each[0].fates == ((fate,),)


def test_who_disputes_that_it_came_back_is_heard() -> None:
    made = of(
        ("out", "p", "q", by("book", "year: 1934\n")),
        ("back", "q", "p", by("book", "year: 1937\n")),
        ("on", "q", "r", by("letter", "year: 1936\n")),
    )
    assert in_(made, "p", None).startswith("Sources differ, and nothing is picked: order")
    assert sorted(shown(orders(made, key("p")))) == ["1 p", "1 r"]


def test_brought_back_for_some_machines() -> None:
    made = of(
        ("out", "p", "q", by("book", "year: 1934\n")),
        ("back", "q", "p", by("letter", "year: 1937\n" + only("50", "open"))),
    )
    assert in_(made, "p", None).startswith("On XA 50 to XA 100: order p itself; on other machines: order q.")


def test_no_later_than_the_earliest_source_that_is_named() -> None:
    book = record("kind: source\nid: old\ntitle: Old\nclass: parts-book\nyear: 1933\n", "source", "old")
    acts = (("out", "p", "q", by("old")), ("back", "q", "p", by("letter", "year: 1937\n")))
    made = world(*acts, more=(book,))
    assert ActYears(made).made(made.supersessions["out"]) == Made(None, 1933)
    assert shown(orders(made, key("p"))) == ["1 p"]
    assert in_(made, "p", 1932) == (
        "As in 1932: if out had been done by then (its year is not sure): order q; if out had not been done "
        "by then (its year is not sure): order p itself."
    )


def test_one_that_is_against_an_act_does_not_date_it() -> None:
    book = record("kind: source\nid: old\ntitle: Old\nclass: parts-book\nyear: 1933\n", "source", "old")
    made = world(("out", "p", "q", "evidence: [{source: old, against: true}]\n"), more=(book,))
    assert ActYears(made).made(made.supersessions["out"]) == Made(None, None)


@pytest.mark.parametrize("round_", [(), (("to-fro", "q", "p", by("book", "year: 1930\n")),)])
def test_an_act_from_a_number_to_which_none_lead_brings_nothing_back(
    round_: tuple[tuple[str, str, str, str], ...],
) -> None:
    """Whether acts lead round elsewhere or not."""
    made = of(
        ("out", "p", "q", by("book", "year: 1934\n")), ("new", "x", "p", by("book", "year: 1937\n")), *round_
    )
    assert ActYears(made).returns(key("p")) == ()


def test_a_source_dates_an_act_to_the_first_of_the_years_that_it_may_mean() -> None:
    book = record("kind: source\nid: old\ntitle: Old\nclass: parts-book\nyear: 1934\n", "source", "old")
    made = world(("out", "p", "q", by("old", "year: [1934, 1936]\n")), more=(book,))
    assert ActYears(made).made(made.supersessions["out"]) == Made(1934, 1934)


def test_a_source_that_is_not_recorded_dates_nothing() -> None:
    made = world(("out", "p", "q", by("nowhere")))
    assert ActYears(made).made(made.supersessions["out"]) == Made(None, None)


def test_years_that_do_not_tell_leave_the_circle() -> None:
    for year in ("", "year: 1937\n"):
        made = of(("out", "p", "q", by("book", "year: 1937\n")), ("back", "q", "p", by("letter", year)))
        assert ActYears(made).returns(key("p")) == ()


def test_of_an_act_on_its_own_number_nothing_comes_back() -> None:
    """Two of one are replaced by one of the same: a mistake that another rule tells."""
    made = of(("out", "p", "q", by("book", "year: 1934\n")), ("odd", "q, p", "p", by("book", "year: 1937\n")))
    assert ActYears(made).returns(key("p")) == ()


def test_what_was_ordered_when() -> None:
    rows = then(BACK, ActYears(BACK), key("p"))
    told = [(years_of(row.first, row.last), then_words(BACK, row.orders, key("p"))) for row in rows]
    assert told == [
        ("to 1933", "order p itself"),
        ("1934 to 1936", "order q"),
        ("from 1937", "order p itself"),
    ]
    assert then(BACK, ActYears(BACK), key("never-heard-of")) == ()


def test_of_too_many_years_none_are_told() -> None:
    acts = [
        (f"a{year}", *(("p", "q"), ("q", "p"))[year % 2], by("book", f"year: {year}\n"))
        for year in range(1920, 1921 + MOST_YEARS)
    ]
    assert then(of(*acts), ActYears(of(*acts)), key("p")) == ()
    fewer = of(*acts[:-1])
    assert len(then(fewer, ActYears(fewer), key("p"))) == MOST_YEARS + 1
