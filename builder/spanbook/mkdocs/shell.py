"""Record pages inside the MkDocs theme, without paying for the theme once a page.

The theme is rendered once for each folder depth, with marks where a page differs; every record page at
that depth is then that text with its own values in. All that knows MkDocs is here and in `plugin.py`.
"""

from __future__ import annotations

import re
from base64 import b64encode
from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from hashlib import sha256
from pathlib import Path
from types import SimpleNamespace
from typing import cast
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
from spanbook.press.shells import MARKS
from spanbook.press.work import ANCHOR, inside, own_path
from spanbook.site.page import Around, SitePage

_HTML = (".html", ".htm", ".xhtml", ".xht")
# Where space is kept as it stands.
_KEPT = re.compile(r"(<(?:script|style|pre|textarea)\b.*?</(?:script|style|pre|textarea)>)", re.DOTALL)
_LINES = re.compile(r"\s*\n\s*")
# Where `theme/main.html` wants the content security policy.
POLICY_MARK = "spanbook-policy"
# How a page of MkDocs gives to the captured shell what differs from page to page.
_EXPRESSIONS = {
    "title": "page.meta.title|e",
    "description": "page.meta.description|e",
    "canonical": "page.canonical_url|e",
    "shared": "page.meta.shared",
    "content": "page.content",
}


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
        return own_path(self._made)

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
        self.content = inside(self._made, self._around)
        self.present_anchor_ids = set(ANCHOR.findall(self.content))
        self.links_to_anchors = {}


def file_at(address: str, hub: bool, config: MkDocsConfig) -> File:
    """The generated file of a page; that of a hub alone is in the nav, if nobody says what is."""
    name = f"{address}index.md" if hub else f"{address.rstrip('/')}.md"
    inclusion = InclusionLevel.INCLUDED if hub else InclusionLevel.NOT_IN_NAV
    return File.generated(config, name, content="", inclusion=inclusion)


def record_file(made: SitePage, config: MkDocsConfig) -> File:
    """The file of a page, which is edited where its record stands."""
    file = file_at(made.address, not made.crumbs, config)
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


@dataclass(frozen=True, slots=True)
class Edited:
    """Where a record is edited, by its path in the content folder: as MkDocs says it of a guide."""

    repo: str | None
    uri: str | None
    template: str | None

    def __call__(self, path: str) -> str | None:
        page = SimpleNamespace(file=SimpleNamespace(edit_uri=path), edit_url=None)
        Page._set_edit_url(cast(Page, page), self.repo, self.uri, self.template)
        return cast("str | None", page.edit_url)


def captured(
    env: Environment,
    every: Sequence[File],
    depths: Iterable[int],
    nav: Navigation,
    config: MkDocsConfig,
    made_for: bool,
) -> tuple[dict[int, str], dict[int, str]]:
    """The theme around a page of each depth, with marks where its own things go; and for the pages that the
    theme renders itself, the content security policy of each depth."""
    shells = {
        depth: capture(env, get_context(nav, every, config, _blank(depth, config)), made_for)
        for depth in depths
    }
    policies = {depth: policy_of(shell) for depth, shell in shells.items()}
    return {depth: guarded(shell, policies[depth]) for depth, shell in shells.items()}, policies


def add_shells(env: Environment, shells: Mapping[int, str]) -> None:
    """Let the pages of MkDocs that are made from records have them as their templates."""
    templates = {_shell_name(depth): _as_template(shell) for depth, shell in shells.items()}
    loader = env.loader
    assert isinstance(loader, BaseLoader), "a theme has a loader"
    env.loader = ChoiceLoader([DictLoader(templates), loader])


def capture(env: Environment, context: TemplateContext, made_for: bool) -> str:
    """The theme around the blank page of a context, with marks where a page's own things go.

    `made_for` says that the theme has our pieces in its templates.
    """
    page = context["page"]
    assert page is not None, "a context of a page"
    if not made_for:
        page.content = plain.inside(env, context, MARKS["content"])
    html = env.get_template("main.html").render(context)
    return squeezed(mended(html if made_for else plain.headed(env, context, html)))


def squeezed(html: str) -> str:
    """HTML without the empty lines and indentation of the templates it was made by, which no reader sees."""
    parts = _KEPT.split(html)
    return "".join(part if i % 2 else _LINES.sub("\n", part) for i, part in enumerate(parts))


def _as_template(shell: str) -> str:
    template = re.sub(r"\{(?=[{%#])", "{{ '{' }}", shell)
    for name, expression in _EXPRESSIONS.items():
        template = template.replace(MARKS[name], f"{{{{ {expression} }}}}")
    return template


def policy_of(shell: str) -> str:
    """A content security policy that lets the inline scripts of a shell run, by their hashes, and no other.

    A shell is the theme as installed: nothing that a record or a guide says is in it.
    """
    inline = re.findall(r"<script>(.*?)</script>", shell, re.DOTALL)
    hashes = {f"'sha256-{b64encode(sha256(text.encode()).digest()).decode()}'" for text in inline}
    scripts = f"script-src 'self' file: {' '.join(sorted(hashes))}; " if hashes else ""
    # From a folder on a stick a page's own files are not "self" to every browser. All else is as the first.
    return (
        f"default-src 'self' file:; {scripts}img-src 'self' file: data:; connect-src 'self'; "
        "form-action 'self' file:; frame-src 'none'; object-src 'none'; base-uri 'none'"
    )


def guarded(html: str, policy: str) -> str:
    """A page with its policy in place of the mark of the theme's override, or at the beginning of its head.

    Raises PluginError for a page that has no head to put it in.
    """
    if POLICY_MARK in html:
        return html.replace(POLICY_MARK, policy)
    return plain.after_head(html, f'<meta http-equiv="Content-Security-Policy" content="{policy}">')


def unguarded(site: Path, found: Iterable[str], known: Container[str]) -> Iterator[str]:
    """Those of the files found in a built site that are HTML and have no policy: not of ours, which are
    `known`, but copied ones."""
    for path in found:
        strange = path.lower().endswith(_HTML) and path not in known
        if strange and b"Content-Security-Policy" not in (site / path).read_bytes():
            yield path


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
        "title": MARKS["title"],
        "description": MARKS["description"],
        "shared": MARKS["shared"],
        "hide": ["toc"],
        "record": True,
    }
    page.canonical_url = MARKS["canonical"] if config.site_url else None
    page.edit_url = None
    page.content = MARKS["content"]
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
