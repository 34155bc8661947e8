"""What changes for readers, in words: two small registers side by side."""

from __future__ import annotations

import pytest

from spanbook.answers.assumed import Assumed
from spanbook.answers.diff.compute import compare
from spanbook.answers.diff.model import Comparison, RecordChange, StandingChange
from spanbook.answers.standing import Standing
from spanbook.register.model import Register
from spanbook.wording.diff import cut_words, record_words, sections, standing_words
from spanbook.wording.proposal import besides
from tests.support.acts import act
from tests.support.registers import lid, record, register


def compared(old: Register, new: Register) -> Comparison:
    return compare(old, new, ((), ()), Assumed())


def told(old: Register, new: Register) -> dict[str, tuple[str, ...]]:
    return {section.title: section.lines for section in sections(compared(old, new))}


def test_answers_say_who_and_how_sure() -> None:
    old = register(lid("a", "first: 1, last: 4"))
    new = register(lid("a", "first: 1, last: [2, 3]"), lid("b", "first: 3, last: 4, fitted: field"))
    assert told(old, new)["Answers to a serial number"] == (
        "Cover, XA 3: a [settled] → a (possibly) or b (by conversion in the field) [unsure]",
        "Cover, XA 4: a [settled] → b (by conversion in the field) [blank]",
    )


def test_numbers_that_are_no_more() -> None:
    old, new = register(last="20"), register(last="19")
    assert told(old, new)["Answers to a serial number"] == (
        "Cover, XA 20: nothing known [blank] → no such number or place",
        "Drain, XA 20: nothing known [blank] → no such number or place",
    )


def acts(more: str = "", new: str = "b") -> Register:
    return register(record(act("on", "a", new, more), "supersession", "on"))


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        (acts(), acts(new="b 2"), "a: b → 2 × b"),
        (acts(), register(), "a: b → not known"),
        (
            acts(),
            acts("serials: [{series: xa, first: 1, last: 4}]\n"),
            "a: b → b (on XA 1 to XA 4); or a (on other machines)",
        ),
    ],
)
def test_orders(old: Register, new: Register, said: str) -> None:
    assert said in told(old, new)["Orders"]


def test_records_and_standings() -> None:
    assert record_words(RecordChange("renamed", "part", "new", "old")) == "part new: renamed (it was old)"
    assert record_words(RecordChange("added", "part", "new")) == "part new: added"
    changed = StandingChange("assembly", "lid", "span-xa", None, Standing.SEEN)
    assert standing_words(changed) == "assembly lid#span-xa: not said → seen"
    assert standing_words(StandingChange("part", "p", "", Standing.SEEN, None)) == "part p: seen → gone"


def test_nothing_has_no_heading() -> None:
    same = register(lid("a", "first: 1, last: 4"))
    assert told(same, same) == {}
    assert list(besides(())) == []


@pytest.mark.parametrize(
    ("count", "said"),
    [
        (1, "1 more line does not fit here; `spanbook compare` tells it all."),
        (2, "2 more lines do not fit here; `spanbook compare` tells them all."),
    ],
)
def test_what_is_cut_is_counted(count: int, said: str) -> None:
    assert cut_words(count) == said
