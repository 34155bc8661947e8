"""The stories of a find, in words."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

import pytest

from spanbook.answers.answers import Answers
from spanbook.answers.assumed import Assumed, StoryOdds
from spanbook.answers.readings import reading_of
from spanbook.answers.stories import Explanation
from spanbook.answers.story import Kind
from spanbook.ground.language import speaking
from spanbook.outputs.text.explain import as_text
from spanbook.reading.records import Condition, Record
from spanbook.wording.pieces import plain
from spanbook.wording.stories import RULED_OUT, TOLD, assumed_words, head_words, ruled_out_words, story_words
from tests.support.registers import lid, record, register

BOOK = record("kind: source\nid: book\ntitle: B\nclass: parts-book\n", "source", "book")
EARLY, LATE = (
    lid("early", "first: 1, last: 7", "{source: book}"),
    lid("late", "first: 10, last: 20", "{source: book}"),
)


def lids(id_: str, *spans: str) -> Record:
    told = "".join(f"- {{series: xa, {span}, anchor: a{i}}}\n" for i, span in enumerate(spans))
    text = f"kind: assembly\nid: {id_}\ntitle: {id_}\nposition: cover\nserials:\n{told}"
    return record(text, "assembly", id_)


def kit(id_: str, start: str, to: str) -> Record:
    text = f"kind: conversion\nid: {id_}\ntitle: The {id_}\nposition: cover\nfrom: [{start}]\nto: {to}\n"
    return record(f"{text}serials: [{{series: xa, first: 1, last: 20}}]\n", "conversion", id_)


def explained(
    *records: Record, found: str = "early", number: int = 15, condition: Condition = "unknown"
) -> Explanation:
    answers = Answers(register(BOOK, *records))
    reading = reading_of(answers.register.series["xa"], number)
    held = {"cover": answers.register.assemblies[found]}
    return answers.explainer.explain(reading, held, condition)


def told(*records: Record, found: str = "early", number: int = 15) -> Mapping[Kind, str]:
    (one,) = explained(*records, found=found, number=number).positions
    return {
        story.kind: plain(story_words(story)) if story.probability else ruled_out_words(story)
        for story in one.stories
    }


def test_what_can_be_and_what_speaks_for_it() -> None:
    words = told(EARLY, LATE)
    assert words[Kind.EXCHANGE] == (
        "It was taken from another machine: by the records 16 % of all left the works with one."
    )
    assert words[Kind.SWAPPED] == (
        "It bears another's number, the plate or what it stands on was changed: by the records 16 % of all "
        "left the works with what was found."
    )
    assert words[Kind.RECORD] == "The record is wrong: it has the late there, and that is printed."
    assert words[Kind.UNRECORDED] == "Something happened that nobody has recorded."


def test_what_leads_to_it_is_named() -> None:
    middle = lid("middle", "first: 3, last: 3, option: true")
    words = told(EARLY, LATE, middle, kit("one", "late", "middle"), kit("two", "middle", "early"))
    assert words[Kind.CONVERSION] == "It was converted: The one, then The two."
    field = told(lids("early", "first: 1, last: 7", "first: 12, last: 20, fitted: field"), LATE)
    assert field[Kind.CONVERSION] == "It was converted: recorded from XA 12 to XA 20."
    sold = told(lids("early", "first: 1, last: 7", "first: 12, last: 20, fitted: service"), LATE)
    assert sold[Kind.SOLD_LATER] == "It is a part sold later: recorded from XA 12 to XA 20."


def test_how_it_left_the_works_is_told() -> None:
    assert told(EARLY, LATE, found="late")[Kind.WORKS] == (
        "It left the works with it: recorded from XA 10 to XA 20."
    )
    pair = lid("early", "first: 1, last: [4, 7]"), lid("late", "first: [5, 8], last: 20")
    assert told(*pair, number=6)[Kind.WORKS] == "It left the works with it: by the break from early to late."
    assert told(EARLY, number=15)[Kind.WORKS] == (
        "It left the works with it: nothing is recorded of this number."
    )
    hole = lid("early", "first: 1, last: 4"), lid("late", "first: 12, last: 20")
    assert told(*hole, number=10)[Kind.BREAK] == (
        "The break lies so that it left the works with it: by the break from early to late."
    )


def test_several_records_that_would_be_wrong_are_all_named() -> None:
    option = lid("extra", "first: 10, last: 20, option: true")
    words = told(EARLY, LATE, option)[Kind.RECORD]
    assert words == "The record is wrong: it has the late or the extra there, and that is printed."


def test_what_cannot_be_says_why() -> None:
    words = told(EARLY, LATE)
    for kind in (Kind.WORKS, Kind.BREAK, Kind.CONVERSION, Kind.SOLD_LATER):
        assert words[kind] == f"{TOLD[kind]}: {RULED_OUT[kind]}."
    assert set(TOLD) == set(RULED_OUT) == set(Kind)
    answers = Answers(register(BOOK, EARLY, LATE), lambda: Assumed(odds=StoryOdds(swapped=Fraction(0))))
    reading = reading_of(answers.register.series["xa"], 15)
    held = {"cover": answers.register.assemblies["early"]}
    (one,) = answers.explainer.explain(reading, held, "unknown").positions
    (swapped,) = (story for story in one.stories if story.kind is Kind.SWAPPED)
    assert ruled_out_words(swapped).endswith("was changed: by what is assumed it never happens.")


@pytest.mark.parametrize(
    ("condition", "said"), [("unknown", "condition not known"), ("likely-original", "likely original")]
)
def test_what_was_found_is_told_first(condition: Condition, said: str) -> None:
    found = explained(EARLY, LATE, condition=condition)
    assert head_words(register(BOOK), found, found.positions[0]) == f"XA 15, Cover: early, {said}."


def test_what_is_assumed_is_told_and_whose_guess_it_is() -> None:
    assert assumed_words(Assumed(), "unknown") == (
        "Assumed (our own guess, which a community can set): of a hundred such machines 10 were converted "
        "and 3 robbed; for each one converted, 1 got a part sold later and 0.2 what nobody has recorded; of "
        "a hundred 0.5 bear another's number; of a hundred records so many are wrong, by how they stand: "
        "no evidence 25, recalled 20, printed 2, seen 1, confirmed 0.5 and disputed 25."
    )
    assert "an altered machine tells nothing" in assumed_words(Assumed(), "altered")


def test_the_terminal_tells_the_likeliest_first_and_what_is_ruled_out() -> None:
    found = explained(EARLY, LATE)
    lines = as_text(register(BOOK), found).split("\n")
    assert lines[0] == "XA 15, Cover: early, condition not known."
    assert [line.split(":")[0].strip() for line in lines[1:5]] == ["45 %", "30 %", "21 %", "4 %"]
    assert lines[5] == "   Ruled out:"
    assert lines[6].startswith("   - It left the works with it: ")
    assert lines[-1] == assumed_words(found.assumed, "unknown")


def test_what_can_be_in_german() -> None:
    with speaking("de"):
        words = told(EARLY, LATE)
        assert words[Kind.RECORD] == "Der Eintrag ist falsch: dort nennt er „late“, und das ist gedruckt."
        assert words[Kind.EXCHANGE] == (
            "Es stammt von einer anderen Maschine: "
            "nach den Einträgen kamen 16 % aller Maschinen damit aus dem Werk."
        )
