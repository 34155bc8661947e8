"""What to order, in words: small acts made by hand, each sentence as a reader meets it."""

from __future__ import annotations

import pytest

from spanbook.answers.applicability import Fits
from spanbook.answers.instead import would_do
from spanbook.answers.orders import orders
from spanbook.answers.readings import read_serial
from spanbook.answers.standing import standings
from spanbook.answers.supersession import order_now, steps_of
from spanbook.ground.language import speaking
from spanbook.register.model import Register
from spanbook.wording.instead import hop_title
from spanbook.wording.orders import dropped_words, gives_words, order_words, step_words, terms
from spanbook.wording.records import act_title
from tests.support.acts import key, of


def ordered(register: Register, number: str, quantity: int = 1) -> str:
    return order_words(register, orders(register, key(number), quantity), key(number))


UNKNOWN = " Whether they are supplied is not known."
NOBODY = "Nobody has replaced it: order it under its own number; whether it is supplied is not known."
SPLIT = of(("split", "a", "b 2, c"))


@pytest.mark.parametrize(
    ("register", "number", "said"),
    [
        (
            SPLIT,
            "b",
            "Nobody has replaced it: order it under its own number; whether it is supplied is not known.",
        ),
        (of(("end", "a", "")), "a", "It is no longer supplied, and nothing replaces it."),
        (SPLIT, "a", f"Order 2 × b and c.{UNKNOWN}"),
        (
            of(("one", "a", "b"), ("two", "a", "c 3")),
            "a",
            "Order b; or 3 × c. Whether they are supplied is not known.",
        ),
        (of(("on", "a", "b"), ("end", "b", "")), "a", "Order b (no longer supplied)."),
    ],
)
def test_what_to_order_in_a_sentence(register: Register, number: str, said: str) -> None:
    assert ordered(register, number) == said


def test_more_ways_than_are_listed_are_told_of() -> None:
    many = of(*((f"x{i}", "a", f"n{i}") for i in range(45)))
    assert ordered(many, "a").endswith(" There are more ways than these.")


def told(register: Register, number: str, quantity: int = 1, serial: str | None = None) -> list[str]:
    reading = read_serial(register, serial)[0] if serial else None
    (step,) = (step for _, step in steps_of(order_now(register, key(number), quantity, reading)))
    return list(terms(register, step))


def test_the_terms_of_an_act() -> None:
    pair = of(("pair", "a 2, b", "c", "interchange: both\nneeds: [{number: d, quantity: 2}]\n"))
    assert told(pair, "a", 3) == [
        "replaces it together with 2 × b",
        "1 of the old number to spare",
        "needs 4 × d with it",
        "the old may also serve for the new",
    ]
    limited = of(("some", "a", "b", "serials: [{series: xa, first: [3, 5], last: 7}]\n"))
    assert told(limited, "a", serial="XA 4") == [
        "may apply to this machine: its number is in the uncertain part",
        "only from somewhere between XA 3 and XA 5 to XA 7",
    ]


def test_an_act_that_does_not_apply_says_why() -> None:
    limited = of(("some", "a", "b", "serials: [{series: xa, first: 3, last: 7}]\n"))
    (dropped,) = order_now(limited, key("a"), 1, read_serial(limited, "XA 2")[0]).dropped
    assert dropped_words(dropped) == "some does not apply: it is limited to other machines."


def test_an_act_in_a_line_names_whose_word_it_is() -> None:
    ((_, step),) = steps_of(order_now(SPLIT, key("a")))
    (judged,) = standings(Fits(SPLIT), SPLIT.statements_of[step.act]).values()
    assert step_words(SPLIT, step, judged) == (
        "a replaced by 2 × b and c: 2 × b and c. On the word of no evidence named."
    )


def test_a_branch_that_ends_says_how() -> None:
    circle = of(("there", "a", "b"), ("back", "b", "a"))
    gives = [gives_words(circle, step) for _, step in steps_of(order_now(circle, key("a")))]
    assert gives == ["b", "a (leads back to itself)"]


def test_an_act_gone_back_over_is_told_so() -> None:
    both = of(("act", "a", "b", "interchange: both\n"))
    (forward,), (back,) = (would_do(both, key(number)).each for number in "ab")
    assert [hop_title(one.path[0]) for one in (forward, back)] == ["a replaced by b", "a replaced by b, back"]


def test_an_act_is_named_by_its_numbers() -> None:
    titles = [act_title(act) for act in of(("end", "a 2, b", ""), ("on", "a", "b 2")).supersessions.values()]
    assert titles == ["2 × a and b no longer supplied", "a replaced by 2 × b"]


def test_what_to_order_is_told_in_another_language() -> None:
    with speaking("de"):
        assert ordered(SPLIT, "a") == "Zu bestellen: 2 × b und c. Ob sie lieferbar sind, ist nicht bekannt."
        assert ordered(of(("end", "a", "")), "a") == "Nicht mehr lieferbar, und nichts ersetzt es."
        assert ordered(of(("one", "a", "b"), ("two", "a", "c 3")), "a") == (
            "Zu bestellen: b; oder 3 × c. Ob sie lieferbar sind, ist nicht bekannt."
        )
        assert ordered(SPLIT, "b") == (
            "Niemand hat es ersetzt: unter der eigenen Nummer bestellen; ob lieferbar, ist nicht bekannt."
        )
