"""How far a series ran, as a person reads it in a terminal."""

from __future__ import annotations

from spanbook.answers.totals import Total
from spanbook.reading.records import Series
from spanbook.wording.totals import none_seen_words, total_words


def as_text(series: Series, found: Total | None) -> str:
    return "\n".join(total_words(found, series) if found else [none_seen_words(series)])
