"""What an order rests on, said with it: by hand."""

from __future__ import annotations

from spanbook.answers.orders import orders
from spanbook.answers.standing import Standing
from spanbook.reading.records import Supersession
from spanbook.wording.order_here import answer_words
from tests.support.acts import act, key
from tests.support.registers import record, register
from tests.support.rows import each_row

WHOLE = "It rests on recollections, and on nothing printed or seen."
PART = "A part of it rests on recollections, and on nothing printed or seen."


@each_row(
    ("first", "then", "told"),
    [
        (Standing.PRINTED, Standing.CONFIRMED, ""),
        (Standing.RECALLED, Standing.RECALLED, f" {WHOLE}"),
        (Standing.PRINTED, Standing.RECALLED, f" {PART}"),
        (Standing.UNSUPPORTED, Standing.UNSUPPORTED, " Nobody has named evidence for it."),
        (Standing.UNSUPPORTED, Standing.SEEN, " For a part of it nobody has named evidence."),
        (Standing.DISPUTED, Standing.DISPUTED, " It is disputed."),
        (Standing.RECALLED, Standing.DISPUTED, " A part of it is disputed."),
    ],
)
def test_an_order_says_what_little_it_rests_on(first: Standing, then: Standing, told: str) -> None:
    made = register(
        record(act("x", "a", "b"), "supersession", "x"), record(act("y", "b", "c"), "supersession", "y")
    )
    by = {"x": first, "y": then}

    def judged(one: Supersession) -> Standing:
        return by[one.id]

    said = answer_words(made, orders(made, key("a")), key("a"), judged)
    assert said == f"Order c. Whether it is supplied is not known.{told}"
    # Of the last number no act says anything.
    assert answer_words(made, orders(made, key("c")), key("c"), judged).startswith("Nobody has replaced it")


def test_a_part_is_weak_where_only_some_machines_go_by_a_recollection() -> None:
    limited = record(act("x", "a", "b", "serials: [{series: xa, first: 1, last: 5}]\n"), "supersession", "x")
    made = register(limited)
    said = answer_words(made, orders(made, key("a")), key("a"), lambda _: Standing.RECALLED)
    assert said.endswith(f"{PART}")
