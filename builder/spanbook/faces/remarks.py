"""What the files of a fresh community say to whoever keeps it, and the same in another language.

These files are settings and workflows: they stay one text, so that what runs, and by which commit, stands in
one place, and what they say is looked up. Records and guides are whole files in each language instead.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from textwrap import wrap

from spanbook.ground.language import gettext

_WIDTH = 118
# A paragraph of remarks; a setting or a path that only waits to be taken in is none.
_PROSE = r"# (?![a-z_]+: |/)"
_REMARK = re.compile(rf"(?m)^(?P<indent> *){_PROSE}.+(?:\n(?P=indent){_PROSE}.+)*")
# What else is read by people: between what stands before it and what follows it.
_LABELS = (
    # Pages and their groups in the navigation, and the switch to dark and light.
    re.compile(r"(?m)(^ +- |, name: )([A-Z][^:}\n]*)(?=: \S+\.md$|:$|})"),
    re.compile(r"(?m)^(site_description: |# copyright: )(.+)$"),
    # A workflow, its steps and a hook.
    re.compile(r"(?m)^( *(?:- )?name: )([A-Z].*)$"),
    re.compile(r'(?m)^( *"description": ")(.+)(?=",$)'),
    re.compile(r'(?m)^( *echo ")(.+)(?=" >&2$)'),
)


def has_remarks(path: str) -> bool:
    """Whether a file of the starter is told by its remarks, rather than whole or not at all."""
    whole = path.startswith(("content/", "dot-github/ISSUE_TEMPLATE/")) or path.endswith(".md")
    return not whole and path != "program/dependencies.txt"


def remarks_of(text: str) -> Iterator[str]:
    """Everything that such a file says, in English."""
    yield from (_sentences(found[0]) for found in _REMARK.finditer(text))
    yield from (found[2] for labels in _LABELS for found in labels.finditer(text))


def told(text: str) -> str:
    """The text of such a file with what it says in the language that is spoken."""
    for labels in _LABELS:
        text = labels.sub(lambda found: f"{found[1]}{gettext(found[2])}", text)
    return _REMARK.sub(_remark, text)


def _remark(found: re.Match[str]) -> str:
    said = _sentences(found[0])
    words = gettext(said)
    if words == said:
        return found[0]
    begin = f"{found['indent']}# "
    lines = wrap(words, _WIDTH - len(begin), break_long_words=False, break_on_hyphens=False)
    return "\n".join(f"{begin}{line}" for line in lines)


def _sentences(lines: str) -> str:
    return " ".join(line.strip()[2:] for line in lines.splitlines())
