"""Where a Markdown text leads: its links, without rendering it."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from markdown_it import MarkdownIt
from markdown_it.token import Token


@cache
def parser() -> MarkdownIt:
    """CommonMark with tables, without raw HTML and without images."""
    return MarkdownIt("commonmark", {"html": False, "linkify": False}).enable("table").disable("image")


@cache
def links(text: str) -> tuple[str, ...]:
    """The address of every link of a Markdown text, in order."""
    return tuple(_links(parser().parse(text))) if "](" in text or "<" in text or "]:" in text else ()


def _links(tokens: list[Token]) -> Iterator[str]:
    for token in tokens:
        if token.type == "link_open":
            yield str(token.attrGet("href") or "")
        yield from _links(token.children or [])
