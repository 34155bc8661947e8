"""Where one line gave way to the next: weighed as the break of two assemblies with the same numbers is, and
asked of the same machines."""

from __future__ import annotations

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from spanbook.answers.answers import Answers
from spanbook.answers.questions import About, Question
from spanbook.answers.readings import reading_of
from spanbook.reading.records import Record
from spanbook.wording.line_breaks import line_break_words
from spanbook.wording.questions import question_words
from tests.support.comparisons import SOURCES
from tests.support.lists import Values, listing
from tests.support.registers import lid, record, register
from tests.support.tries import tries

CONDITIONS = ("untouched", "likely-original", "altered", "unknown")
LETTERS = ("early", "late")


def bounds(first: object, last: object) -> str:
    return f"first: {first}, last: {last}"


def look(at: int, serial: str, late: bool, condition: str, *, lines: bool) -> Record:
    """A machine that had the early or the late one: as an assembly, or as a number on an assembly."""
    number = "P-2" if late else "P-1"
    held = f"assembly: lid, parts: [{{number: {number}}}]" if lines else f"assembly: {LETTERS[late]}"
    text = (
        f'kind: teardown\nid: t-{at}\ndate: 2024\nseen-by: m\nserial: "{serial}"\nseries: xa\n'
        f"condition: {condition}\nfound: [{{position: cover, {held}}}]\n"
    )
    return record(text, "teardown", f"t-{at}")


def worlds(chance: random.Random) -> tuple[Answers, Answers]:
    """The same change twice: of assemblies, and of lines of one list."""
    low = chance.randint(5, 9)
    high = chance.randint(low + 1, 15)
    last, first = chance.choice(
        [([low, high], [low + 1, high + 1]), (low, low + 1), ("unknown", [low, high])]
    )
    source = chance.choice(["{source: book}", "{source: letter}"])
    named = source.strip("{}").split(": ")[1]
    assemblies = [
        lid("early", bounds(1, last), "{source: book}"),
        lid("late", bounds(first, 20), source),
    ]
    lines: list[Values] = [
        {"number": "P-1", "name": "Lid", "serials": [_said(1, last, "book")]},
        {"number": "P-2", "name": "Lid", "serials": [_said(first, 20, named)]},
    ]
    seen = [
        (
            at,
            chance.choice(["XA 1?", f"XA {chance.randint(1, 20)}", f"XA {chance.randint(low, high)}"]),
            chance.random() < 0.5,
            chance.choice(CONDITIONS),
        )
        for at in range(chance.randint(0, 5))
    ]
    return (
        Answers(register(*SOURCES, *assemblies, *(look(*one, lines=False) for one in seen))),
        Answers(register(*SOURCES, listing(lines), *(look(*one, lines=True) for one in seen))),
    )


def _said(first: object, last: object, source: str) -> Values:
    return {"series": "xa", "first": first, "last": last, "evidence": [{"source": source}]}


def asked(made: Answers, about: About) -> list[Question]:
    return [one for one in made.questions if one.about is about and len(one.lines) != 1]


@settings(max_examples=tries(20))
@given(st.randoms(use_true_random=False))
def test_a_change_of_lines_is_weighed_as_one_of_assemblies(chance: random.Random) -> None:
    whole, listed = worlds(chance)
    breaks = whole.breaks_at((whole.register.series["xa"], "cover"))
    lines = listed.line_breaks_in(listed.register.assemblies["lid"])
    assert [one.found.report for one in lines] == [one.report for one in breaks]
    assert [len(one.found.unused) for one in lines] == [len(one.unused) for one in breaks]
    both = asked(whole, About.BREAK), asked(listed, About.LINE)
    assert [(q.numbers, q.unsure) for q in both[0]] == [(q.numbers, q.unsure) for q in both[1]]


LIDS: list[Values] = [
    {"number": "P-1", "name": "Lid", "serials": [_said(1, [10, 12], "book")]},
    {"number": "P-2", "name": "Lid", "serials": [_said([11, 13], 20, "book")]},
]


def test_the_owners_of_exactly_the_doubtful_machines_are_asked() -> None:
    made = Answers(register(*SOURCES, listing(LIDS)))
    (question,) = asked(made, About.LINE)
    assert question_words(made.register, question) == (
        "Owners of XA 11 to XA 13: which Lid has your machine's lid, P-1 or P-2?"
    )


def test_a_look_that_read_the_number_has_answered() -> None:
    made = Answers(register(*SOURCES, listing(LIDS), look(1, "XA 12", False, "altered", lines=True)))
    xa = made.register.series["xa"]
    abouts = {
        number: {question.about for question in made.machines.open_to(reading_of(xa, number))}
        for number in (11, 12)
    }
    assert (About.LINE in abouts[11], About.LINE in abouts[12]) == (True, False)


def test_only_machines_that_may_have_the_assembly_are_asked() -> None:
    made = Answers(register(*SOURCES, listing(LIDS, span={"series": "xa", "first": 1, "last": 11})))
    (question,) = asked(made, About.LINE)
    assert question.numbers.last == 11


@pytest.mark.parametrize(
    ("looks", "said"),
    [
        ((), "P-1 to P-2, XA …: printed somewhere from XA 11 to XA 13."),
        (
            (look(1, "XA 11", False, "untouched", lines=True),),
            "P-1 to P-2, XA …: printed somewhere from XA 11 to XA 13; 1 teardown bears on it: with nine "
            "chances in ten the first P-2 is XA 12 to XA 13, most probably XA 12 to XA 13.",
        ),
    ],
)
def test_where_it_lies_in_words(looks: tuple[Record, ...], said: str) -> None:
    made = Answers(register(*SOURCES, listing(LIDS), *looks))
    (one,) = made.line_breaks_in(made.register.assemblies["lid"])
    assert line_break_words(made.register, one) == said


def test_a_machine_on_which_both_were_read_tells_of_neither() -> None:
    text = (
        "kind: teardown\nid: t\ndate: 2024\nseen-by: m\nserial: XA 12\nseries: xa\ncondition: untouched\n"
        "found: [{position: cover, assembly: lid, parts: [{number: P-1}, {number: P-2}]}]\n"
    )
    made = Answers(register(*SOURCES, listing(LIDS), record(text, "teardown", "t")))
    (one,) = made.line_breaks_in(made.register.assemblies["lid"])
    assert one.found.report.printed_only
