"""A cell as text, for files that know nothing else."""

from __future__ import annotations

import json

from spanbook.ground.table import Cell


def as_text(cell: Cell) -> str:
    """A list or a map as JSON, a truth as `true` or `false`, nothing as an empty text."""
    if cell is None:
        return ""
    return cell if isinstance(cell, str) else json.dumps(cell, ensure_ascii=False)
