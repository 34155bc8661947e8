"""How a comparison is told in each form, in a register so small that all of it can be seen."""

from __future__ import annotations

import json
import re
from functools import cache

import pytest
from jsonschema_rs import Draft202012Validator

from spanbook.answers.diff.model import Comparison
from spanbook.outputs.json.diff import as_object
from spanbook.outputs.json_text import json_text
from spanbook.outputs.text import diff as diff_text
from spanbook.reading.schemas import folder
from spanbook.register.link import build
from spanbook.wording.diff import sections
from tests.answers.test_diff_short import BASE, CHANGED, Texts, made
from tests.support.comparisons import compared

SCHEMA = Draft202012Validator(json.loads((folder() / "answer-compare.json").read_text(encoding="utf-8")))
LID = ("assembly", "c")


def after(changed: Texts) -> Comparison:
    return compared(build(made(BASE).values()), build(made({**BASE, **changed}).values()))


@cache
def every() -> tuple[Comparison, ...]:
    """Each record changed by itself."""
    return tuple(after({key: text}) for key, text in CHANGED.items())


def as_text(found: Comparison) -> list[str]:
    return [line.strip() for line in diff_text.as_text(sections(found)).splitlines()]


@pytest.mark.slow
def test_the_json_of_each_sort_of_change_keeps_to_its_schema() -> None:
    filled = set()
    for found in every():
        said = json.loads(json_text(as_object(found)))
        assert list(SCHEMA.iter_errors(said)) == [], said["records"]
        filled |= {name for name, told in said.items() if told}
    assert filled >= {"records", "answers", "years", "orders", "standings", "questions", "breaks", "unbacked"}


def test_json_has_what_was_and_what_is() -> None:
    (answer,) = as_object(after({LID: CHANGED[LID]}))["answers"]
    held = {"id": "c", "covers": "yes", "fitted": "factory", "option": False, "lines": []}
    assert answer["before"] == {"state": "settled", "assemblies": [held]}
    assert answer["after"] == {"state": "blank", "assemblies": []}
    on = ("supersession", "on")
    first, second, third = as_object(after({on: CHANGED[on]}))["orders"]
    assert [[way[0]["number"] for way in first[side]["ways"]] for side in ("before", "after")] == [
        ["P-2"],
        ["P-3"],
    ]
    assert (second["after"], third["before"]) == (None, None)


def test_each_sort_of_change_is_a_line() -> None:
    told = [line for found in every() for line in as_text(found)]
    assert set(told) >= {
        "XA 5 to XA 6: 1932 or later → 1931",
        "Drain, XA 20: X [settled] → nothing known [blank]",
        "P-1: P-2 → P-3",
        "part bolt: printed → unsupported (no longer printed: The book)",
        "Owner of XA 20: what sort of drain is on your machine?",
    }


def test_where_nothing_changes_it_is_said() -> None:
    found = after({LID: f"# looked at again\n{BASE[LID]}"})
    assert found.nothing
    assert as_text(found) == ["Nothing changes for readers."]
    assert "Nothing changes for readers." in diff_text.as_markdown(sections(found))
    assert as_object(found)["nothing"]


def test_markdown_is_cut_with_a_count_and_strangers_text_stays_text() -> None:
    strange = {
        key: text.replace("title: X", "title: '<b>@all</b> [x](http://y)'") for key, text in BASE.items()
    }
    found = compared(build(made(strange).values()), build(made({**strange, **CHANGED}).values()))
    whole = diff_text.as_markdown(sections(found))
    assert r"\<b\>\@all\</b\> \[x\]\(http\://y\)" in whole
    assert not re.search(r"(?<!\\)[<@\[]", whole)
    short = diff_text.as_markdown(sections(found), limit=900)
    assert len(short.encode()) <= 900
    (count,) = re.findall(r"(\d+) more lines do not fit", short)
    kept = sum(line.startswith("- ") for line in short.splitlines())
    assert int(count) + kept == sum(line.startswith("- ") for line in whole.splitlines())
