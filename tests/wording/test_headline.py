"""The few lines that a maintainer decides on, in words: small registers side by side."""

from __future__ import annotations

import pytest

from spanbook.reading.records import Record
from spanbook.wording.headline import MOST, below, headline, in_short, whole
from tests.support.acts import act
from tests.support.comparisons import SOURCES, compared, seen
from tests.support.registers import lid, record, register

BOOK, LETTER = "{source: book, at: p. 3}", "{source: letter}"
EARLY = lid("early", "first: 1, last: [10, 13]", BOOK)
LATE = lid("late", "first: [11, 14], last: 20", BOOK)


def short(old: tuple[Record, ...], new: tuple[Record, ...]) -> tuple[str, ...]:
    return in_short(compared(register(*SOURCES, *old), register(*SOURCES, *new)))


def test_who_saw_what_and_what_is_recorded_on_whose_word() -> None:
    assert short((EARLY, LATE), (EARLY, LATE, seen(18, "early"))) == (
        "contradicts: osk saw the early on XA 18 (untouched); recorded the late, by The book, p. 3",
    )
    # Where nothing else is recorded, the span that does not reach there is.
    assert short((EARLY,), (EARLY, seen(18, "early"))) == (
        "contradicts: osk saw the early on XA 18 (untouched); recorded the early only from XA 1 to somewhere "
        "between XA 10 and XA 13, by The book, p. 3",
    )


def test_what_is_named_against_is_told_with_its_note_and_not_as_a_word_for_it() -> None:
    against = "{source: letter, against: true, note: It says 9}"
    doubted = lid("early", "first: 1, last: [10, 13]", f"{BOOK}, {against}")
    assert short((EARLY,), (doubted,))[0] == (
        "contradicts: The letter: It says 9; recorded the early, by The book, p. 3"
    )


def test_a_statement_that_speaks_against_what_was_seen() -> None:
    known = seen(12, "early")
    assert short((EARLY, known), (lid("early", "first: 1, last: 10", ""), known))[0] == (
        "contradicts what was known: now recorded the early only from XA 1 to XA 10, by nobody; "
        "osk saw the early on XA 12 (untouched)"
    )


def test_a_change_without_a_change_of_evidence_with_both_values_and_the_line() -> None:
    (line, *_) = short((EARLY,), (lid("early", "first: 1, last: [10, 12]", BOOK),))
    assert line == (
        "changed without a change of evidence: the early, XA series: last: [10, 13] → [10, 12]; "
        "it still rests on The book, p. 3; ask why (early.yml:6)"
    ).replace("XA series", "XA …")
    (bare, *_) = short((lid("a", "first: 1, last: 5"),), (lid("a", "first: 1, last: 5, option: true"),))
    assert "option: nothing → true; it names no evidence; ask why (a.yml:6)" in bare


def test_a_break_and_who_moved_it() -> None:
    assert short((EARLY, LATE), (EARLY, LATE, seen(12, "early")))[:2] == (
        "moves the break from the early to the late: it was XA 11 to XA 14, it is XA 13 to XA 14, "
        "on the word of osk (XA 12)",
        "a first teardown of XA 12 (osk, 2026-01-02, untouched): as recorded",
    )


@pytest.mark.parametrize(
    ("new", "said"),
    [
        ("first: 1, last: [10, 12]", "XA 13: no longer early (possibly)"),
        ("first: 1, last: [12, 13]", "XA 11 to XA 12: now early"),
        ("first: 1, last: [10, 14]", "XA 14: now also early (possibly)"),
    ],
)
def test_answers_in_short(new: str, said: str) -> None:
    assert f"answers otherwise: Cover, {said}" in short((EARLY,), (lid("early", new, LETTER),))


def test_numbers_that_come_and_go() -> None:
    few, many = register(last="19"), register(last="20")
    gone, there = in_short(compared(many, few)), in_short(compared(few, many))
    assert "answers otherwise: Cover, XA 20: no such number or place any more" in gone
    assert "answers otherwise: Cover, XA 20: a number or place that was not there" in there


def test_a_new_conflict() -> None:
    (line, *_) = short((EARLY, LATE), (EARLY, LATE, lid("other", "first: 15, last: 20", LETTER)))
    assert line == "two standards on the same numbers: Cover, XA 15 to XA 20: now also other"


def test_orders_say_where_the_number_is_used() -> None:
    text = (
        "kind: assembly\nid: a\ntitle: Lid with a knob\nposition: cover\n"
        "serials:\n- {series: xa, first: 1, last: 5}\nparts:\n- {number: a, name: Knob, quantity: 1}\n"
    )
    used = record(text, "assembly", "a")
    (line,) = short((used,), (used, record(act("on", "a", "b"), "supersession", "on")))[:1]
    assert line == "ordered otherwise: a: not known → b (of Lid with a knob)"


def test_standings_with_their_reasons() -> None:
    known = seen(3, "early")
    assert short((EARLY, known), (EARLY,))[-1] == (
        "stands lower: assembly early#span-xa: confirmed → printed "
        "(no longer seen: XA 3, seen 2026-01-02, had the early)"
    )
    assert short((EARLY, known), (EARLY,))[0] == "no longer said: all of teardown x-3-osk"
    assert short((EARLY,), (EARLY, known))[-1].startswith("stands higher: assembly early#span-xa: printed → ")


def test_where_no_answer_depends_on_it() -> None:
    more = [record(f"kind: source\nid: {id_}\ntitle: T\nclass: manual\n", "source", id_) for id_ in "vwxyz"]
    assert short((), (more[0],)) == ("nothing that answers depend on changed (source v: added)",)
    assert short((), tuple(more)) == (
        "nothing that answers depend on changed (source v: added; source w: added; source x: added; "
        "2 records more)",
    )
    assert short((EARLY,), (EARLY,)) == ()
    assert list(whole(compared(register(*SOURCES, EARLY), register(*SOURCES, EARLY)))) == []


def test_not_more_than_seven_lines_the_worst_first_and_what_is_left_out_counted() -> None:
    finds = tuple(seen(n, "early", who=f"w{n}") for n in range(16, 21))
    found = compared(register(*SOURCES, EARLY, LATE), register(*SOURCES, EARLY, LATE, *finds))
    lines = in_short(found)
    assert len(lines) <= MOST
    assert [line.startswith("contradicts") for line in lines] == [True] * 3 + [False] * (len(lines) - 3)
    assert lines[-1].startswith("and, told below, 2 contradictions")
    sections = {section.title: section.lines for section in below(found)}
    assert len(sections["More contradictions"]) == 2
    assert not set(sections["More contradictions"]) & set(lines)
    assert [about for about, _ in headline(found)][-1] is None


def test_eight_of_as_many_sorts_are_cut_and_seven_are_not() -> None:
    lines = short((EARLY, LATE), (EARLY, LATE, *(seen(n, "early") for n in (1, 2, 3))))
    assert [line.startswith("a first teardown") for line in lines].count(True) == 3
    assert not lines[-1].startswith("and, told below")
    four = short((EARLY, LATE), (EARLY, LATE, *(seen(n, "early") for n in (1, 2, 3, 4))))
    assert four[-1] == "and, told below, 1 teardown"


def test_a_field_inside_a_list_is_told_by_its_item() -> None:
    more = "evidence: [{source: book}]\n"
    acts = [record(act("on", "a", f"b, c {n}", more), "supersession", "on") for n in (2, 3)]
    (line, *_) = short((acts[0],), (acts[1],))
    assert "a replaced by b and 3 × c: item 2 of new, quantity: 2 → 3; it still rests on The book;" in line


def test_of_nine_things_of_three_sorts_six_are_told_and_three_counted() -> None:
    finds = [seen(n, "early", who=f"w{n}") for n in (1, 2, 3, 16, 17, 18)]
    acts = [record(act(f"act-{n}", f"a{n}", ""), "supersession", f"act-{n}") for n in range(3)]
    lines = short((EARLY, LATE, seen(12, "late")), (EARLY, LATE, seen(12, "late"), *finds, *acts))
    assert [line.split(":")[0] for line in lines[:6]] == ["contradicts"] * 3 + ["ordered otherwise"] * 3
    assert len(lines) == MOST
    assert "3 teardowns" in lines[6]
