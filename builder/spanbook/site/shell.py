"""Record pages inside the MkDocs theme, without paying for the theme once a page.

The theme is rendered once for each folder depth, with marks where a page differs; every record page at
that depth is then that text with its own values in. All that knows MkDocs is here and in `plugin.py`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace
from urllib.parse import urlsplit

from jinja2 import BaseLoader, ChoiceLoader, DictLoader, Environment
from mkdocs.commands.build import get_context
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.structure.toc import AnchorLink, TableOfContents

from spanbook.site.page import Around, SitePage

_ID = re.compile(r' id="([^"]+)"')
_MARK = "\ufdd0{}\ufdd1"  # noncharacters: no theme, title or address has them
# What differs from page to page, and how a page gives it to the captured shell.
_SLOTS = {
    "title": "page.meta.title|e",
    "description": "page.meta.description|e",
    "canonical": "page.canonical_url|e",
    "content": "page.content",
}


class RecordPage(Page):
    """A page whose inside is made from records; MkDocs and its plugins treat it like any other."""

    def __init__(self, made: SitePage, file: File, config: MkDocsConfig, around: Around) -> None:
        super().__init__(made.title, file, config)
        self._made = made
        self._around = replace(around, edit_url=self.edit_url, canonical=self.canonical_url)

    def _set_canonical_url(self, base: str | None) -> None:
        # MkDocs joins and splits addresses in general; a page's own only follows the site's.
        site = f"{base.rstrip('/')}/" if base else None
        self.canonical_url = f"{site}{self.url}" if site else None
        self.abs_url = urlsplit(site).path + self.url if site else None

    def read_source(self, config: MkDocsConfig) -> None:
        self.markdown = ""
        self.meta = {
            "title": self._made.title,
            "description": self._made.summary,
            "template": _shell_name(self.file),
            "hide": ["toc"],
            "record": True,
        }

    def render(self, config: MkDocsConfig, files: Files) -> None:
        self.content = self._made.to_html(self._around)
        self.present_anchor_ids = set(_ID.findall(self.content))
        self.links_to_anchors = {}


def record_file(made: SitePage, config: MkDocsConfig, content: str) -> File:
    """The generated file of a page: out of the nav, and edited where its record stands.

    `content` is how records' paths begin, such as `content/`.
    """
    hub = not made.crumbs
    name = f"{made.address}index.md" if hub else f"{made.address.rstrip('/')}.md"
    inclusion = InclusionLevel.INCLUDED if hub else InclusionLevel.NOT_IN_NAV
    file = File.generated(config, name, content="", inclusion=inclusion)
    file.edit_uri = made.origin.path.removeprefix(content) if made.origin else None
    return file


def _shell_name(file: File) -> str:
    return f"spanbook-shell-{file.dest_uri.count('/')}.html"


def add_shells(env: Environment, files: Iterable[File], nav: Navigation, config: MkDocsConfig) -> None:
    """Give the theme's environment a captured shell for each depth at which a record page stands."""
    every = list(files)
    shells = {
        _shell_name(file): capture(env, file, every, nav, config)
        for file in {_shell_name(f): f for f in every if isinstance(f.page, RecordPage)}.values()
    }
    loader = env.loader
    assert isinstance(loader, BaseLoader), "a theme has a loader"
    env.loader = ChoiceLoader([DictLoader(shells), loader])


def capture(env: Environment, like: File, files: list[File], nav: Navigation, config: MkDocsConfig) -> str:
    """The theme around a page as deep as `like`, as a template with slots."""
    marks = {name: _MARK.format(name) for name in _SLOTS}
    page = _Blank(like, config)
    page.meta = {
        "title": marks["title"],
        "description": marks["description"],
        "hide": ["toc"],
        "record": True,
    }
    page.canonical_url = marks["canonical"] if config.site_url else None
    page.edit_url = None
    page.content = marks["content"]
    page.toc = TableOfContents([AnchorLink("", "record", 1)])
    rendered = mended(env.get_template("main.html").render(get_context(nav, files, config, page)))
    template = re.sub(r"\{(?=[{%#])", "{{ '{' }}", rendered)
    for name, expression in _SLOTS.items():
        template = template.replace(marks[name], f"{{{{ {expression} }}}}")
    return template


def mended(html: str) -> str:
    """The theme's HTML without its two faults: an attribute where it may not stand, and an empty number."""
    boxes = re.sub(r'(<input class="md-toggle"[^>]*?) autocomplete="off"', r"\1", html)
    return boxes.replace(' tabindex=""', "")


class _Blank(Page):
    """A stand-in page that leaves the file it stands for as it is."""

    def __init__(self, file: File, config: MkDocsConfig) -> None:
        kept = file.page
        super().__init__(None, file, config)
        file.page = kept
        self.markdown = ""
