"""Nothing fitted at a position: on which machines, how sure that is, and on whose word."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from spanbook.reading.records import Absence
from spanbook.site.common import Site
from spanbook.site.page import Link, SitePage
from spanbook.site.views.assembly import page
from spanbook.wording.lists import ABSENCES


def pages(site: Site) -> Iterator[SitePage]:
    for absence in site.register.of(Absence).values():
        made = page(site, absence)
        yield replace(
            made,
            sort=ABSENCES.told().title,
            crumbs=(Link(ABSENCES.told().title, "absences/"), *made.crumbs[1:]),
            template="views/absence.html",
        )
