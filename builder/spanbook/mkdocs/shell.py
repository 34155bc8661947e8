"""Record pages inside the MkDocs theme, without paying for the theme once a page.

The theme is rendered once for each folder depth, with marks where a page differs; every record page at
that depth is then that text with its own values in. All that knows MkDocs is here and in `plugin.py`.
"""

from __future__ import annotations

import os
import re
from base64 import b64encode
from collections.abc import Iterable, Iterator
from dataclasses import replace
from hashlib import sha256
from pathlib import Path
from urllib.parse import urlsplit

from jinja2 import BaseLoader, ChoiceLoader, DictLoader, Environment
from mkdocs.commands.build import get_context
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.structure.toc import AnchorLink, TableOfContents
from mkdocs.utils.templates import TemplateContext

from spanbook.mkdocs.frames import plain
from spanbook.site import linked
from spanbook.site.page import Around, SitePage

_HTML = (".html", ".htm", ".xhtml", ".xht")
# Where space is kept as it stands.
_KEPT = re.compile(r"(<(?:script|style|pre|textarea)\b.*?</(?:script|style|pre|textarea)>)", re.DOTALL)
_LINES = re.compile(r"\s*\n\s*")
_ID = re.compile(r' id="([^"]+)"')
_MARK = "\ufdd0{}\ufdd1"  # noncharacters: no theme, title or address has them
# Where `theme/main.html` wants the content security policy.
POLICY_MARK = "spanbook-policy"
# What differs from page to page, and how a page gives it to the captured shell.
_SLOTS = {
    "title": "page.meta.title|e",
    "description": "page.meta.description|e",
    "canonical": "page.canonical_url|e",
    "shared": "page.meta.shared",
    "content": "page.content",
}


_MARKS = {name: _MARK.format(name) for name in _SLOTS}


class RecordPage(Page):
    """A page whose inside is made from records; MkDocs and its plugins treat it like any other."""

    def __init__(
        self, made: SitePage, file: File, config: MkDocsConfig, around: Around, shared: str = ""
    ) -> None:
        super().__init__(made.title, file, config)
        self._made = made
        self._shared = shared
        self._around = replace(around, edit_url=self.edit_url, canonical=self.canonical_url)

    @property
    def own_path(self) -> str | None:
        """Where in the content folder the record lies that it is about, if it is about one."""
        record = self._made.own_record
        return record.origin.path.partition("/")[2] if record else None

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
            "shared": self._shared,
            "template": _shell_name(depth_of(self.file)),
            "hide": ["toc"],
            "record": True,
        }

    def render(self, config: MkDocsConfig, files: Files) -> None:
        self.content = self._made.to_html(self._around) + linked.element(self._made, self._around)
        self.present_anchor_ids = set(_ID.findall(self.content))
        self.links_to_anchors = {}


def record_file(made: SitePage, config: MkDocsConfig) -> File:
    """The generated file of a page: out of the nav, and edited where its record stands."""
    hub = not made.crumbs
    name = f"{made.address}index.md" if hub else f"{made.address.rstrip('/')}.md"
    inclusion = InclusionLevel.INCLUDED if hub else InclusionLevel.NOT_IN_NAV
    file = File.generated(config, name, content="", inclusion=inclusion)
    content = f"{Path(config.docs_dir).name}/"  # how records' paths begin
    file.edit_uri = made.record.origin.path.removeprefix(content) if made.record else None
    return file


def depth_of(file: File) -> int:
    """How many folders deep a page stands: pages as deep as each other have the same shell."""
    return file.dest_uri.count("/")


def _shell_name(depth: int) -> str:
    return f"spanbook-shell-{depth}.html"


def _apart(depth: int, config: MkDocsConfig) -> File:
    """A file so deep in a folder of its own: links from it hold from every page that is as deep."""
    return File.generated(config, f"{'/'.join(['-'] * depth) or 'index'}.md", content="")


def add_shells(
    env: Environment, files: Iterable[File], nav: Navigation, config: MkDocsConfig, made_for: bool
) -> dict[int, str]:
    """Give the theme's environment a captured shell for each depth at which a page stands.

    The content security policy of each depth comes back, for the pages that the theme renders itself.
    """
    every = list(files)
    depths = {depth_of(file) for file in every if file.page is not None}
    captured = {
        depth: capture(env, get_context(nav, every, config, _blank(depth, config)), made_for)
        for depth in depths
    }
    policies = {depth: policy_of(shell) for depth, shell in captured.items()}
    shells = {_shell_name(depth): _as_template(guarded(captured[depth], policies[depth])) for depth in depths}
    loader = env.loader
    assert isinstance(loader, BaseLoader), "a theme has a loader"
    env.loader = ChoiceLoader([DictLoader(shells), loader])
    return policies


def capture(env: Environment, context: TemplateContext, made_for: bool) -> str:
    """The theme around the blank page of a context, with marks where a page's own things go.

    `made_for` says that the theme has our pieces in its templates.
    """
    page = context["page"]
    assert page is not None, "a context of a page"
    if not made_for:
        page.content = plain.inside(env, context, _MARKS["content"])
    html = env.get_template("main.html").render(context)
    return squeezed(mended(html if made_for else plain.headed(env, context, html)))


def squeezed(html: str) -> str:
    """HTML without the empty lines and indentation of the templates it was made by, which no reader sees."""
    parts = _KEPT.split(html)
    return "".join(part if i % 2 else _LINES.sub("\n", part) for i, part in enumerate(parts))


def _as_template(captured: str) -> str:
    template = re.sub(r"\{(?=[{%#])", "{{ '{' }}", captured)
    for name, expression in _SLOTS.items():
        template = template.replace(_MARKS[name], f"{{{{ {expression} }}}}")
    return template


def policy_of(shell: str) -> str:
    """A content security policy that lets the inline scripts of a shell run, by their hashes, and no other.

    A shell is the theme as installed: nothing that a record or a guide says is in it.
    """
    inline = re.findall(r"<script>(.*?)</script>", shell, re.DOTALL)
    hashes = {f"'sha256-{b64encode(sha256(text.encode()).digest()).decode()}'" for text in inline}
    # From a folder on a stick a page's own files are not "self" to every browser.
    return (
        f"default-src 'self' file:; script-src 'self' file: {' '.join(sorted(hashes))}; "
        "style-src 'self' file:; img-src 'self' file: data:; connect-src 'self'; form-action 'self' file:; "
        "frame-src 'none'; object-src 'none'; base-uri 'none'"
    )


def guarded(html: str, policy: str) -> str:
    """A page with its policy in place of the mark of the theme's override, or at the beginning of its head.

    Raises PluginError for a page that has no head to put it in.
    """
    if POLICY_MARK in html:
        return html.replace(POLICY_MARK, policy)
    return plain.after_head(html, f'<meta http-equiv="Content-Security-Policy" content="{policy}">')


def unguarded(site: Path, known: frozenset[str]) -> Iterator[str]:
    """The HTML files of a built site that have no policy: not of ours, which are `known`, but copied ones."""
    for folder, _, names in os.walk(site):
        for path in (Path(folder, name) for name in names if name.lower().endswith(_HTML)):
            address = path.relative_to(site).as_posix()
            if address not in known and b"Content-Security-Policy" not in path.read_bytes():
                yield address


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


def _blank(depth: int, config: MkDocsConfig) -> Page:
    page = _Blank(_apart(depth, config), config)
    page.meta = {
        "title": _MARKS["title"],
        "description": _MARKS["description"],
        "shared": _MARKS["shared"],
        "hide": ["toc"],
        "record": True,
    }
    page.canonical_url = _MARKS["canonical"] if config.site_url else None
    page.edit_url = None
    page.content = _MARKS["content"]
    page.toc = TableOfContents([AnchorLink("", "record", 1)])
    return page


def has_template(config: MkDocsConfig, name: object) -> bool:
    """Whether a page may ask for a template: the main one, or a file of the project's own theme folder."""
    if name == "main.html":
        return True
    own = config.theme.custom_dir
    if not isinstance(name, str) or not own:
        return False
    file = Path(own, name)
    return ".." not in file.parts and file.is_file()
