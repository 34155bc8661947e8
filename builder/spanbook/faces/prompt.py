"""A record asked for field by field, as its form asks for it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from spanbook.ground.language import gettext as _
from spanbook.reading.entered import suggestion, value_of, wrong
from spanbook.reading.fields import Field, Sort, fields_of
from spanbook.reading.kinds import KINDS, WITH_FORM
from spanbook.reading.write import Value

__all__ = ["ENTERED", "Asker", "Field", "enter", "suggestion", "wrong"]

# What is one file alone is there already.
ENTERED = tuple(kind for kind in WITH_FORM if not KINDS[kind].single)


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


def _value(field: Field, asker: Asker, hint: str) -> Value:
    if field.sort is Sort.GROUPS:
        return [_group(field, asker) for _nth in _several(field, asker)]
    if field.sort is Sort.TABLE:
        of_year = replace(field, sort=Sort.BOUND, title=field.item, required=True)
        return {
            asker.answer(_year(), ""): value_of(of_year, asker.answer(of_year, ""))
            for _nth in _several(field, asker)
        }
    if field.sort in (Sort.TEXTS, Sort.PAIRS):
        return [value_of(field, asker.answer(field, "")) for _nth in _several(field, asker)]
    return value_of(field, asker.answer(field, hint))


def _year() -> Field:
    return Field("year", Sort.TEXT, _("Year"), _("Four digits."), True, 0, "1931", "[12][0-9]{3}")


def _group(field: Field, asker: Asker) -> Value:
    return _ordered(field.fields, _enter(field.fields, asker, ""))


def _several(field: Field, asker: Asker) -> Iterator[int]:
    count = 0
    while count < field.least or 0 < count < field.begun or asker.more(field, count):
        count += 1
        yield count
