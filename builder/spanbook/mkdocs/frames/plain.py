"""Pages in a theme that was not made for them: what is ours is put where every theme has a place for it.

That is its head, which is looked for in the HTML, and the content of a page.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from jinja2 import Environment
from mkdocs.exceptions import PluginError

HEAD = re.compile(r"<head(?:\s[^>]*)?>(?:\s*<meta charset[^>]*>)?", re.IGNORECASE)
_TITLE = re.compile(r"<title\b[^>]*>.*?</title>", re.IGNORECASE | re.DOTALL)
_DESCRIBED = re.compile(r"<meta\s[^>]*name=[\"']?description\b", re.IGNORECASE)

# What MkDocs gives to a template of a theme.
Context = Mapping[str, object]


def inside(env: Environment, context: Context, content: str) -> str:
    """What a page shows, with the finder before it and the foot after it."""
    return env.get_template("spanbook/inside.html").render(context, inside=content)


def headed(env: Environment, context: Context, html: str) -> str:
    """A theme's page with our title and what we say of a page in its head.

    Raises PluginError for a page that has no head.
    """
    title = env.get_template("spanbook/title.html").render(context).strip()
    lead = env.get_template("spanbook/lead.html").render(context, described=bool(_DESCRIBED.search(html)))
    titled = _TITLE.sub(lambda _: title, html, count=1)
    return after_head(titled, lead)


def after_head(html: str, said: str) -> str:
    made, count = HEAD.subn(lambda head: f"{head.group()}\n{said}", html, count=1)
    if not count:
        raise PluginError("a page has no <head>, where its content security policy would stand")
    return made
