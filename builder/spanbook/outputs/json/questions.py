"""The open questions as one JSON object; `schema/answer-questions.json` is its law."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from spanbook.answers.questions import Question


def as_object(found: Iterable[Question]) -> dict[str, Any]:
    return {
        "kind": "questions",
        "questions": [
            {
                "about": str(q.about),
                "position": q.position,
                "series": q.series.id,
                "first": q.first,
                "last": q.last,
                "machines": q.machines,
                "unsure": round(q.unsure, 6),
                "worth": round(q.worth, 6),
                "words": q.words,
                "assemblies": [assembly.id for assembly in q.assemblies],
            }
            for q in found
        ],
    }
