"""Text is text: a scalar becomes a number or a truth value only where the schema asks for one.

Where the schema lists the words that may stand, one in Unicode's other spelling is that word: `μm` is `µm`.
"""

from __future__ import annotations

import re
from typing import Any

from spanbook.reading.nodes import Mapping, Node, Scalar, Sequence
from spanbook.reading.schemas import Guide, bare

# One way to write each number: what reads as 12 to a collector is 12, and 012 or 1_000 is not a number.
_INTEGER = re.compile(r"0|-?[1-9][0-9]{0,17}")
_TRUTH = {"true": True, "false": False}


def typed(node: Node, guide: Guide | None) -> Any:
    """Plain values (dict, list, str, int, bool) for a tree. What does not read as asked stays text."""
    if isinstance(node, Scalar):
        return _scalar(node.text, guide) if guide else node.text
    if isinstance(node, Sequence):
        items = guide.items if guide else None
        return [typed(item, items) for item in node.items]
    assert isinstance(node, Mapping)
    return {key: typed(value, guide.below(key) if guide else None) for key, value in node.values.items()}


def _scalar(text: str, guide: Guide) -> str | int | bool:
    if guide.integer and _INTEGER.fullmatch(text):
        return int(text)
    if guide.boolean and text in _TRUTH:
        return _TRUTH[text]
    return guide.words.get(bare(text), text) if guide.words else text
