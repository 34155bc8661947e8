"""The day of each page for the sitemap: that of the last change of its record or guide, as git has it."""

from __future__ import annotations

from pathlib import Path

from mkdocs.structure.files import Files

from spanbook.mkdocs.shell import RecordPage
from spanbook.reading.git import days_of


def tell_days(files: Files, content: Path) -> None:
    """A page of several records has the day of the newest of all; without git the day of the build stays."""
    days = days_of(content)
    if not days:
        return
    newest = max(days.values())
    for file in files.documentation_pages():
        page = file.page
        own = page.own_path if isinstance(page, RecordPage) else file.src_uri
        if page is not None:
            page.update_date = days.get(own or "", newest)
