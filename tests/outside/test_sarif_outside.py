"""SARIF 2.1.0 against the schema of OASIS (27 March 2020) as npm `@microsoft/jest-sarif` ships it."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from jsonschema import Draft4Validator

from spanbook.outputs.problems.forms import FORMS
from spanbook.rules import RULES
from spanbook.rules.checking import check_folder
from tests.outputs.test_problems import EVIL
from tests.support import worlds
from tests.support.command import BAD
from tests.support.npm import npm
from tests.support.rows import each_row

SCHEMA = "@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json"
CASES = json.loads((Path(__file__).parent / "data/11_sarif_cases.json").read_text(encoding="utf-8"))


def faults(document: Any) -> list[str]:
    schema = json.loads(npm(SCHEMA).read_text(encoding="utf-8"))
    return [error.message for error in Draft4Validator(schema).iter_errors(document)]


@each_row("case", CASES)
def test_the_checker_itself_tells_good_from_bad(case: dict[str, Any]) -> None:
    assert (not faults(case["doc"])) == case["valid"]


def test_ours_is_valid(tmp_path: Path) -> None:
    worlds.lay(tmp_path, BAD)
    problems = check_folder(tmp_path).problems
    for told in (problems, (), (EVIL, *problems, EVIL)):
        document = json.loads(FORMS["sarif"](told, 5))
        assert faults(document) == []
        (run,) = document["runs"]
        assert len(run["results"]) == len(told)
        for result, problem in zip(run["results"], told, strict=True):
            rule = run["tool"]["driver"]["rules"][result["ruleIndex"]]
            assert rule["id"] == problem.name
            assert rule["shortDescription"]["text"] == RULES[problem.name].reason
            assert RULES[problem.name].good.splitlines()[-1] in rule["help"]["text"]
            region = result["locations"][0]["physicalLocation"]["region"]
            assert (region["startLine"], region["startColumn"]) == (problem.place.line, problem.place.column)
