"""Templates: plain loops over a view, escaped by default, and a missing name is an error."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined, Template
from markupsafe import Markup

from spanbook.reading.fields import choice_words
from spanbook.site.told import counted_in_template, in_template
from spanbook.wording.data import rows

HERE = Path(__file__).parent


_HEADING = re.compile(r'<h2\sid="([^"]+)">(.*?)</h2>', re.DOTALL)


def contents(inside: str) -> list[tuple[str, str]]:
    """The headings of a page by their anchors, without the links in them."""
    return [(id_, Markup(title).striptags()) for id_, title in _HEADING.findall(inside)]


@cache
def environment() -> Environment:
    made = Environment(
        loader=FileSystemLoader(HERE),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        # A template is read once a build: nobody edits the builder while it runs.
        auto_reload=False,
    )
    made.globals["_"] = in_template
    made.globals["_n"] = counted_in_template
    made.filters["choice"] = choice_words
    made.filters["contents"] = contents
    made.filters["rows"] = rows
    return made


@cache
def _template(name: str) -> Template:
    return environment().get_template(name)


def render(template: str, **names: Any) -> str:
    """A template of this folder as HTML."""
    return _template(template).render(names)
