"""Sources as they were typed."""

from __future__ import annotations

from dataclasses import dataclass, field

from spanbook.reading.basics import Record
from spanbook.reading.dated import YearSaid


@dataclass(frozen=True, slots=True, eq=False)
class Source(Record):
    sort: str = field(metadata={"key": "class"})  # Python keeps `class` for itself
    form: str | None
    edition: str | None
    year: YearSaid | None
    copy: str | None
    url: str | None
    licence: str | None
