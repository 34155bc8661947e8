"""What is found for a query, in words."""

from __future__ import annotations

import pytest

from spanbook.answers.answers import Answers
from spanbook.answers.by_words import Document
from spanbook.answers.listed import listed
from spanbook.answers.readings import read_serial
from spanbook.answers.search import Asker
from spanbook.register.model import Register
from spanbook.wording.search import (
    document_words,
    match_words,
    never_words,
    nothing_words,
    suggestions,
)
from tests.support.registers import lid, record, register

DATED = """\
kind: machine
id: y
title: Y
maker: Example Works
series:
- {id: ya, stamped: "YA {number}", plate: machine, first: 1, last: 9, skipped: [[4, 6]], years: {1931: 3}}
"""
FLAP = """\
kind: assembly
id: flap
title: Flap
number: "11-9"
position: cover
serials: [{series: xa, first: 1, last: 4}]
parts: [{number: "11-2", name: Hinge}]
"""
MARKED = '{kind: part, id: hinge, number: "11-2", name: Hinge, marks: [{text: CASTLE}]}\n'


@pytest.fixture(scope="module")
def made() -> Register:
    return register(
        record(DATED, "machine", "y"), record(FLAP, "assembly", "flap"), record(MARKED, "part", "hinge")
    )


def test_a_number_never_issued_says_which_are_nearest(made: Register) -> None:
    (reading,) = read_serial(made, "YA 5")
    assert never_words(made, reading) == "YA 5, Y: never issued; the nearest are YA 1 to YA 3."


@pytest.mark.parametrize(
    ("query", "said"),
    [
        ("11-2", "11-2, Hinge, of Example Works; exact. Goes in: Flap."),
        ("112", "11-2, Hinge, of Example Works; spacing. Goes in: Flap."),
        ("11-9", "11-9, Flap, of Example Works; exact. It is the number of the whole: Flap."),
        ("castle", "11-2 (mark CASTLE), Hinge, of Example Works; exact. Goes in: Flap."),
    ],
)
def test_a_part_number_says_whose_it_is_and_where_it_goes(made: Register, query: str, said: str) -> None:
    assert told(made, query) == said


def test_a_number_that_goes_nowhere_says_so() -> None:
    made = register(record(MARKED, "part", "hinge"), lid("a", "first: 1, last: 4"))
    assert told(made, "11-2").endswith("Goes in: nothing recorded.")


REPLACED = """\
kind: supersession
id: %s
old: [{number: "%s"}]
new: [{number: "%s"}]
"""


def test_a_number_that_no_list_has_goes_where_those_go_that_it_replaces() -> None:
    acts = [("one", "11-2", "11-3"), ("two", "11-3", "11-4")]
    said = [record(REPLACED % act, "supersession", act[0]) for act in acts]
    made = register(record(FLAP, "assembly", "flap"), record(MARKED, "part", "hinge"), *said)
    assert told(made, "11-4").endswith("Goes in: Flap (in place of 11-2).")
    assert told(made, "11-2").endswith("Goes in: Flap.")


def told(made: Register, query: str) -> str:
    asker = Asker(Answers(made), ())
    match = asker.matches(query)[0]
    return match_words(made, query, match, listed(asker.answers.ever, match.key.part.key))


def test_a_page() -> None:
    assert document_words(Document("a/", "A", "Guide", "", "")) == "A (Guide): a/"


def test_what_to_try_when_nothing_was_found(made: Register) -> None:
    page = Document("guides/sump/", "The sump", "Guide", "The sump", "")
    asker = Asker(Answers(made), [page])
    stamped = "the letters and digits as stamped, with ? for one that cannot be read"
    assert suggestions(asker, "nowhere") == (stamped,)
    assert suggestions(asker, "nowhere sump") == (stamped, "“sump” alone")
    assert nothing_words(asker, "nowhere sump") == (
        f"Nothing found for “nowhere sump”. Try {stamped}; “sump” alone."
    )
