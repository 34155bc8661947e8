"""What somebody types into a field, at a prompt or in a spreadsheet: whether it will do, and its value."""

from __future__ import annotations

import re
from collections.abc import Mapping

from spanbook.ground.language import gettext as _
from spanbook.ground.part_numbers import hyphened
from spanbook.reading.fields import Field, Sort
from spanbook.reading.kinds import KINDS
from spanbook.reading.write import Value

_PAIR = re.compile("(.+) to (.+)")


def place_of(kind: str, id_: str) -> str:
    """The file of a record, in the project."""
    return f"content/{KINDS[kind].folder}/{id_}.yml"


def wrong(field: Field, text: str) -> str | None:
    """What is wrong with a typed text; None when it will do."""
    if not text:
        return _("{} is needed").format(field.title) if field.required else None
    if field.choices and text not in field.choices:
        return _("one of {}").format(", ".join(field.choices))
    if field.sort is Sort.YES and text not in ("yes", "no"):
        return _("yes or no")
    if field.pattern and not re.fullmatch(field.pattern, text):
        return _("{help} For example: {example}").format(help=field.help, example=field.example)
    if field.most and len(text) > field.most:
        return _("at most {most} characters; it has {length}").format(most=field.most, length=len(text))
    return None


def value_of(field: Field, text: str) -> Value:
    """What a text that will do stands for in a record."""
    if field.sort is Sort.YES:
        return text == "yes"
    if field.sort in (Sort.BOUND, Sort.PAIRS) and (pair := _PAIR.fullmatch(text)):
        return [_number(pair[1]), _number(pair[2])]
    return _number(text) if field.sort in (Sort.BOUND, Sort.INTEGER) else text


def suggestion(kind: str, values: Mapping[str, Value]) -> str:
    """An id from what has been said; of several numbers, of parts or machines, the first."""
    words = []
    for key in KINDS[kind].suggest.split():
        value = values.get(key)
        if isinstance(value, list) and value and isinstance(value[0], dict):
            value = value[0].get("number") or value[0].get("serial")
        words.append(value if isinstance(value, str) else "")
    return id_from(words)


def id_from(words: list[str]) -> str:
    """An id made of words."""
    # A digit that cannot be read has no place in a file's name.
    return hyphened(" ".join(words).replace("?", "x"))[:80].strip("-")


def _number(text: str) -> int | str:
    """A whole number, or a text as it stands: about a number, or as stamped."""
    return int(text) if text.isascii() and text.isdigit() else text
