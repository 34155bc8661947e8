"""Every page of the site. To add one: a module here with `pages(site)`, a template, a line below."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from spanbook.site.common import Site
from spanbook.site.page import SitePage
from spanbook.site.permanent import gone_pages, moved_pages, with_the_past
from spanbook.site.views import (
    absence,
    along,
    assembly,
    card,
    changes,
    circuit,
    conversion,
    data,
    find,
    forms,
    holding,
    index,
    machine,
    part,
    place,
    plan,
    position,
    questions,
    report,
    retired_series,
    rules,
    senses,
    source,
    strip_down,
    supersession,
    teardown,
    unit,
    words_pages,
)
from spanbook.site.views.front import front as front

VIEWS = (
    machine,
    retired_series,
    place,
    position,
    questions,
    assembly,
    absence,
    part,
    senses,
    supersession,
    conversion,
    source,
    teardown,
    unit,
    strip_down,
    circuit,
    holding,
    plan,
    words_pages,
    rules,
    data,
    changes,
    index,
    card,
    find,
    along,
    forms,
    report,
)


# Those that make one page without the others, by how its address begins.
_UNDER = {
    "machines": (machine,),
    "positions": (position,),
    "series": (machine, place),
    "assemblies": (assembly,),
    "parts": (part,),
    "supersessions": (supersession,),
    "conversions": (conversion,),
    "sources": (source,),
    "teardowns": (teardown,),
    "units": (unit,),
    "circuits": (circuit,),
}
# They can be made in shares, too.
EACH = tuple(dict.fromkeys(view for views in _UNDER.values() for view in views))


def page_at(site: Site, address: str) -> SitePage | None:
    """The page of one thing, made alone; None for a page that is made of many, or is not there."""
    asked = replace(site, only=address)
    asked_for = _UNDER.get(address.partition("/")[0], ())
    found = (page for view in asked_for for page in view.pages(asked))
    return next((with_the_past(site, page) for page in found if page.address == address), None)


def pages_of(site: Site, view: int) -> Iterator[SitePage]:
    """The pages of a view by its place among all; of those in EACH, a share's where one is asked for."""
    return (with_the_past(site, page) for page in VIEWS[view].pages(site))


def past_pages(site: Site, titles: Mapping[str, str]) -> Iterator[SitePage]:
    """The pages at addresses where something stood once; `titles` are those of today's pages."""
    yield from moved_pages(site, titles)
    yield from gone_pages(site)


def all_pages(site: Site) -> Iterator[SitePage]:
    """Every page made from a register without errors, each once."""
    titles: dict[str, str] = {}
    for view in range(len(VIEWS)):
        for page in pages_of(site, view):
            titles[page.address] = page.title
            yield page
    yield from past_pages(site, titles)
