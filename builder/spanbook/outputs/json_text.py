"""JSON as text that drives no terminal and fits any console: what is not printable stands as an escape."""

from __future__ import annotations

import json
import re
from typing import Any

_BEYOND_ASCII = re.compile(r"[^\n -~]")


def json_text(value: Any, indent: int | None = None) -> str:
    """The value as JSON; letters of every script stay as they are."""
    # `##[`, which commands the runners of forges, can stand in nothing but a string.
    text = json.dumps(value, ensure_ascii=False, indent=indent).replace("##[", "##\\u005b")
    return _BEYOND_ASCII.sub(_shown, text)


def _shown(found: re.Match[str]) -> str:
    character = found.group()
    if "\ud800" <= character <= "\udfff":
        # A byte of a file's name that is no letter: as an escape of JSON it would be half a character, which
        # many programs refuse (RFC 7493, section 2.1), so it stands as the text of one.
        return f"\\\\u{ord(character):04x}"
    return character if character.isprintable() else json.dumps(character)[1:-1]
