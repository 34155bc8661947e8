"""The page of the data: its licence, its files with their hashes, and what every column means."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from spanbook.site import addresses
from spanbook.site.common import Site
from spanbook.site.page import SitePage
from spanbook.wording.data import DATA, forms


@dataclass(frozen=True, slots=True)
class DataView:
    """What each form of file is for; the files themselves come with the site around the page."""

    forms: Mapping[str, str]


def pages(site: Site) -> Iterator[SitePage]:
    words = DATA.told()
    yield SitePage(
        address=addresses.DATA,
        title=words.title,
        summary=words.summary,
        sort="List",
        crumbs=(),
        template="views/data.html",
        view=DataView(forms()),
    )
