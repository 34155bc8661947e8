"""Templates: plain loops over a view, escaped by default, and a missing name is an error."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined, Template

HERE = Path(__file__).parent


@cache
def environment() -> Environment:
    return Environment(
        loader=FileSystemLoader(HERE),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        # A template is read once a build: nobody edits the builder while it runs.
        auto_reload=False,
    )


@cache
def _template(name: str) -> Template:
    return environment().get_template(name)


def render(template: str, **names: Any) -> str:
    """A template of this folder as HTML."""
    return _template(template).render(names)
