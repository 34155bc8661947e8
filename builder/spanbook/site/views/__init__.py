"""Every page of the site. To add one: a module here, a template, a line below.

Its module has `pages(site)`, or `EACH` where it makes a page of each thing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any, TypeVar

from spanbook.site.common import Site
from spanbook.site.each import Each
from spanbook.site.page import SitePage
from spanbook.site.past import gone_pages, moved_pages, with_the_past
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

T = TypeVar("T")
# Either a page of each thing, or all that one module makes.
View = Each[Any] | Callable[[Site], Iterator[SitePage]]
VIEWS: tuple[View, ...] = (
    machine.EACH,
    retired_series.pages,
    place.EACH,
    position.EACH,
    questions.pages,
    questions.EACH,
    assembly.EACH,
    absence.pages,
    part.EACH,
    senses.pages,
    supersession.EACH,
    conversion.EACH,
    source.EACH,
    teardown.EACH,
    unit.EACH,
    strip_down.pages,
    circuit.EACH,
    holding.EACH,
    plan.pages,
    words_pages.pages,
    rules.pages,
    data.pages,
    changes.pages,
    index.pages,
    card.pages,
    find.pages,
    along.pages,
    forms.pages,
    report.pages,
)
# Those that make one page without the others, by how its address begins.
_UNDER: Mapping[str, tuple[Each[Any], ...]] = {
    "machines": (machine.EACH,),
    "positions": (position.EACH,),
    "series": (machine.EACH, place.EACH),
    "assemblies": (assembly.EACH,),
    "parts": (part.EACH,),
    "supersessions": (supersession.EACH,),
    "conversions": (conversion.EACH,),
    "sources": (source.EACH,),
    "teardowns": (teardown.EACH,),
    "units": (unit.EACH,),
    "circuits": (circuit.EACH,),
    "holding": (holding.EACH,),
    "which-part": (holding.EACH,),
}


def page_at(site: Site, address: str) -> SitePage | None:
    """The page of one thing, made alone; None for a page that is made of many, or is not there."""
    asked_for = _UNDER.get(address.partition("/")[0], ())
    made = (
        page
        for each in asked_for
        for thing in each.things(site)
        if each.address(thing) == address
        for page in pages_of_thing(site, each, thing)
    )
    return next((page for page in made if page.address == address), None)


def pages_of(site: Site, view: View) -> Iterator[SitePage]:
    """All pages of a view."""
    if isinstance(view, Each):
        return (page for thing in view.things(site) for page in pages_of_thing(site, view, thing))
    return (with_the_past(site, page) for page in view(site))


def pages_of_thing(site: Site, each: Each[T], thing: T) -> Iterator[SitePage]:
    return (with_the_past(site, page) for page in each.pages(site, thing))


def past_pages(site: Site, titles: Mapping[str, str]) -> Iterator[SitePage]:
    """The pages at addresses where something stood once; `titles` are those of today's pages."""
    yield from moved_pages(site, titles)
    yield from gone_pages(site)


def all_pages(site: Site) -> Iterator[SitePage]:
    """Every page made from a register without errors, each once."""
    titles: dict[str, str] = {}
    for view in VIEWS:
        for page in pages_of(site, view):
            titles[page.address] = page.title
            yield page
    yield from past_pages(site, titles)
