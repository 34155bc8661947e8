"""A stranger's text inside Markdown, where it stays text."""

from __future__ import annotations

import re

_SPECIAL = re.compile(r"([\\`*_{}\[\]()#+\-.!|<>&~@:])")


def escaped(text: str) -> str:
    """Every character that Markdown or a forge could read as more than itself, with a backslash."""
    return _SPECIAL.sub(r"\\\1", text)
