"""Problems as SARIF 2.1.0 (OASIS standard, 27 March 2020)."""

from __future__ import annotations

import os
from collections.abc import Sequence
from importlib.metadata import version
from typing import Any
from urllib.parse import quote

from spanbook.ground.punctuation import parted
from spanbook.outputs.json_text import json_text
from spanbook.outputs.problems.gitlab import fingerprint
from spanbook.reading.problems import Problem, Rule, Severity
from spanbook.rules import RULES
from spanbook.wording.rules import explanation, reason

_LEVELS = {Severity.ERROR: "error", Severity.WARNING: "warning", Severity.ADVICE: "note"}


def as_sarif(problems: Sequence[Problem], records: int) -> str:
    names = sorted({problem.name for problem in problems})
    driver = {
        "name": "spanbook",
        "version": version("spanbook"),
        "rules": [_rule(RULES[name]) for name in names],
    }
    run = {
        "tool": {"driver": driver},
        "columnKind": "unicodeCodePoints",
        "results": [_result(problem, names.index(problem.name)) for problem in problems],
    }
    document = {"$schema": "https://json.schemastore.org/sarif-2.1.0.json", "version": "2.1.0", "runs": [run]}
    return json_text(document, indent=1)


def _rule(rule: Rule) -> dict[str, Any]:
    explained = explanation(rule)
    return {
        "id": rule.name,
        "shortDescription": {"text": reason(rule)},
        "help": {"text": explained, "markdown": explained},
        "defaultConfiguration": {"level": _LEVELS[rule.severity]},
    }


def _result(problem: Problem, rule: int) -> dict[str, Any]:
    at = problem.place
    uri = quote(os.fsencode(at.path))  # the bytes of the name, whatever alphabet they are in
    place = {
        "artifactLocation": {"uri": uri},
        "region": {"startLine": at.line, "startColumn": at.column},
    }
    return {
        "ruleId": problem.name,
        "ruleIndex": rule,
        "level": _LEVELS[problem.severity],
        "message": {"text": parted(problem.read, problem.todo)},
        "locations": [{"physicalLocation": place}],
        "partialFingerprints": {"subject/v1": fingerprint(problem.name, at.path, problem.read)},
    }
