"""Problems as one JSON object: how many records were read, and every problem with its place."""

from __future__ import annotations

from collections.abc import Sequence

from spanbook.outputs.json_text import json_text
from spanbook.reading.problems import Problem


def as_json(problems: Sequence[Problem], records: int) -> str:
    listed = [
        {
            "path": p.place.path,
            "line": p.place.line,
            "column": p.place.column,
            "severity": str(p.severity),
            "name": p.name,
            "read": p.read,
            "todo": p.todo,
        }
        for p in problems
    ]
    return json_text({"records": records, "problems": listed}, indent=1)
