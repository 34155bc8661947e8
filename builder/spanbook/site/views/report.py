"""The page on which somebody tells what he found on a machine."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from spanbook.site import addresses, scripts
from spanbook.site.common import Site
from spanbook.site.page import Link, SitePage
from spanbook.wording import report as words
from spanbook.wording.pages import FORMS


@dataclass(frozen=True, slots=True)
class ReportView:
    """`said` are the words of the page's script as JSON; `looks` is what may be said of a whole machine."""

    words: Mapping[str, str]
    said: str
    looks: Mapping[str, str]
    forms: Link
    script: str = scripts.REPORT


def pages(site: Site) -> Iterator[SitePage]:
    yield SitePage(
        address=addresses.REPORT,
        title=words.REPORT.title,
        summary=words.REPORT.summary,
        sort="List",
        crumbs=(),
        template="views/report.html",
        view=ReportView(
            words.LABELS,
            json.dumps({**words.WORDS, "looked": words.LOOKED}, ensure_ascii=False),
            words.LOOKED,
            Link(FORMS.title, addresses.FORMS),
        ),
    )
