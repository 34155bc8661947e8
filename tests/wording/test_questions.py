"""What is not known, as questions: each sort by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from spanbook.answers.questions import About, Question
from spanbook.ground.intervals import Span, SpanSet
from spanbook.ground.language import speaking
from spanbook.reading.records import Assembly
from spanbook.wording.questions import ABOUT, forum_words, owners, question_words
from tests.support.registers import record, register
from tests.support.rows import each_row

TOLD = (
    "kind: assembly\nid: {0}\ntitle: {0} lid\nposition: cover\nserials:\n"
    "- {{series: xa, first: 1, last: 4}}\ntell: [A knob on top, A seam]\n"
)
REGISTER = register(
    record(TOLD.format("old"), "assembly", "old"), record(TOLD.format("new"), "assembly", "new")
)
OLD, NEW = (REGISTER.assemblies[id_] for id_ in ("old", "new"))


def question(about: About, *held: Assembly, unread: tuple[str, ...] = ()) -> Question:
    return Question(about, "cover", REGISTER.series["xa"], SpanSet.run(2, 5), 0.5, held, unread)


@each_row(
    ("asked", "said"),
    [
        (
            question(About.BREAK, OLD, NEW),
            "which of these two is your cover, the old lid or the new lid?",
        ),
        (question(About.BLANK), "what sort of cover is on your machine?"),
        (question(About.DISPUTED, OLD), "look at your cover: is it really the old lid?"),
        (
            question(About.UNSUPPORTED, OLD),
            "look at your cover: is it the old lid? Nothing is named that says so.",
        ),
        (
            question(About.NEVER_SEEN, OLD),
            "look at your cover: is it the old lid, as printed? Nobody has told of seeing one.",
        ),
        (
            question(About.PARTS, OLD, unread=("1", "2")),
            "can a number be read on any part of your old lid? Nobody has told of reading 1, 2.",
        ),
        (
            question(About.PARTS, OLD, unread=tuple("123456789")),
            "can a number be read on any part of your old lid? "
            "Nobody has told of reading 1, 2, 3, 4, 5, 6, 7, 8 and more.",
        ),
    ],
)
def test_what_is_asked(asked: Question, said: str) -> None:
    assert question_words(REGISTER, asked) == f"Owners of XA 2 to XA 5: {said}"


@pytest.mark.parametrize(
    ("runs", "said"),
    [
        ([(2, 2)], "Owner of XA 2"),
        ([(2, 5)], "Owners of XA 2 to XA 5"),
        ([(2, None)], "Owners of XA 2 and up"),
        ([(2, 2), (4, 4)], "Owners of XA 2 and XA 4"),
        ([(2, 5), (8, 8), (11, None)], "Owners of XA 2 to XA 5, XA 8 and XA 11 and up"),
    ],
)
def test_who_is_asked(runs: list[tuple[int, int | None]], said: str) -> None:
    numbers = SpanSet.of(Span(first, last) for first, last in runs)
    assert owners(REGISTER.series["xa"], numbers) == said


def test_a_forum_is_told_how_to_tell() -> None:
    asked = question(About.BREAK, OLD, NEW)
    assert forum_words(REGISTER, asked) == (
        f"{question_words(REGISTER, asked)} How to tell: old lid: a knob on top; new lid: a knob on top. "
        "A photograph and the number from the plate would settle it."
    )
    plain = replace(asked, assemblies=(replace(OLD, tell=()),), about=About.DISPUTED)
    assert forum_words(REGISTER, plain) == (
        f"{question_words(REGISTER, plain)} A photograph and the number from the plate would settle it."
    )


def test_every_sort_has_its_word() -> None:
    assert set(ABOUT) == set(About)


def test_a_question_in_german() -> None:
    with speaking("de"):
        assert question_words(REGISTER, question(About.BREAK, OLD, NEW)) == (
            "An die Besitzer (XA 2 bis XA 5): "
            "Cover: welches von beiden ist eingebaut, „old lid“ oder „new lid“?"
        )
        assert owners(REGISTER.series["xa"], SpanSet.run(2, 2)) == "An den Besitzer (XA 2)"
