"""A find that may be one of several is weighed as that: against only what none of them can be."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.answers.applicability import Fits
from spanbook.answers.assumed import Assumed
from spanbook.answers.breaks import breaks_at
from spanbook.answers.meaning import Means, meaning
from spanbook.answers.one_of import each, together
from spanbook.answers.readings import reading_of
from spanbook.answers.reasons import Had, Weight
from spanbook.answers.standing import Judge, Standing
from spanbook.reading.records import Record
from spanbook.register.model import Register
from tests.support.registers import lid, record, register

BOOK = record("kind: source\nid: book\ntitle: The book\nclass: parts-book\n", "source", "book")


def seen(serial: int, held: str, condition: str = "untouched") -> Record:
    id_ = f"x-{serial}-osk"
    head = f"kind: teardown\nid: {id_}\ndate: 2026-01-02\nseen-by: osk\nserial: XA {serial}\nseries: xa\n"
    found = f"condition: {condition}\nfound:\n- {{position: cover, {held}}}\n"
    return record(head + found, "teardown", id_)


def world(*looks: Record) -> Register:
    spans = {"a": "first: 1, last: 7", "b": "first: 10, last: 13", "c": "first: 14, last: 20"}
    return register(BOOK, *(lid(id_, span, "{source: book}") for id_, span in spans.items()), *looks)


def standings(made: Register) -> dict[str, Standing]:
    judge = Judge(Fits(made))
    return {f.assembly.id: judge.of(made.said[f]).standing for f in made.fittings["xa", "cover"]}


@pytest.mark.parametrize(
    ("serial", "held", "told"),
    [
        (5, "one-of: [a, b]", {"a": "printed", "b": "printed", "c": "printed"}),
        (5, "assembly: b", {"a": "disputed", "b": "disputed", "c": "printed"}),
        (5, "one-of: [b, c]", {"a": "disputed", "b": "printed", "c": "printed"}),
        (15, "one-of: [a, b]", {"a": "printed", "b": "printed", "c": "disputed"}),
        (15, "one-of: [a, b, c]", {"a": "printed", "b": "printed", "c": "printed"}),
    ],
)
def test_it_contradicts_only_what_none_of_them_can_be(serial: int, held: str, told: dict[str, str]) -> None:
    assert standings(world(seen(serial, held))) == told


def test_against_what_it_speaks_it_says_one_of_which_it_was() -> None:
    made = world(seen(15, "one-of: [a, b]"))
    (fitting,) = (f for f in made.fittings["xa", "cover"] if f.assembly.id == "c")
    judged = Judge(Fits(made)).of(made.said[fitting])
    (reason,) = (r for r in judged.reasons if r.weight is Weight.AGAINST)
    assert isinstance(reason.shown, Had)
    assert [assembly.id for assembly in reason.shown.any_of] == ["a", "b"]


@given(st.sets(st.sampled_from("abc"), min_size=2), st.integers(1, 20).filter(lambda n: n not in (8, 9)))
def test_it_does_what_each_would_do_where_all_do_the_same(held: set[str], serial: int) -> None:
    """By the definition: of every statement the weight that each possibility has, or none."""
    made = world(seen(serial, f"one-of: [{', '.join(sorted(held))}]"))
    judge = Judge(Fits(made))
    find, reading = made.teardowns[f"x-{serial}-osk"].found[0], reading_of(made.series["xa"], serial)
    assert {one.assembly for one in each(find)} == held
    for fitting in made.fittings["xa", "cover"]:
        alone = {judge.bears_at(fitting, one, reading) for one in each(find)}
        assert judge.bears_at(fitting, find, reading) is (alone.pop() if len(alone) == 1 else None)


def test_explained_for_one_is_explained() -> None:
    assert together([Weight.EXPLAINED, Weight.AGAINST]) is Weight.EXPLAINED
    assert together([None, Weight.AGAINST]) is None
    assert together([Weight.SEEN, Weight.AGAINST]) is None


def test_a_break_counts_it_where_only_one_of_them_was_near() -> None:
    spans = {"a": "first: 1, last: [5, 9]", "b": "first: [6, 10], last: 15", "c": "first: 16, last: 20"}
    held = [lid(id_, span, "{source: book}") for id_, span in spans.items()]

    def found(look: str) -> int:
        made = register(BOOK, *held, seen(7, look))
        (one, *_) = breaks_at(Fits(made), "cover", made.series["xa"], Assumed().rates)
        return len(one.report.observations)

    assert found("one-of: [a, c]") == 1
    assert found("one-of: [a, b]") == 0


def test_what_it_means_is_the_least_that_any_would() -> None:
    made = world(seen(15, "one-of: [a, c]"), seen(5, "one-of: [b, c]"))
    judge = Judge(Fits(made))

    def means(serial: int) -> Means:
        find = made.teardowns[f"x-{serial}-osk"].found[0]
        return meaning(judge, find, reading_of(made.series["xa"], serial)).means

    assert means(15) is Means.AS_RECORDED
    assert means(5) is Means.CONTRADICTION
