from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner
from jsonschema_rs import Draft202012Validator

from spanbook.cli import main
from spanbook.reading.schemas import folder
from tests.conftest import PROJECT
from tests.support.command import project

SCHEMA = Draft202012Validator(json.loads((folder() / "answer-size.json").read_text(encoding="utf-8")))


def size(*arguments: str, code: int = 0, folder: Path = PROJECT) -> str:
    result = CliRunner().invoke(main, ["size", *arguments, "--folder", str(folder)])
    assert result.exit_code == code, result.output
    return result.output


def test_a_worn_bolt() -> None:
    told = size("5/16 in", "--per-inch", "22", "--read-with", "caliper", "--state", "worn").splitlines()
    assert told[0] == "As a thread:"
    assert told[1].startswith("   5/16 BSF: ")
    assert any("strip" in line for line in told)
    assert told[-1].startswith("The same size by a standard is not yet the same thing")


def test_what_parts_the_first_two_is_told() -> None:
    assert "A thread gauge laid into its flanks against the light parts" in size(
        "5/16 in", "--per-inch", "18"
    )


@pytest.mark.parametrize(
    "asked",
    [["5/16 in", "--per-inch", "18"], ["17x40x12 mm"], ["12 mm"], ["300 mm", "--as", "thread"]],
    ids=lambda asked: asked[0],
)
def test_every_answer_as_json_is_as_its_schema_says(asked: list[str]) -> None:
    SCHEMA.validate(json.loads(size(*asked, "--json")))


def test_nothing_near_is_said() -> None:
    assert size("300 mm", "--as", "thread").strip() == "No standard size in the tables has these dimensions."
    assert json.loads(size("300 mm", "--as", "thread", "--json"))["sorts"] == []


def test_decimals_are_typed_as_the_language_has_them(tmp_path: Path) -> None:
    made = project(tmp_path / "p")
    settings = made / "mkdocs.yml"
    assert "25,4' is no size" in size("25,4 mm", folder=made, code=1)
    settings.write_text(settings.read_text().replace("[spanbook]", "[{spanbook: {language: de}}]"))
    assert size("25,4 mm", folder=made) == size("25.4 mm", folder=made)
    assert "is no size" in size("1.025,4 mm", folder=made, code=1)


def test_what_is_no_size_is_told_with_what_to_write() -> None:
    assert "has no unit; write one of in, thou, mm, cm, µm behind it" in size("5/16", code=1)
