"""`spanbook explain`: what may have happened, from the shell."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner
from jsonschema_rs import Draft202012Validator

from spanbook.cli import main
from spanbook.reading.schemas import folder
from tests.support.demo import demo
from tests.support.rows import each_row

PROJECT = Path(__file__).parents[2]
SCHEMA = Draft202012Validator(json.loads((folder() / "answer-explain.json").read_text(encoding="utf-8")))
STRAINER = "lubrication/oil-filter=edge-strainer"
NARROW = "lubrication/oil-pump=gear-pump-narrow"


def run(*arguments: str) -> tuple[int, str]:
    done = CliRunner().invoke(main, ["explain", *arguments, "--folder", str(PROJECT)])
    return done.exit_code, done.output


def test_the_likeliest_story_comes_first() -> None:
    code, told = run("HK 1500", "--found", "lubrication/oil-filter=waste-packed-filter")
    assert code == 0
    assert told.splitlines()[0] == "HK 1500, Oil filter: Waste-packed bypass filter, condition not known."
    assert "Assumed (our own guess" in told


@pytest.mark.parametrize("condition", ["untouched", "likely-original", "altered", "unknown"])
def test_its_json_keeps_to_the_schema(condition: str) -> None:
    finds = "--found", STRAINER, "--found", NARROW
    code, told = run("HK 701", *finds, "--condition", condition, "--json")
    assert code == 0
    answer = json.loads(told)
    SCHEMA.validate(answer)
    assert (answer["query"], answer["number"], answer["condition"]) == ("HK 701", 701, condition)
    assert [one["assembly"] for one in answer["found"]] == ["edge-strainer", "gear-pump-narrow"]
    for one in answer["found"]:
        shares = [story["probability"] for story in one["stories"]]
        assert sum(shares) == pytest.approx(1)
        assert shares == sorted(shares, reverse=True)
    unsound = {**answer, "found": [{**answer["found"][0], "stories": []}]}
    assert not SCHEMA.is_valid(unsound)


def test_python_and_the_command_say_the_same() -> None:
    register = demo()
    found = register.explain("HK 701", register.places("edge-strainer"), "untouched")
    _, told = run("HK 701", "--found", STRAINER, "--condition", "untouched", "--json")
    stories = json.loads(told)["found"][0]["stories"]
    assert [(s["story"], s["probability"]) for s in stories] == [
        (str(s.kind), float(s.probability)) for s in found.positions[0].stories
    ]


@each_row(
    ("arguments", "told"),
    [
        (["HK 701", "--found", "edge-strainer"], "--found edge-strainer: write POSITION=ASSEMBLY"),
        (["HK 701", "--found", "=edge-strainer"], "write POSITION=ASSEMBLY"),
        (["HK 701", "--found", "lubrication/oil-filter="], "write POSITION=ASSEMBLY"),
        (["HK 701", "--found", STRAINER, "--found", STRAINER], "lubrication/oil-filter was told already"),
        (
            ["HK 701", "--found", "lubrication/oil-pump=edge-strainer"],
            "no record has the assembly edge-strainer at",
        ),
        (["HK 701", "--found", "lubrication/oil-filter=nothing"], "no record has the assembly nothing at"),
        (
            ["HK 701", "--found", "starting/electric-start=d-dynamo-starter"],
            "HK 701 has no starting/electric-start",
        ),
        (["HK 0", "--found", STRAINER], "reads as 0 machines"),
        (["HK 701"], "Missing option"),
        (["HK 701", "--found", STRAINER, "--condition", "rusty"], "'rusty' is not one of"),
    ],
)
def test_what_cannot_be_explained_is_told(arguments: list[str], told: str) -> None:
    code, said = run(*arguments)
    assert code != 0
    assert told in said


def test_something_has_to_be_found() -> None:
    register = demo()
    with pytest.raises(LookupError, match="say what was found"):
        register.explain("HK 701", {})
