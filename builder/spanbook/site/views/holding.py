"""What am I holding, and which part? A page for each position with several to tell apart, and their lists."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from spanbook.ground.language import gettext as _
from spanbook.site import addresses, scripts
from spanbook.site.common import Site
from spanbook.site.holding.tables import table_of
from spanbook.site.page import Link, SitePage
from spanbook.wording.holding import HOLDING, NO_PARTS, NONE, WHICH_PART, holding_words, page_words


@dataclass(frozen=True, slots=True)
class HoldingView:
    """`whats` are the names of the sizes that are recorded of what may be held."""

    table: str
    position: Link
    other: Link | None
    whats: tuple[str, ...]
    words: Mapping[str, str]
    script: str = scripts.HOLDING


@dataclass(frozen=True, slots=True)
class HoldingsView:
    positions: tuple[Link, ...]
    none: str


def pages(site: Site) -> Iterator[SitePage]:
    for parts in (False, True):
        yield from _pages(site, parts=parts)


def _pages(site: Site, *, parts: bool) -> Iterator[SitePage]:
    asked = (WHICH_PART if parts else HOLDING).told()
    top = addresses.WHICH_PART if parts else addresses.HOLDING
    keys = {path: address for (path, of_parts), address in site.keys.items() if of_parts == parts}
    links = tuple(Link(_place(site, path), address) for path, address in keys.items())
    yield SitePage(
        address=top,
        title=asked.title,
        summary=asked.summary,
        sort="List",
        crumbs=(),
        template="views/holdings.html",
        view=HoldingsView(links, _(NO_PARTS if parts else NONE)),
    )
    for path, address in keys.items():
        words = holding_words(site.register.positions[path].title, parts=parts)
        yield SitePage(
            address=address,
            title=words.title,
            summary=words.summary,
            sort="List",
            crumbs=(Link(asked.title, top),),
            template="views/holding.html",
            view=_view(site, path, parts=parts),
            position=path,
        )


def _view(site: Site, path: str, *, parts: bool) -> HoldingView:
    other = site.keys.get((path, not parts))
    words = (HOLDING if parts else WHICH_PART).told()
    sizes = (size.what for thing in site.answers.key(path, parts=parts).things for size in thing.sizes)
    return HoldingView(
        table=table_of(path, parts=parts),
        position=site.position_links(path)[-1],
        other=Link(words.title, other) if other else None,
        whats=tuple(dict.fromkeys(sizes)),
        words=page_words(),
    )


def _place(site: Site, path: str) -> str:
    return _(": ").join(link.text for link in site.position_links(path))
