"""What is said where conversions and supersessions fall short: each sort, surely and perhaps."""

from __future__ import annotations

import pytest

from spanbook.answers.answers import Answers
from spanbook.reading.records import Record
from spanbook.wording.pieces import Ref, plain
from spanbook.wording.questions import forum_words, question_words
from spanbook.wording.shortfalls import shortfall_lines
from tests.answers.test_shortfalls import BOOK, act, assembly, kit
from tests.support.registers import register

NEED = "needs: [{position: drain, assemblies: [wide, deep], why: Oil}]\n"
LID, HAT = (
    assembly("lid", "first: 1, last: 12", parts="P-1"),
    assembly("hat", "first: 13, last: 20", parts="P-2"),
)
DRAINS = (
    assembly("narrow", "first: 1, last: 5", position="drain"),
    assembly("wide", "first: 6, last: 20", position="drain"),
    assembly("deep", "first: 6, last: 20, option: true", position="drain"),
)


def said(page: str, *records: Record) -> tuple[list[str], list[str]]:
    """The lines on a record's page, and what owners are asked of such things."""
    answers = Answers(register(BOOK, *records))
    here = next(r for r in answers.register.records if r.id == page)
    lines = [line for one in answers.shortfalls.told_on(here) for line in shortfall_lines(one, here)]
    assert not [p for line in lines for p in line if isinstance(p, Ref) and p.to is here]
    asked = [question_words(answers.register, q) for q in answers.questions if q.shortfall]
    return [plain(line) for line in lines], asked


@pytest.mark.parametrize(
    ("page", "records", "lines", "asked"),
    [
        (
            "lid",
            (kit("k", "lid", "hat", "first: 1, last: [10, 11]"),),
            [
                "XA 12 had the lid and nothing recorded converts it there: k is for other numbers only.",
                "XA 11 had the lid and nothing recorded converts it there: k is perhaps for "
                "other numbers only.",
            ],
            [
                "Owner of XA 12: is your cover still the lid, or was it converted? "
                "By what is recorded k is not for these machines.",
                "Owner of XA 11: is your cover still the lid, or was it converted? "
                "By what is recorded k may not be for these machines.",
            ],
        ),
        (
            "k",
            (kit("k", "lid", "hat", "first: 1, last: [13, 14]"),),
            [
                "k starts from the lid, which XA 13 never had.",
                "k starts from the lid, which XA 14 are not recorded to have had.",
            ],
            [
                "Owner of XA 13: was your cover ever the lid? k, which starts from it, is for "
                "these machines, "
                "and nothing recorded says that they had it.",
                "Owner of XA 14: was your cover ever the lid? k, which starts from it, may be for these "
                "machines, and nothing recorded says that they had it.",
            ],
        ),
        (
            "wide",
            (kit("k", "lid", "hat", "first: [3, 4], last: 12", more=NEED), *DRAINS),
            [
                "k needs the wide or deep, and nothing recorded brings it to XA 4 to XA 5.",
                "k needs the wide or deep, and nothing recorded says whether XA 3 can have it.",
            ],
            [
                "Owners of XA 1 to XA 2: is your cover still the lid, or was it converted? "
                "By what is recorded k is not for these machines.",
                "Owners of XA 4 to XA 5: is your drain the wide or deep, or could it be? k needs "
                "it, and nothing "
                "recorded brings it there.",
                "Owner of XA 3: is your cover still the lid, or was it converted? "
                "By what is recorded k may not be for these machines.",
                "Owner of XA 3: is your drain the wide or deep, or could it be? k may be for "
                "these machines and "
                "needs it, and nothing recorded brings it there.",
            ],
        ),
        (
            "a",
            (act("a", "P-1", "P-9", "first: 1, last: [15, 16]"),),
            [
                "It replaces P-1, and by what is recorded XA 13 to XA 15 never had it.",
                "It replaces P-1, and by what is recorded XA 16 are not recorded to have had it.",
            ],
            [
                "Owners of XA 13 to XA 15: can P-1 be read in your cover? Its replacement is for "
                "these machines, "
                "and nothing recorded says that they had it.",
                "Owner of XA 16: can P-1 be read in your cover? Its replacement may be for these machines, "
                "and nothing recorded says that they had it.",
            ],
        ),
    ],
    ids=["unreached", "past its base", "need unmet", "never had"],
)
def test_said(page: str, records: tuple[Record, ...], lines: list[str], asked: list[str]) -> None:
    assert said(page, LID, HAT, *records) == (lines, asked)


def test_several_conversions_are_named() -> None:
    kits = kit("k", "lid", "hat", "first: 1, last: 3"), kit("l", "lid", "tin", "first: 4, last: 6")
    tin = assembly("tin", "first: 1, last: 6, fitted: field")
    lines, _ = said("k", LID, HAT, tin, *kits)
    assert lines == [
        "XA 7 to XA 12 had the lid and nothing recorded converts it there: k and l are "
        "for other numbers only."
    ]


def test_a_forum_is_told_how_to_tell_them() -> None:
    answers = Answers(register(BOOK, LID, HAT, kit("k", "lid", "hat", "first: 1, last: 10")))
    (asked,) = [q for q in answers.questions if q.shortfall]
    assert forum_words(answers.register, asked).startswith(
        "Owners of XA 11 to XA 12: is your cover still the lid"
    )
