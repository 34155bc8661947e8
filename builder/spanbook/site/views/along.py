"""The page by which the site is taken along: kept on a device, or as one file for the workshop."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import asdict, dataclass

from spanbook.ground.language import gettext as _
from spanbook.site import addresses, scripts
from spanbook.site.along.machines import table_of
from spanbook.site.common import Site
from spanbook.site.page import Link, SitePage
from spanbook.wording.along import ALONG, device, workshop


@dataclass(frozen=True, slots=True)
class Choice:
    """A machine, and the table of the pages that are about it."""

    title: str
    table: str


@dataclass(frozen=True, slots=True)
class AlongView:
    device: Mapping[str, str]
    workshop: Mapping[str, str]
    machines: tuple[Choice, ...]
    script: str = scripts.ALONG


def pages(site: Site) -> Iterator[SitePage]:
    words = ALONG.told()
    machines = tuple(Choice(one.title, table_of(one)) for one in site.register.machines.values())
    yield SitePage(
        address=addresses.ALONG,
        title=words.title,
        summary=words.summary,
        sort="List",
        crumbs=(Link(_("Home"), ""),),
        template="views/along.html",
        view=AlongView(asdict(device()), asdict(workshop()), machines),
    )
