"""What the sorts of things with an id are called in a message."""

from __future__ import annotations

from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked

_SORTS = {
    "machine": marked("machine"),
    "series": marked("series"),
    "position": marked("position"),
    "assembly": marked("assembly"),
    "part": marked("part"),
    "supersession": marked("supersession"),
    "conversion": marked("conversion"),
    "teardown": marked("teardown"),
    "strip-down": marked("strip-down"),
    "unit": marked("unit"),
    "circuit": marked("circuit"),
    "source": marked("source"),
    "caution": marked("caution"),
    "sign": marked("sign"),
    "term": marked("term"),
}


def sort_words(sort: str) -> str:
    """A sort as a word: `strip-down`."""
    return _(_SORTS[sort])
