"""What stands between two phrases, and between the figures of a number: each language has its own."""

from __future__ import annotations

import re

from spanbook.ground.language import gettext as _
from spanbook.ground.language import pgettext

_COMMA = re.compile(r"(?<=\d),(?=\d)")


def labelled(label: str, text: str) -> str:
    """What something is called, and what is said of it: `Oil filter: not known`."""
    return f"{label}{_(': ')}{text}"


def headed(title: str) -> str:
    """A title over what follows it: `Worth measuring next:`."""
    return _("{title}:").format(title=title)


def parted(*phrases: str) -> str:
    """Phrases that have commas of their own, one after the other: `a, b; c; d, e`."""
    return _("; ").join(phrases)


def undecimals(typed: str) -> str:
    """A size as it was typed, with a point before its decimals where the language that is spoken has a comma
    there; as it is where it has a point already, which may be one between thousands."""
    comma = pgettext("decimal point", ".") == ","
    return _COMMA.sub(".", typed) if comma and "." not in typed else typed
