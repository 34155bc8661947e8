"""Every page of the site. To add one: a module here with `pages(site)`, a template, a line below."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.register import Register
from spanbook.site.page import SitePage
from spanbook.site.views import (
    assembly,
    conversion,
    index,
    machine,
    part,
    position,
    source,
    supersession,
    teardown,
    words_pages,
)
from spanbook.site.views.common import Site

VIEWS = (machine, position, assembly, part, supersession, conversion, source, teardown, words_pages, index)


def all_pages(register: Register) -> Iterator[SitePage]:
    """Every page made from a register without errors, each once."""
    site = Site(register)
    for view in VIEWS:
        yield from view.pages(site)
