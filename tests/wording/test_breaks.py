"""Where production changed, in words, in a series of twenty numbers."""

from __future__ import annotations

from fractions import Fraction

from spanbook.answers.applicability import Fits
from spanbook.answers.breaks import Break, NotCounted, breaks_at
from spanbook.answers.changepoint import EvenRun, Rates
from spanbook.reading.records import Record
from spanbook.wording.breaks import NOT_COUNTED, break_words, look_words, share_words, unused_words
from tests.support.registers import lid, record, register

ASSUMED = (
    "Assumed: of a hundred machines 10 were converted and 3 went back; of a hundred untouched ones 1 and 1."
)


def seen(serial: int, assembly: str, condition: str = "untouched") -> Record:
    text = (
        f"kind: teardown\nid: t{serial}\ndate: 2024\nseen-by: m\nserial: XA {serial}\nseries: xa\n"
        f"condition: {condition}\nfound: [{{position: cover, assembly: {assembly}}}]\n"
    )
    return record(text, "teardown", f"t{serial}")


def one(*teardowns: Record, rates: Rates | None = None) -> Break:
    early, late = lid("early", "first: 1, last: [4, 7]"), lid("late", "first: [5, 8], last: 20")
    made = register(early, late, *teardowns)
    (found,) = breaks_at(Fits(made), "cover", made.series["xa"], rates or Rates())
    return found


def test_what_is_only_printed_says_so() -> None:
    told = list(break_words(one()))
    assert told[0] == "No teardown bears on it yet: the printed bounds are all there is."
    assert told[1] == "With nine chances in ten the first late is XA 5 to XA 7."
    assert told[2] == "Most probable: XA 5 to XA 7."
    assert told[-1] == ASSUMED


def test_teardowns_are_counted() -> None:
    assert next(break_words(one(seen(5, "early")))) == "1 teardown bears on it."
    assert next(break_words(one(seen(5, "early"), seen(7, "late")))) == "2 teardowns bear on it."


def test_what_cannot_be_is_all_that_is_said() -> None:
    never = Rates(Fraction(0), Fraction(0), Fraction(0), Fraction(0))
    told = break_words(one(seen(5, "late"), seen(7, "early"), rates=never))
    assert list(told) == [
        "What was seen cannot all be true if no machine is ever changed: look again at these machines."
    ]


def test_the_picture_says_what_its_marks_are() -> None:
    found = one(seen(5, "early"))
    assert look_words(found.report.observations[0], found) == "XA 5 had the early"
    assert share_words(EvenRun(5, 6, Fraction(1, 4)), found.series) == "XA 5 to XA 6: 50.0 % in all"


def test_what_does_not_count_says_why() -> None:
    (unused,) = one(seen(5, "early", "altered")).unused
    assert unused_words(unused) == "XA 5: the machine was altered there"
    assert set(NOT_COUNTED) == set(NotCounted)
