"""Where a Markdown text leads: its links, without rendering it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from markdown_it import MarkdownIt
from markdown_it.token import Token


@cache
def parser() -> MarkdownIt:
    """CommonMark with tables, without raw HTML and without images."""
    return MarkdownIt("commonmark", {"html": False, "linkify": False}).enable("table").disable("image")


def links(text: str) -> tuple[str, ...]:
    """The address of every link of a Markdown text, in order."""
    return tuple(_links(parser().parse(text))) if "](" in text or "<" in text or "]:" in text else ()


_USER = re.compile(r"https?:[/\\]*[^/\\?#]*@", re.IGNORECASE)


def names_a_user(address: str) -> bool:
    """Whether a web address has something before an `@` in front of its host, as browsers read it.

    `https://bank.example@other.example/` leads to other.example and reads like the other.
    """
    return _USER.match(address) is not None


def _links(tokens: list[Token]) -> Iterator[str]:
    for token in tokens:
        if token.type == "link_open":
            yield str(token.attrGet("href") or "")
        yield from _links(token.children or [])
