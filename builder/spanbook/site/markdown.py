"""Notes of strangers to safe HTML: Markdown without raw HTML, then an allow-list of tags.

Links go to http, https, or a page of this site (`/assemblies/…/`), which is made relative; a link to
anything else loses its address and keeps its words.
"""

from __future__ import annotations

from collections.abc import Iterable

import nh3
from markdown_it.token import Token
from markupsafe import Markup

from spanbook.ground.markdown_links import names_a_user, parser

TAGS = {
    *("a", "blockquote", "br", "code", "em", "h3", "h4", "h5", "h6", "hr", "li", "ol", "p", "pre", "s"),
    *("strong", "table", "tbody", "td", "th", "thead", "tr", "ul"),
}
_ATTRIBUTES = {"a": {"href", "title"}, "ol": {"start"}}


def to_html(notes: str, root: str) -> Markup:
    """Markdown as HTML that is safe on any page; `root` leads from the page to the site's root."""
    reader = parser()
    tokens = reader.parse(notes)
    _mend(tokens, root)
    html = reader.renderer.render(tokens, reader.options, {})
    clean = nh3.clean(
        html,
        tags=TAGS,
        attributes=_ATTRIBUTES,
        url_schemes={"http", "https"},
        link_rel="noopener nofollow",
    )
    return Markup(clean)


def _mend(tokens: Iterable[Token], root: str) -> None:
    for token in tokens:
        if token.type in ("heading_open", "heading_close"):
            # A note stands below a page's own headings, so its headings begin at the third level.
            token.tag = f"h{min(6, int(token.tag[1]) + 2)}"
        elif token.type == "link_open":
            token.attrSet("href", _address(str(token.attrGet("href") or ""), root))
        if token.children:
            _mend(token.children, root)


def _address(href: str, root: str) -> str:
    if href.startswith("/") and not href.startswith("//"):
        return f"{root or './'}{href[1:]}"
    allowed = href.startswith(("http://", "https://", "#")) and not names_a_user(href)
    return href if allowed else ""
