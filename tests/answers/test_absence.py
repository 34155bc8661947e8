"""Nothing fitted: a state of a position, with its machines and evidence, wherever an assembly may be."""

from __future__ import annotations

from fractions import Fraction

from spanbook.answers.answers import Answers
from spanbook.answers.applicability import State
from spanbook.answers.conversions import as_it_left_the_works
from spanbook.answers.meaning import Means
from spanbook.answers.plans import Plan, convert
from spanbook.answers.questions import About
from spanbook.answers.readings import reading_of
from spanbook.answers.standing import Standing
from spanbook.answers.story import Kind
from spanbook.reading.records import Absence, Record
from spanbook.register.link import build
from spanbook.wording.questions import question_words
from tests.support.registers import assembly, record, register

NONE = record(
    "kind: absence\nid: no-cover\ntitle: No cover\nposition: cover\nserials:\n"
    "- {series: xa, first: 1, last: [5, 7], evidence: [{source: book}]}\n",
    "absence",
    "no-cover",
)
BOOK = record("kind: source\nid: book\ntitle: The book\nclass: parts-book\n", "source", "book")
LID = assembly("lid", "first: [6, 10], last: open, evidence: [{source: book}]")
KIT = record(
    "kind: conversion\nid: kit\ntitle: Kit\nposition: cover\nfrom: [no-cover]\nto: lid\n"
    "serials: [{series: xa, first: 1, last: 7}]\n",
    "conversion",
    "kit",
)


def found(serial: int, held: str, condition: str = "untouched") -> Record:
    id_ = f"xa-{serial}"
    text = (
        f"kind: teardown\nid: {id_}\ndate: 2024\nseen-by: m\nserial: XA {serial}\nseries: xa\n"
        f"condition: {condition}\nfound: [{{position: cover, assembly: {held}}}]\n"
    )
    return record(text, "teardown", id_)


def answers(*records: Record) -> Answers:
    return Answers(register(NONE, LID, BOOK, *records))


def test_it_is_a_state_of_its_position_like_any_other() -> None:
    made = answers()
    states = [(s.first, s.state) for s in made.fits.segments(made.register.series["xa"], "cover")]
    assert states == [(1, State.SETTLED), (6, State.UNSURE), (10, State.SETTLED)]
    reading = reading_of(made.register.series["xa"], 3)
    assert as_it_left_the_works(made.fits, reading) == {"cover": "no-cover"}


def test_an_option_stands_beside_nothing_as_beside_a_standard() -> None:
    to_order = assembly("hat", "first: 1, last: 5, option: true")
    made = answers(to_order)
    (first, *_) = made.fits.segments(made.register.series["xa"], "cover")
    assert (first.state, [fit.assembly.id for fit in first.fits]) == (State.CHOICE, ["no-cover", "hat"])


def test_who_saw_that_nothing_is_there_confirms_it_or_disputes_what_should_be() -> None:
    made = answers(found(3, "no-cover"), found(15, "no-cover"))
    none, lid = made.register.assemblies["no-cover"], made.register.assemblies["lid"]
    (said,) = (made.standing(fitting) for fitting in made.register.fittings_of(none))
    assert said.standing is Standing.DISPUTED  # seen past its last number
    (other,) = (made.standing(fitting) for fitting in made.register.fittings_of(lid))
    assert other.standing is Standing.DISPUTED
    made = answers(found(3, "no-cover"))
    (said,) = (made.standing(fitting) for fitting in made.register.fittings_of(none))
    assert said.standing is Standing.CONFIRMED


def test_where_it_ends_is_a_break() -> None:
    (one,) = answers().breaks
    assert (one.earlier.id, one.later.id) == ("no-cover", "lid")


def test_a_conversion_puts_a_thing_where_nothing_was() -> None:
    made = answers(KIT, found(3, "lid", "altered"))
    reading = reading_of(made.register.series["xa"], 3)
    plan = convert(made.register, reading, {"cover": "no-cover"}, {"cover": "lid"})
    assert isinstance(plan, Plan)
    assert [step.id for step in plan.steps] == ["kit"]
    (place,) = (p for p in made.machines.of(reading).positions if p.position == "cover")
    (seen,) = place.seen
    assert (seen.meaning.means, seen.meaning.through) == (Means.CONVERSION, (KIT,))


def test_what_is_gone_was_taken_off_and_came_from_no_other_machine() -> None:
    made = answers()
    (told,) = made.explainer.explain(
        reading_of(made.register.series["xa"], 15), {"cover": made.register.assemblies["no-cover"]}, "unknown"
    ).positions
    assert told.possible[0].kind is Kind.TAKEN_OFF
    assert Kind.EXCHANGE not in {story.kind for story in told.stories}


def test_what_was_taken_off_is_all_else_that_it_may_have_left_the_works_with() -> None:
    made = answers(assembly("hat", "first: 1, last: 5, option: true"))
    none = made.register.assemblies["no-cover"]
    for number, share in ((3, Fraction(1, 2)), (15, Fraction(1))):
        reading = reading_of(made.register.series["xa"], number)
        (told,) = made.explainer.explain(reading, {"cover": none}, "unknown").positions
        (story,) = (one for one in told.stories if one.kind is Kind.TAKEN_OFF)
        assert story.likelihood == share


def test_the_questions_ask_whether_none_is_fitted() -> None:
    made = answers()
    asked = {question.about: question_words(made.register, question) for question in made.questions}
    assert asked[About.NEVER_SEEN].endswith(
        "look where the cover goes: is none fitted, as printed? Nobody has told of seeing that."
    )
    assert asked[About.BREAK].endswith("which of these two is your cover, no cover or the lid?")


def test_its_id_is_nobody_elses() -> None:
    made = build([NONE])
    assert made.named("assembly")["no-cover"] is made.things["absence"]["no-cover"] is NONE
    assert made.of(Absence) == {"no-cover": NONE}
    # Its page is among the absences, so no link may lead to one among the assemblies.
    assert "no-cover" not in made.things["assembly"]
