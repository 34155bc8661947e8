"""Which acts speak against which, and how well each is supported, in small registers made by hand."""

from __future__ import annotations

import pytest

from spanbook.answers.act_claims import Claims, Support
from spanbook.register.model import Register
from tests.support.acts import act
from tests.support.registers import record, register
from tests.support.rows import each_row

SOURCES = {"book": "parts-book", "letter": "service-letter", "fitter": "recollection"}
SEEN = (
    "kind: teardown\nid: seen\ndate: 2024\nseen-by: m\nserial: XA 3\nseries: xa\ncondition: untouched\n"
    "found: [{position: cover, note: A lid}]\n"
)


def world(*acts: tuple[str, str, str, str]) -> Register:
    sources = [
        record(f"kind: source\nid: {id_}\ntitle: The {id_}\nclass: {sort}\n", "source", id_)
        for id_, sort in SOURCES.items()
    ]
    made = [record(act(*one), "supersession", one[0]) for one in acts]
    return register(*sources, record(SEEN, "teardown", "seen"), *made, last="100")


def limited(source: str, series: str, first: int, last: int) -> str:
    return (
        f"evidence: [{{source: {source}}}]\nserials: [{{series: {series}, first: {first}, last: {last}}}]\n"
    )


@pytest.mark.parametrize(
    ("series", "first", "last", "against"),
    [("xa", 50, 100, True), ("xa", 51, 100, False), ("xb", 15, 40, False), ("xa", 1, 50, True)],
)
def test_acts_for_some_machines_speak_against_one_another_where_those_meet(
    series: str, first: int, last: int, against: bool
) -> None:
    one = ("one", "p1", "p2", limited("book", "xa", 1, 50))
    made = world(one, ("other", "p1", "p3", limited("letter", series, first, last)))
    claims = Claims(made)
    mine, theirs = made.supersessions["one"], made.supersessions["other"]
    assert claims.against(mine) == ({theirs} if against else set())
    assert claims.against(theirs) == ({mine} if against else set())


def test_an_act_for_every_machine_speaks_against_one_for_some() -> None:
    made = world(
        ("one", "p1", "p2", "evidence: [{source: book}]\n"),
        ("other", "p1", "p3", limited("letter", "xa", 1, 5)),
    )
    claims = Claims(made)
    mine, theirs = made.supersessions["one"], made.supersessions["other"]
    assert claims.against(mine) == {theirs}
    assert claims.against(theirs) == {mine}


@each_row(
    ("evidence", "support"),
    [
        ("", Support.NOTHING),
        ("{source: book, against: true, note: No}", Support.NOTHING),
        ("{source: fitter}", Support.RECALLED),
        ("{source: fitter}, {source: book, against: true, note: No}", Support.RECALLED),
        ("{source: fitter}, {source: letter}", Support.SHOWN),
        ("{source: book}", Support.SHOWN),
        ("{teardown: seen}", Support.SHOWN),
        ("{source: fitter}, {teardown: seen}", Support.SHOWN),
        ("{source: no-such-book}", Support.SHOWN),
    ],
)
def test_the_best_that_an_act_names_supports_it(evidence: str, support: Support) -> None:
    made = world(("one", "p1", "p2", f"evidence: [{evidence}]\n" if evidence else ""))
    assert Claims(made).support(made.supersessions["one"]) is support
