"""What am I holding? A page for each position with several things to tell apart, and the list of those."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from spanbook.site import addresses, scripts
from spanbook.site.common import Site
from spanbook.site.holding.tables import table_of
from spanbook.site.page import Link, SitePage
from spanbook.wording.holding import (
    AGAIN,
    HOLDING,
    MORE,
    NEXT,
    NONE,
    REST,
    SAID,
    SERIAL,
    TAKE_BACK,
    USE,
    WITHOUT,
    holding_words,
)


@dataclass(frozen=True, slots=True)
class HoldingView:
    table: str
    position: Link
    without: str
    more: str
    next: str
    said: str
    take_back: str
    again: str
    rest: str
    serial: str
    use: str
    script: str = scripts.HOLDING


@dataclass(frozen=True, slots=True)
class HoldingsView:
    positions: tuple[Link, ...]
    none: str


def pages(site: Site) -> Iterator[SitePage]:
    paths = tuple(addresses.with_keys(site.register))
    yield SitePage(
        address=addresses.HOLDING,
        title=HOLDING.title,
        summary=HOLDING.summary,
        sort="List",
        crumbs=(),
        template="views/holdings.html",
        view=HoldingsView(tuple(Link(_place(site, path), addresses.of_key(path)) for path in paths), NONE),
    )
    for path in paths:
        words = holding_words(site.register.positions[path].title)
        yield SitePage(
            address=addresses.of_key(path),
            title=words.title,
            summary=words.summary,
            sort="List",
            crumbs=(Link(HOLDING.title, addresses.HOLDING),),
            template="views/holding.html",
            view=_view(site, path),
            position=path,
        )


def _view(site: Site, path: str) -> HoldingView:
    return HoldingView(
        table=table_of(path),
        position=site.position_links(path)[-1],
        without=WITHOUT,
        more=MORE,
        next=NEXT,
        said=SAID,
        take_back=TAKE_BACK,
        again=AGAIN,
        rest=REST,
        serial=SERIAL,
        use=USE,
    )


def _place(site: Site, path: str) -> str:
    return ": ".join(link.text for link in site.position_links(path))
