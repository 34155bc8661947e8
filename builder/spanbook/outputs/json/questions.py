"""The open questions as one JSON object; `schema/answer-questions.json` is its law."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from spanbook.answers.questions import Question
from spanbook.outputs.json.codes import published
from spanbook.register.model import Register
from spanbook.wording.questions import question_words


def as_object(register: Register, found: Iterable[Question]) -> dict[str, Any]:
    return {
        "kind": "questions",
        "questions": [
            {
                "about": published(q.about),
                "position": q.position,
                "series": q.series.id,
                "first": q.first,
                "last": q.last,
                "runs": [[run.first, run.last] for run in q.runs],
                "machines": q.machines,
                "unsure": round(q.unsure, 6),
                "worth": round(q.worth, 6),
                "words": question_words(register, q),
                "assemblies": [assembly.id for assembly in q.assemblies],
                **_measured(q),
            }
            for q in found
        ],
    }


def _measured(question: Question) -> dict[str, Any]:
    one = question.measure
    told = {"circuit": one.circuit.id, "way": one.way.id, "what": list(one.what)} if one else None
    return {"measure": told} if told else {}
