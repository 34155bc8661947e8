"""A record asked for field by field, as its form asks for it."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace

from spanbook.ground.part_numbers import hyphened
from spanbook.reading.fields import Field, Sort, fields_of
from spanbook.reading.kinds import KINDS, WITH_FORM
from spanbook.reading.write import Value

__all__ = ["ENTERED", "Asker", "Field", "enter", "place_of", "suggestion", "wrong"]

# What is one file alone is there already.
ENTERED = tuple(kind for kind in WITH_FORM if not KINDS[kind].single)
_PAIR = re.compile("(.+) to (.+)")
_YEAR = Field("year", Sort.TEXT, "Year", "Four digits.", True, 0, "1931", "[12][0-9]{3}")


@dataclass(frozen=True, slots=True)
class Asker:
    """Who is asked: `answer` gives the text for a field, or nothing; `more` whether there is (another) one.

    `answer` is given what the text must be like, and asks again until it is.
    """

    answer: Callable[[Field, str], str]
    more: Callable[[Field, int], bool]


def enter(kind: str, asker: Asker) -> dict[str, Value]:
    """The record that the answers make, in the order of its schema."""
    fields = fields_of(kind)
    values = _enter(fields, asker, kind)
    return {"kind": kind, **_ordered(fields, values)}


def place_of(kind: str, id_: str) -> str:
    """The file of a record, in the project."""
    return f"content/{KINDS[kind].folder}/{id_}.yml"


def wrong(field: Field, text: str) -> str | None:
    """What is wrong with a typed text; None when it will do."""
    if not text:
        return f"{field.title} is needed" if field.required else None
    if field.choices and text not in field.choices:
        return f"one of {', '.join(field.choices)}"
    if field.sort is Sort.YES and text not in ("yes", "no"):
        return "yes or no"
    if field.pattern and not re.fullmatch(field.pattern, text):
        return f"{field.help} For example: {field.example}"
    if field.most and len(text) > field.most:
        return f"at most {field.most} characters; it has {len(text)}"
    return None


def _enter(fields: tuple[Field, ...], asker: Asker, kind: str) -> dict[str, Value]:
    values: dict[str, Value] = {}
    for field in fields:
        hint = suggestion(kind, values) if kind and field.key == "id" else ""
        value = _value(field, asker, hint)
        # No new numbers at all is a thing to say: no longer supplied.
        if value not in ("", [], {}, False) or (field.key == "new" and field.sort is Sort.GROUPS):
            values[field.key] = value
    return values


def _ordered(fields: tuple[Field, ...], values: dict[str, Value]) -> dict[str, Value]:
    order = {field.key: field.order for field in fields}
    return dict(sorted(values.items(), key=lambda pair: order[pair[0]]))


def suggestion(kind: str, values: Mapping[str, Value]) -> str:
    """An id from what has been said; of several numbers, of parts or machines, the first."""
    words = []
    for key in KINDS[kind].suggest.split():
        value = values.get(key)
        if isinstance(value, list) and value and isinstance(value[0], dict):
            value = value[0].get("number") or value[0].get("serial")
        words.append(value if isinstance(value, str) else "")
    # A digit that cannot be read has no place in a file's name.
    return hyphened(" ".join(words).replace("?", "x"))[:80].strip("-")


def _value(field: Field, asker: Asker, hint: str) -> Value:
    if field.sort is Sort.GROUPS:
        return [_group(field, asker) for _ in _several(field, asker)]
    if field.sort is Sort.TABLE:
        of_year = replace(field, sort=Sort.BOUND, title=field.item, required=True)
        return {
            asker.answer(_YEAR, ""): _typed(of_year, asker.answer(of_year, ""))
            for _ in _several(field, asker)
        }
    if field.sort in (Sort.TEXTS, Sort.PAIRS):
        return [_typed(field, asker.answer(field, "")) for _ in _several(field, asker)]
    return _typed(field, asker.answer(field, hint))


def _group(field: Field, asker: Asker) -> Value:
    return _ordered(field.fields, _enter(field.fields, asker, ""))


def _several(field: Field, asker: Asker) -> Iterator[int]:
    count = 0
    while count < field.least or 0 < count < field.begun or asker.more(field, count):
        count += 1
        yield count


def _typed(field: Field, text: str) -> Value:
    if field.sort is Sort.YES:
        return text == "yes"
    if field.sort in (Sort.BOUND, Sort.PAIRS) and (pair := _PAIR.fullmatch(text)):
        return [_number(pair[1]), _number(pair[2])]
    return _number(text) if field.sort in (Sort.BOUND, Sort.INTEGER) else text


def _number(text: str) -> int | str:
    """A whole number, or a text as it stands: about a number, or as stamped."""
    return int(text) if text.isascii() and text.isdigit() else text
