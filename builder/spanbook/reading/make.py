"""From plain values that fit their schema to records."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from functools import cache, partial
from typing import Any

from spanbook.ground.serials import Stamp
from spanbook.ground.years import YearTable
from spanbook.reading import records as r
from spanbook.reading.shapes import Shape, Slot, shape_of

Values = Mapping[str, Any]
Make = Callable[[Any], Any]
_NUMBER = re.compile("[0-9]+")


def record(kind: str, values: Values, origin: r.Origin) -> r.Record:
    """The record for values that passed the schema of their kind."""
    # What is one file alone has neither an id nor a title of its own.
    completed = {"id": kind, "title": kind.capitalize(), **values, "origin": origin}
    if complete := _COMPLETED.get(kind):
        completed |= complete(values)
    made: r.Record = _made(shape_of(kind), completed)
    return made


def _made(shape: Shape, values: Values) -> Any:
    """An object of a shape; for a key left out stands what its schema says, or nothing."""
    taken, changed = _steps(shape)
    made = {slot.attribute: values.get(slot.key, slot.absent) for slot in taken}
    for slot, make in changed:
        value = values.get(slot.key)
        made[slot.attribute] = slot.absent if value is None else make(value)
    return shape.cls(**made)


@cache
def _steps(shape: Shape) -> tuple[tuple[Slot, ...], tuple[tuple[Slot, Make], ...]]:
    """The slots whose values are taken as they are, and those whose values something is made of."""
    makers = [(slot, _maker(slot)) for slot in shape.slots]
    return tuple(s for s, make in makers if not make), tuple((s, make) for s, make in makers if make)


def _maker(slot: Slot) -> Make | None:
    if slot.shape:
        return partial(_several if slot.many else _made, slot.shape)
    return _OF_TYPES.get(slot.hint, tuple if slot.many else None)


def _several(shape: Shape, values: list[Values]) -> tuple[Any, ...]:
    return tuple([_made(shape, value) for value in values])


def _end(value: Any) -> r.End:
    if isinstance(value, str) and value.startswith("about"):
        number, off = map(int, _NUMBER.findall(value))
        return r.Around(number, off)
    return (value[0], value[1]) if isinstance(value, list) else value


def _pairs(values: list[list[int]]) -> tuple[tuple[int, int], ...]:
    return tuple((first, last) for first, last in values)


def _years(values: Mapping[str, int]) -> YearTable:
    return YearTable.of({int(year): first for year, first in values.items()})


_OF_TYPES: Mapping[Any, Make] = {
    Stamp: Stamp.of,
    YearTable: _years,
    r.End: _end,
    r.End | None: _end,
    tuple[tuple[int, int], ...]: _pairs,
}


def _machine(values: Values) -> Values:
    def series(v: Values) -> Values:
        last = None if v["last"] == "unknown" else v["last"]
        return {"years": {}, "years-last": {}, **v, "machine": values["id"], "last": last}

    return {"series": [series(v) for v in values["series"]]}


def _teardown(values: Values) -> Values:
    """A find is in the machine's condition unless it says otherwise."""
    found = [{"condition": values["condition"], **find} for find in values["found"]]
    return {"title": f"{values['serial']}, {values['date']}", "found": found}


# What a record holds beyond what is typed under its keys.
_COMPLETED: Mapping[str, Callable[[Values], Values]] = {
    "machine": _machine,
    "supersession": lambda _: {"title": ""},
    "teardown": _teardown,
    "unit": lambda values: {"title": ", ".join(number["serial"] for number in values["numbers"])},
}
