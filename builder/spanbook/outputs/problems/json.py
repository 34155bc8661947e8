"""Problems as one JSON object: how many records were read, and every problem with its place."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from spanbook.outputs.json_text import json_text
from spanbook.reading.problems import Problem


def as_json(problems: Sequence[Problem], records: int) -> str:
    return json_text({"records": records, "problems": [*map(problem_object, problems)]}, indent=1)


def problem_object(problem: Problem) -> dict[str, Any]:
    """One problem; line and column count from 1."""
    return {
        "path": problem.place.path,
        "line": problem.place.line,
        "column": problem.place.column,
        "severity": str(problem.severity),
        "name": problem.name,
        "read": problem.read,
        "todo": problem.todo,
    }
