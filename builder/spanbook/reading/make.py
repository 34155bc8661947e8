"""From plain values that fit their schema to records."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import cache, partial
from typing import Any

from spanbook.ground.markdown_links import links
from spanbook.ground.stamped import Stamped
from spanbook.ground.years import MONTHS, Begin
from spanbook.reading import records as r
from spanbook.reading.roles import Role
from spanbook.reading.series_typed import Pair, YearFirsts, YearLasts, YearLetters
from spanbook.reading.shapes import Shape, Slot, shape_of
from spanbook.reading.walk import Walk

Values = Mapping[str, Any]
Make = Callable[[Any], Any]
_WHOLE = re.compile("0|[1-9][0-9]*")
_ABOUT = re.compile(r"about (.*?) ?(?:±|\+-) ?([0-9]+)")
_BESIDE = re.compile("(before|after) (.*)")
_NOTES = Walk(Role.MARKDOWN)


def record(kind: str, values: Values, origin: r.Origin) -> r.Record:
    """The record for values that passed the schema of their kind."""
    # What is one file alone has neither an id nor a title of its own.
    completed = {"id": kind, "title": kind.capitalize(), **values, "origin": origin}
    if complete := _COMPLETED.get(kind):
        completed |= complete(values)
    made: r.Record = _made(shape_of(kind), completed)
    leads = tuple((leaf.steps, link) for leaf in _NOTES(made) for link in links(leaf.value))
    return replace(made, origin=replace(origin, links=leads)) if leads else made


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


def _end(value: Any) -> Any:
    if isinstance(value, list):
        return (value[0], value[1])
    if isinstance(value, str) and (about := _ABOUT.fullmatch(value)):
        return r.Around(_number(about[1]), int(about[2]))
    if isinstance(value, str) and (beside := _BESIDE.fullmatch(value)):
        return r.Beside("before" if beside[1] == "before" else "after", _number(beside[2]))
    return value


def _number(text: str) -> r.Typed:
    """As the value of a key is read: 588 is a number, 0588 and HK 588 are as stamped."""
    return int(text) if _WHOLE.fullmatch(text) else text


def _pairs(values: list[list[r.Typed]]) -> tuple[Pair, ...]:
    return tuple((first, last) for first, last in values)


def _by_year(values: Mapping[str, Any]) -> tuple[tuple[int, Any], ...]:
    return tuple((int(year), _end(value)) for year, value in values.items())


def _begin(text: str) -> Begin:
    month, _, before = text.partition(" ")
    return Begin(MONTHS.index(month) + 1, before != "")


_OF_TYPES: Mapping[Any, Make] = {
    Begin | None: _begin,
    Stamped: Stamped.of,
    YearFirsts: _by_year,
    YearLasts: _by_year,
    YearLetters: _by_year,
    r.End: _end,
    r.YearEnd | None: _end,
    r.YearSaid | None: _end,
    tuple[Pair, ...]: _pairs,
}


def _machine(values: Values) -> Values:
    def series(v: Values) -> Values:
        last = None if v["last"] == "unknown" else v["last"]
        return {**v, "machine": values["id"], "last": last}

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
