"""Templates: plain loops over a view, escaped by default, and a missing name is an error."""

from __future__ import annotations

import re
from functools import lru_cache
from gettext import NullTranslations
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from spanbook.ground.language import catalogues
from spanbook.reading.fields import choice_words
from spanbook.site.compiled import CompiledEnvironment
from spanbook.site.told import counted_in_template, in_template
from spanbook.wording.data import rows, table_title

HERE = Path(__file__).parent


_HEADING = re.compile(r'<h2\sid="([^"]+)">(.*?)</h2>', re.DOTALL)


def contents(inside: str) -> list[tuple[str, str]]:
    """The headings of a page by their anchors, without the links in them."""
    return [(id_, Markup(title).striptags()) for id_, title in _HEADING.findall(inside)]


@lru_cache(maxsize=2)
def environment(words: NullTranslations) -> Environment:
    """What templates are read by in one language, which its catalogues stand for."""
    made = CompiledEnvironment(
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
    made.filters["titled"] = table_title
    return made


def render(template: str, **names: Any) -> str:
    """A template of this folder as HTML."""
    return environment(catalogues()).get_template(template).render(names)
