"""The figures of a number, in Python and as JSON."""

from __future__ import annotations

import json

import pytest
from jsonschema_rs import Draft202012Validator

from spanbook.answers.answers import Answers
from spanbook.answers.pictured import pictured
from spanbook.answers.search import Asker
from spanbook.faces.meant import Wanted
from spanbook.outputs.json.ask import as_object
from spanbook.reading.schemas import folder
from spanbook.register.model import Register
from tests.support.demo import demo
from tests.support.registers import record, register

SCHEMA = Draft202012Validator(json.loads((folder() / "answer-ask.json").read_text(encoding="utf-8")))
LID = """\
kind: assembly
id: lid
title: Lid
position: cover
number: L-1
serials:
- {series: xa, first: 1, last: 9}
parts:
- {number: P-1, name: Bolt, quantity: 4}
- {number: P-2, name: Cap}
figures:
- file: lid.svg
  shows: The lid apart
  licence: CC0-1.0
  points:
  - {x: 100, y: 200, number: P-1, sign: held}
  - {x: 500, y: 950, shows: The witness mark}
"""
BOLT = """\
kind: part
id: bolt
number: P-1
name: Bolt
figures:
- {file: bolt.jpg, shows: The bolt, made-by: merrin, licence: CC0-1.0}
"""
SEEN = """\
kind: teardown
id: xa-3-osk
date: "2024"
seen-by: osk
serial: XA 3
condition: untouched
licence: CC-BY-4.0
found:
- position: cover
  assembly: lid
  photographs:
  - {file: xa-3/lid.jpg, shows: The lid on the engine}
  - file: xa-3/cap.jpg
    shows: The cap
    made-by: merrin
    licence: CC0-1.0
    points: [{x: 1, y: 2, number: P-2}]
"""


@pytest.fixture
def three() -> Register:
    return register(
        record(LID, "assembly", "lid"), record(BOLT, "part", "bolt"), record(SEEN, "teardown", "xa-3-osk")
    )


def figures(made: Register, number: str) -> list[dict[str, object]]:
    answer = as_object(Asker(Answers(made), ()), number)
    assert list(SCHEMA.iter_errors(answer)) == []
    (match,) = answer["matches"]
    found: list[dict[str, object]] = match["figures"]
    return found


def test_a_part_has_its_own_and_those_that_point_it_out(three: Register) -> None:
    own, pointing = figures(three, "P-1")
    assert own == {
        "file": "photographs/bolt.jpg",
        "of": {"kind": "part", "id": "bolt"},
        "shows": "The bolt",
        "made-by": "merrin",
        "licence": "CC0-1.0",
        "points": [],
    }
    assert pointing == {
        "file": "drawings/lid.svg",
        "of": {"kind": "assembly", "id": "lid"},
        "shows": "The lid apart",
        "made-by": None,
        "licence": "CC0-1.0",
        "points": [
            {"x": 100, "y": 200, "number": "P-1", "by": "example-works", "sign": "held", "shows": None},
            {"x": 500, "y": 950, "number": None, "by": None, "sign": None, "shows": "The witness mark"},
        ],
    }


def test_a_part_that_is_listed_and_not_pointed_out_is_not_said_to_be_shown(three: Register) -> None:
    assert [one["file"] for one in figures(three, "P-2")] == ["photographs/xa-3/cap.jpg"]


def test_an_assembly_has_its_own_and_the_photographs_of_teardowns(three: Register) -> None:
    found = figures(three, "L-1")
    assert [one["file"] for one in found] == [
        "drawings/lid.svg",
        "photographs/xa-3/lid.jpg",
        "photographs/xa-3/cap.jpg",
    ]
    # Whose they are, where only the teardown says so.
    assert [(one["made-by"], one["licence"]) for one in found[1:]] == [
        ("osk", "CC-BY-4.0"),
        ("merrin", "CC0-1.0"),
    ]


def test_every_number_of_the_demonstration_tells_its_figures_by_the_schema() -> None:
    made = demo()
    checked = 0
    for key, part in made.parts.items():
        found = pictured(made, part)
        assert len(found) == len(set(found)), key
        checked += bool(found)
    assert checked > 100
    for number in ("WH-1181", "WH-1182", "WH-2000", "A203"):
        assert figures(made, number)
        assert made.pictured(Wanted(number))


def test_an_unknown_number_has_no_figures_to_ask_for() -> None:
    with pytest.raises(LookupError, match="no record mentions"):
        demo().pictured(Wanted("QQ 99"))
