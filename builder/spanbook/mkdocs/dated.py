"""The day of each page for the sitemap: that of the last change of its record or guide, as git has it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from mkdocs.utils import get_build_date

from spanbook.reading.git import days_of


@dataclass(frozen=True, slots=True)
class Days:
    """A page of several records has the day of the newest of all; without git it is the day of the build."""

    known: Mapping[str, str]
    newest: str

    @classmethod
    def in_folder(cls, content: Path) -> Days:
        days = days_of(content)
        return cls(days, max(days.values(), default=get_build_date()))

    def of(self, path: str | None) -> str:
        """Of the page that is about the file at a path in the folder."""
        return self.known.get(path or "", self.newest)
