"""How templates and scripts come by their words: in the language that is spoken."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator

from markupsafe import Markup, escape

from spanbook.ground.language import counted_forms, gettext, ngettext, spoken

_TEXT = r'("(?:[^"\\]|\\.)*")'
_ONE = re.compile(rf"\b_\({_TEXT}\)")
_COUNTED = re.compile(rf"\b_n\({_TEXT}, {_TEXT}, ")
_LANGUAGE = '"LANGUAGE-OF-THE-PAGES"'  # what stands for it in a script


def in_template(message: str, **values: object) -> Markup:
    """A template's message; its values are escaped where they are not HTML already."""
    told = _escaped(gettext(message))
    return told.format(**values) if values else told


def counted_in_template(count: int, one: str, more: str, **values: object) -> Markup:
    """A template's message in the form of a count, which stands in place of `{}`."""
    return _escaped(ngettext(one, more, count)).format(count, **values)


def _escaped(message: str) -> Markup:
    """Our attributes stand between double quotes: an apostrophe is itself in them."""
    return Markup(str(escape(message)).replace("&#39;", "'"))


def messages(script: str) -> Iterator[tuple[str, ...]]:
    """The messages of a script: one, or the two forms of one that is counted."""
    yield from ((json.loads(found[1]),) for found in _ONE.finditer(script))
    yield from ((json.loads(found[1]), json.loads(found[2])) for found in _COUNTED.finditer(script))


def in_script(text: str) -> str:
    """A script with its messages, `_("…")` and `_n("…", "…", count)`, in the language that is spoken."""
    text = _ONE.sub(lambda found: _quoted(gettext(json.loads(found[1]))), text)
    text = _COUNTED.sub(_counted, text)
    return text.replace(_LANGUAGE, _quoted(spoken()))


def _counted(found: re.Match[str]) -> str:
    forms = counted_forms(json.loads(found[1]), json.loads(found[2]))
    return f"SpanbookPieces.counted({json.dumps(forms, ensure_ascii=False)}, "


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)
