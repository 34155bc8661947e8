"""What is asked of whom, and how much an answer is worth, worked out by hand on a small register."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from spanbook.answers.applicability import Fits
from spanbook.answers.breaks import all_breaks
from spanbook.answers.changepoint import Rates
from spanbook.answers.question_anchor import anchor
from spanbook.answers.questions import OPEN_SERIES, About, Question, questions
from spanbook.answers.standing import standings
from spanbook.ground.intervals import Span, SpanSet
from spanbook.reading.records import Record
from tests.support.registers import assembly, lid, record, register

BOOK = record("kind: source\nid: book\ntitle: Book\nclass: parts-book\n", "source", "book")
TALE = record("kind: source\nid: tale\ntitle: Tale\nclass: recollection\n", "source", "tale")
PRINTED = "{source: book}"
NEVER = Rates(*[Fraction(0)] * 4)


def seen(serial: str, held: str, more: str = "", condition: str = "untouched") -> Record:
    id_ = serial.lower().replace(" ", "-")
    text = f"kind: teardown\nid: {id_}\ndate: 2024\nseen-by: m\nserial: {serial}\nseries: xa\n"
    text += f"condition: {condition}\nfound:\n- {{position: cover, assembly: {held}{more}}}\n"
    return record(text, "teardown", id_)


def asked(*records: Record, last: str = "20", rates: Rates | None = None) -> list[Question]:
    """What is open at the cover of xa."""
    fits = Fits(register(BOOK, TALE, *records, last=last))
    found = questions(fits, standings(fits), all_breaks(fits, rates or Rates()))
    return [q for q in found if (q.position, q.series.id) == ("cover", "xa")]


def told(*records: Record, last: str = "20", rates: Rates | None = None) -> list[tuple[object, ...]]:
    return [
        (q.about, q.first, q.last, q.machines, q.unsure, [a.id for a in q.assemblies])
        for q in asked(*records, last=last, rates=rates)
    ]


def test_nothing_known_is_asked_of_every_machine() -> None:
    """Twenty numbers, of which 8 and 9 were never issued; nothing is left open where something is known."""
    lower = lid("low", "first: 1, last: 12", PRINTED)
    assert told(lower) == [
        (About.BLANK, 13, 20, 8, 1.0, ["low"]),
        (About.NEVER_SEEN, 1, 12, 10, 0.25, ["low"]),
    ]
    fits = Fits(register())
    assert [(q.series.id, q.position, q.first, q.last, q.worth) for q in questions(fits, {}, ())] == [
        ("xb", "cover", 15, 40, 26.0),
        ("xb", "drain", 15, 40, 26.0),
        ("xa", "cover", 1, 20, 18.0),
        ("xa", "drain", 1, 20, 18.0),
    ]


def test_numbers_that_were_never_issued_are_asked_of_nobody() -> None:
    """8 and 9 were never issued: they are no machines, and a run is told over them."""
    (asked_of,) = [q for q in asked(lid("low", "first: 1, last: 12", PRINTED)) if q.about is About.NEVER_SEEN]
    assert list(asked_of.numbers) == [Span(1, 7), Span(10, 12)]
    assert list(asked_of.runs) == [Span(1, 12)]
    apart = replace(asked_of, numbers=SpanSet.of([Span(1, 6), Span(10, 12)]))
    assert list(apart.runs) == [Span(1, 6), Span(10, 12)]
    assert (apart.first, apart.last, apart.machines) == (1, 12, 9)


def test_a_series_without_an_end_is_a_hundred_machines() -> None:
    early = lid("early", "first: 1, last: 12", PRINTED)
    assert told(early, last="unknown")[0] == (About.BLANK, 13, None, OPEN_SERIES, 1.0, ["early"])
    late = lid("late", "first: 13, last: open", PRINTED)
    assert told(early, late, last="unknown") == [
        (About.NEVER_SEEN, 13, None, OPEN_SERIES, 0.25, ["late"]),
        (About.NEVER_SEEN, 1, 12, 10, 0.25, ["early"]),
    ]


def test_only_the_positions_asked_for_have_their_blanks_told() -> None:
    drain = assembly("plug", "first: 1, last: 5", "drain")
    fits = Fits(register(lid("low", "first: 1, last: 12"), drain))
    for only in (("cover",), ("drain",), ("cover", "drain"), ()):
        blanks = [q for q in questions(fits, {}, (), only) if q.series.id == "xa"]
        assert {q.position for q in blanks} == set(only)
    assert {q.position for q in questions(fits, {}, ())} == {"cover", "drain"}


@pytest.mark.parametrize(
    ("evidence", "teardowns", "wanted"),
    [
        ("", [], (About.UNSUPPORTED, 0.5)),
        ("{source: tale}", [], None),  # recalled: asking for a book is no question for owners
        (PRINTED, [], (About.NEVER_SEEN, 0.25)),
        (PRINTED, [seen("XA 3", "only")], None),  # confirmed
        ("", [seen("XA 3", "only")], None),  # seen
        (PRINTED, [seen("XA 3", "other")], (About.DISPUTED, 0.5)),
    ],
)
def test_what_is_asked_of_a_span(
    evidence: str, teardowns: list[Record], wanted: tuple[About, float] | None
) -> None:
    other = lid("other", "first: 13, last: 20", PRINTED)
    found = asked(lid("only", "first: 1, last: 12", evidence), other, *teardowns)
    mine = [(q.about, q.unsure) for q in found if [a.id for a in q.assemblies] == ["only"]]
    assert mine == ([wanted] if wanted else [])
    for question in found:
        assert question.worth == question.machines * question.unsure


def test_a_break_is_asked_of_the_machines_where_it_may_be() -> None:
    """The break is from 5 to 8, of which 8 was never issued: three equal chances, two of them wrong."""
    early, late = (
        lid("early", "first: 1, last: [4, 7]", PRINTED),
        lid("late", "first: [5, 8], last: 20", PRINTED),
    )
    (about,) = [one for one in told(early, late) if one[0] is About.BREAK]
    assert about[:4] == (About.BREAK, 5, 7, 3)
    assert about[4] == pytest.approx(2 / 3)
    assert about[5] == ["early", "late"]


def test_a_break_that_is_settled_is_not_asked() -> None:
    early, late = lid("early", "first: 1, last: 5", PRINTED), lid("late", "first: 6, last: 20", PRINTED)
    assert not [one for one in told(early, late) if one[0] is About.BREAK]
    early, late = lid("early", "first: 1, last: [4, 6]"), lid("late", "first: [5, 7], last: 20")
    looks = seen("XA 5", "early"), seen("XA 6", "late")
    assert not [one for one in told(early, late, *looks, rates=NEVER) if one[0] is About.BREAK]


def test_a_contradiction_is_asked_over_the_whole_printed_range() -> None:
    """No machine is ever converted or robbed, and one before another has the later assembly."""
    early, late = lid("early", "first: 1, last: [3, 11]"), lid("late", "first: [4, 12], last: 20")
    looks = seen("XA 5", "late"), seen("XA 7", "early")
    found = [one for one in told(early, late, *looks, rates=NEVER) if one[0] is About.BREAK]
    assert found == [(About.BREAK, 4, 12, 7, 1.0, ["early", "late"])]


def test_part_numbers_are_asked_for_once_an_assembly_was_seen() -> None:
    def parts_of(
        *teardowns: Record, last: str = "12"
    ) -> list[tuple[int, int | None, int, float, tuple[str, ...]]]:
        text = "parts: [{number: P-1, name: A, quantity: 1}, {number: P-2, name: B, quantity: 1}]\n"
        made = record(
            "kind: assembly\nid: low\ntitle: Low\nposition: cover\nserials:\n"
            f"- {{series: xa, first: 1, last: {last}, evidence: [{PRINTED}]}}\n{text}",
            "assembly",
            "low",
        )
        other = lid("other", "first: 13, last: 20", PRINTED)
        found = asked(made, other, *teardowns, last="unknown" if last == "open" else "20")
        return [(q.first, q.last, q.machines, q.unsure, q.unread) for q in found if q.about is About.PARTS]

    assert parts_of() == []
    assert parts_of(seen("XA 15", "other")) == []
    assert parts_of(seen("XA 3", "low"), last="open") == [(1, None, OPEN_SERIES, 0.1, ("P-1", "P-2"))]
    assert parts_of(seen("XA 3", "low")) == [(1, 12, 10, 0.1, ("P-1", "P-2"))]
    one = ", parts: [{number: P-2}]"
    assert parts_of(seen("XA 3", "low", one)) == [(1, 12, 10, 0.1, ("P-1",))]
    assert parts_of(seen("XA 3", "low", one, "altered")) == [(1, 12, 10, 0.1, ("P-1",))]
    assert parts_of(seen("XA 3", "low", ", parts: [{number: P-1}, {number: P-2}]")) == []


def test_the_worthiest_comes_first_and_equals_by_number() -> None:
    early, late = lid("early", "first: 1, last: 4", PRINTED), lid("late", "first: 17, last: 20", PRINTED)
    found = asked(early, late)
    assert [(q.about, q.first, q.worth) for q in found] == [
        (About.BLANK, 5, pytest.approx(10.0)),  # 5 to 16, ten of them issued
        (
            About.BREAK,
            5,
            pytest.approx(10.0),
        ),  # eleven places for the first with the later, ten of them wrong
        (About.NEVER_SEEN, 1, 1.0),
        (About.NEVER_SEEN, 17, 1.0),
    ]


def test_the_place_of_a_question_on_its_page() -> None:
    made = lid("low", "first: 1, last: 12", PRINTED)
    assert [anchor(q) for q in asked(made)] == ["blank-xa-cover-13-low", "never-seen-xa-cover-1-low"]
    early, late = lid("early", "first: 1, last: [4, 7]"), lid("late", "first: [5, 8], last: 20")
    (about,) = [q for q in asked(early, late) if q.about is About.BREAK]
    assert anchor(about) == "break-xa-cover-5-early-late"
    three = [lid(f"a{i}", f"first: {i}, last: {i}", PRINTED) for i in (1, 2, 3)]
    assert "blank-xa-cover-4-a1-a2" in [anchor(q) for q in asked(*three)]  # long enough to be its own
