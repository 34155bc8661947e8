"""What an import gives as one JSON object; `schema/answer-import.json` is its law."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from spanbook.editing.sheets import Alike, Draft, Left, Standing
from spanbook.outputs.problems.json import problem_object
from spanbook.reading.problems import Problem
from spanbook.reading.sheets import Sheet, letter_of

Object = dict[str, Any]


def import_object(
    sheet: Sheet,
    rows: int,
    files: Iterable[tuple[str, str, Draft | None]],
    standing: Mapping[str, Standing],
    left: Sequence[Left],
    same: Sequence[Alike],
    problems: Sequence[Problem],
) -> Object:
    """All of it; `files` are paths in the folder of the drafts, what becomes of each, and its draft."""
    return {
        "kind": "import",
        "file": sheet.file,
        "sheet": sheet.name or None,
        "macros": sheet.macros,
        "rows": rows,
        "drafts": [
            {
                "path": path,
                "fate": fate,
                "id": draft.id if draft else None,
                "rows": list(draft.rows) if draft else [],
            }
            for path, fate, draft in files
        ],
        "standing": [{"id": id_, "state": str(one.state), "path": one.path} for id_, one in standing.items()],
        "left": [_left(one) for one in left],
        "alike": [
            {
                "draft": one.draft,
                "said": one.said,
                "other": one.other,
                "other-said": one.other_said,
                "path": one.path or None,
            }
            for one in same
        ],
        "problems": [problem_object(one) for one in problems],
    }


def _left(one: Left) -> Object:
    return {
        "why": str(one.why),
        "row": one.row or None,
        "column": letter_of(one.column) or None,
        "heading": one.heading,
        "read": one.read,
        "about": one.about,
    }
