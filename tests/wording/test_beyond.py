"""What is said of machines seen past the last number that is recorded."""

from __future__ import annotations

from spanbook.answers.answers import Answers
from spanbook.reading.records import Record
from spanbook.wording.beyond import beyond_line, beyond_words
from spanbook.wording.pieces import Ref, plain
from spanbook.wording.questions import question_words
from tests.answers.test_questions import seen
from tests.answers.test_shortfalls import BOOK, HAT, LID, assembly, kit
from tests.support.registers import register


def lines(page: str, *records: Record) -> list[str]:
    """The lines on a record's page, none of which leads to that page."""
    answers = Answers(register(BOOK, *records))
    here = next(r for r in answers.register.records if r.id == page)
    made = [beyond_line(one, here) for one in answers.beyond_of(here)]
    assert not [p for line in made for p in line if isinstance(p, Ref) and p.to is here]
    assert [plain(line) for line in made] == [beyond_words(one) for one in answers.beyond_of(here)]
    return [plain(line) for line in made]


def test_how_many_in_which_condition_and_that_nothing_explains_them() -> None:
    looks = seen("XA 15", "lid", "", "unknown"), seen("XA 18", "lid", "", "likely-original")
    assert lines("lid", LID, *looks) == [
        "The lid was seen on 2 machines past XA 12, the last number recorded for it: XA 15 (condition not "
        "known), XA 18 (likely original). No conversion explains them."
    ]
    assert lines("lid", LID, looks[1]) == [
        "The lid was seen on 1 machine past XA 12, the last number recorded for it: XA 18 (likely original). "
        "No conversion explains it."
    ]


def test_which_conversions_explain_it() -> None:
    mid = assembly("mid", "first: 18, last: 20")
    steps = kit("k", "lid", "mid", "first: 1, last: 5"), kit("l", "mid", "hat", "first: 1, last: 5")
    looks = seen("XA 4", "hat"), seen("XA 7", "hat", "", "altered")
    assert lines("hat", LID, HAT, mid, *steps, *looks) == [
        "The hat was seen on 2 machines before XA 13, the first number recorded for it: "
        "XA 4 (untouched, by k and l), XA 7 (altered)."
    ]


def test_past_the_last_of_a_letter() -> None:
    tin = assembly("tin", "first: 1, last: 20, fitted: field")
    letter = kit("k", "lid", "tin", "first: 2, last: 7")
    assert lines("k", LID, HAT, tin, letter, seen("XA 11", "tin")) == [
        "The tin was seen on 1 machine past XA 7, the last number that k is for: XA 11 (untouched)."
    ]


def test_a_question_tells_what_was_seen() -> None:
    answers = Answers(register(BOOK, LID, seen("XA 15", "lid")))
    (asked,) = [question_words(answers.register, q) for q in answers.questions if q.beyond]
    assert asked == (
        "Owners of XA 13 to XA 14: is your cover the lid? The lid was seen on 1 machine past XA 12, the last "
        "number recorded for it: XA 15 (untouched). No conversion explains it."
    )
