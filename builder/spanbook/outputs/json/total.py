"""How far a series ran as one JSON object; `schema/answer-total.json` is its law."""

from __future__ import annotations

from typing import Any

from spanbook.answers.totals import Total
from spanbook.reading.records import Series


def as_object(series: Series, found: Total | None) -> dict[str, Any]:
    made = {"kind": "total", "series": series.id, "seen": found.seen if found else 0}
    if found is None:
        return {**made, "highest": None, "estimate": None, "interval": None, "median": None}
    return {
        **made,
        "highest": found.highest,
        "estimate": found.estimate,
        "interval": [found.interval.first, found.interval.last],
        "median": found.median,
    }
