"""The page of results: everything that is found for a query, under an address of its own."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.ground.language import gettext as _
from spanbook.site import addresses
from spanbook.site.common import Site
from spanbook.site.page import Link, SitePage
from spanbook.wording.pages import FIND


def pages(site: Site) -> Iterator[SitePage]:
    words = FIND.told()
    yield SitePage(
        address=addresses.FIND,
        title=words.title,
        summary=words.summary,
        sort="List",
        crumbs=(Link(_("Home"), ""),),
        template="views/find.html",
        view=None,
    )
