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
    page, looked = words.REPORT.told(), words.looked()
    yield SitePage(
        address=addresses.REPORT,
        title=page.title,
        summary=page.summary,
        sort="List",
        crumbs=(),
        template="views/report.html",
        view=ReportView(
            words.labels(),
            json.dumps({**words.words(), "looked": looked}, ensure_ascii=False),
            looked,
            Link(FORMS.told().title, addresses.FORMS),
        ),
    )
