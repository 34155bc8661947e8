"""The pages that somebody has written by hand, in their frame: what is ours on them, and one made alone."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from copy import copy
from dataclasses import dataclass, replace
from functools import cached_property
from threading import Lock
from typing import Any
from urllib.parse import unquote

from jinja2 import Environment
from mkdocs.commands.build import get_context
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure import StructureItem
from mkdocs.structure.files import File, Files
from mkdocs.structure.nav import Navigation, Section
from mkdocs.structure.pages import Page
from mkdocs.utils.templates import TemplateContext

from spanbook.mkdocs import shell
from spanbook.mkdocs.frames import plain
from spanbook.site import views
from spanbook.site.common import Site

# A guide's heading and first paragraph, where it begins with them.
_OPENING = re.compile(r"\A\s*(?:<h1\b.*?</h1>)?\s*(?:<p>.*?</p>)?", re.DOTALL)


@dataclass(frozen=True, slots=True)
class Framing:
    """What a build puts on a guide: `front` tells of the records on the first page, `made_for` says that the
    theme has our pieces in its templates, and `policies` are for each depth."""

    env: Environment
    made_for: bool
    policies: Mapping[int, str]
    front: Callable[[], str]

    def inside(self, page: Page, context: TemplateContext) -> str:
        """What a page shows."""
        html = page.content or ""
        if page.is_homepage:
            # After what the guide says first of the site, and before everything else that it has to say.
            html = _OPENING.sub(lambda opening: opening[0] + self.front(), html, count=1)
        return html if self.made_for else plain.inside(self.env, context, html)

    def whole(self, page: Page, context: TemplateContext, html: str) -> str:
        """A page as its template made it, with what every page of ours has in its head."""
        if not self.made_for:
            html = plain.headed(self.env, context, html)
        return shell.guarded(shell.mended(html), self.policies[shell.depth_of(page.file)])


class GuidePages:
    """The guides of a build, made when they are asked for.

    They are copies in a navigation of their own: MkDocs may be making the same pages in another thread.
    """

    def __init__(
        self,
        framing: Framing,
        site: Site,
        nav: Navigation,
        every: Sequence[File],
        files: Files,
        config: MkDocsConfig,
    ) -> None:
        self._framing = replace(framing, front=lambda: self._front)
        self._site = site
        self._nav = _copied(nav)
        self._every = every
        self._files = files
        self._config = config
        self._making = Lock()
        shown = {id(page.file): page for page in self._nav.pages}
        guides = (file for file in every if file.page is not None and file.generated_by is None)
        self._pages = {file.src_uri: shown.get(id(file)) or copy(file.page) for file in guides}

    @cached_property
    def _front(self) -> str:
        return views.front(self._site)

    def page(self, address: str) -> str | None:
        """The guide at an address; None where there is none."""
        found = (one for one in self._pages.values() if one is not None and unquote(one.url) == address)
        page = next(found, None)
        if page is None:
            return None
        with self._making:
            page.active = True
            try:
                return self._made(page)
            finally:
                page.active = False

    def read_again(self, paths: Collection[str]) -> bool:
        """Read guides that were edited, by their paths in the content folder; whether there was any.

        Raises what MkDocs raises for a guide that cannot be read.
        """
        edited = [page for path, page in self._pages.items() if page is not None and path in paths]
        with self._making:
            for page in edited:
                page.read_source(self._config)
                page.render(self._config, self._files)
        return bool(edited)

    def _made(self, page: Page) -> str:
        context = get_context(self._nav, self._every, self._config, page)
        kept = page.content
        page.content = self._framing.inside(page, context)
        try:
            html = self._framing.env.get_template(template_of(page, self._config)).render(context)
        finally:
            page.content = kept
        return self._framing.whole(page, context, html)


def template_of(page: Page, config: MkDocsConfig) -> str:
    """A guide may ask for a template of the project's own: any other stops a build, or shows a fragment."""
    asked = page.meta.get("template", "main.html")
    return asked if shell.has_template(config, asked) else "main.html"


def _copied(nav: Navigation) -> Navigation:
    items = [_copy_of(item, None) for item in nav.items]
    return Navigation(items, [item for item in _all(items) if isinstance(item, Page)])


def _copy_of(item: StructureItem, above: Section | None) -> StructureItem:
    made = copy(item)
    made.parent = above
    if isinstance(made, Section):
        made.children = [_copy_of(one, made) for one in made.children]
    return made


def _all(items: Sequence[StructureItem]) -> Iterator[Any]:
    for item in items:
        yield item
        if isinstance(item, Section):
            yield from _all(item.children)
