"""What stands around the pages of one depth: a text with marks where a page's own things go."""

from __future__ import annotations

import re
from collections.abc import Mapping

from markupsafe import escape

_MARK = "\ufdd0{}\ufdd1"  # noncharacters: no theme, title or address has them
_MARKED = re.compile(_MARK.format("(.*?)"))
# What differs from page to page; the first three are text, the others HTML.
TEXTS = ("title", "description", "canonical")
SLOTS = (*TEXTS, "shared", "content")
MARKS: Mapping[str, str] = {name: _MARK.format(name) for name in SLOTS}


class Shell:
    """Cut once at its marks, and laid around as many pages as there are."""

    def __init__(self, marked: str) -> None:
        self._pieces = _MARKED.split(marked)

    def __repr__(self) -> str:
        """All of it: which one it is, is what it says."""
        return repr(self._pieces)

    def around(self, own: Mapping[str, str]) -> str:
        """A page with what is its own in each slot."""
        told = {name: str(escape(text)) if name in TEXTS else text for name, text in own.items()}
        pieces = self._pieces[:]
        pieces[1::2] = [told[name] for name in pieces[1::2]]
        return "".join(pieces)
