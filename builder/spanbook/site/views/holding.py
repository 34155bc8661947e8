"""What am I holding, and which part? A page for each position with several to tell apart, and their lists."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from spanbook.ground.language import gettext as _
from spanbook.site import addresses, scripts
from spanbook.site.common import Site
from spanbook.site.each import Each
from spanbook.site.holding.tables import table_of
from spanbook.site.page import Link, SitePage
from spanbook.wording.holding import HOLDING, NO_PARTS, NONE, WHICH_PART, holding_words, page_words
from spanbook.wording.pages import PageWords


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


_Asked = tuple[str, bool]  # a position, or none for the list of all, and whether of parts


def _asked(site: Site) -> Iterator[_Asked]:
    for parts in (False, True):
        yield "", parts
        yield from (one for one in site.keys if one[1] == parts)


def _address(asked: _Asked) -> str:
    path, parts = asked
    return addresses.of_key(path, parts=parts) if path else _top(parts=parts)


def _top(*, parts: bool) -> str:
    return addresses.WHICH_PART if parts else addresses.HOLDING


def _pages(site: Site, asked: _Asked) -> Iterator[SitePage]:
    path, parts = asked
    yield _page(site, path, parts=parts) if path else _list(site, parts=parts)


EACH = Each(_asked, _address, _pages)


def _list(site: Site, *, parts: bool) -> SitePage:
    words = _words(parts=parts)
    keys = ((path, address) for (path, of_parts), address in site.keys.items() if of_parts == parts)
    links = tuple(Link(_place(site, path), address) for path, address in keys)
    return SitePage(
        address=_top(parts=parts),
        title=words.title,
        summary=words.summary,
        sort="List",
        crumbs=(),
        template="views/holdings.html",
        view=HoldingsView(links, _(NO_PARTS if parts else NONE)),
    )


def _page(site: Site, path: str, *, parts: bool) -> SitePage:
    words = holding_words(site.register.positions[path].title, parts=parts)
    return SitePage(
        address=addresses.of_key(path, parts=parts),
        title=words.title,
        summary=words.summary,
        sort="List",
        crumbs=(Link(_words(parts=parts).title, _top(parts=parts)),),
        template="views/holding.html",
        view=_view(site, path, parts=parts),
        position=path,
    )


def _words(*, parts: bool) -> PageWords:
    return (WHICH_PART if parts else HOLDING).told()


def _view(site: Site, path: str, *, parts: bool) -> HoldingView:
    other = site.keys.get((path, not parts))
    words = _words(parts=not parts)
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
