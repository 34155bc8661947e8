"""The records as tables with the columns of the schemas: a table a kind, and one for each list inside.

A list of things that several kinds have (evidence, sizes, …) is one table for all of them. A thing inside a
record has the record's id, the path to it, and the path of what it stands in. What a record leaves out and
the schema gives is filled in; else a cell is empty. A bound stands as in a form: `588 to 612`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache
from typing import Any

from spanbook.ground.table import Cell, Column, Refers, Table, Type
from spanbook.reading import schemas
from spanbook.reading.fields import as_typed
from spanbook.reading.kinds import KINDS
from spanbook.reading.records import Record
from spanbook.reading.roles import Role
from spanbook.reading.schemas import Schema
from spanbook.reading.shapes import kinds_named

# Where a thing inside a record stands; what stands in the record itself is under nothing.
_INSIDE = ("record", "path", "under")
# The tables of what is referred to and has no record of its own.
_IN_LISTS = {"series": "machine_series", "caution": "cautions", "sign": "signs"}


@dataclass(slots=True, eq=False)
class _Layout:
    """How the objects at one place of a schema become rows: `below` are the lists of objects inside them."""

    table: str
    titles: tuple[str, ...]
    description: str
    columns: dict[str, Column] = field(default_factory=dict)  # by key
    defaults: dict[str, Any] = field(default_factory=dict)
    refers: list[Refers] = field(default_factory=list)
    below: dict[str, _Layout] = field(default_factory=dict)
    root: str = ""  # whose records these are themselves
    shared: bool = False  # by all kinds
    parent: str = ""  # whose records these are inside of


Rows = dict[str, list[tuple[Cell, ...]]]  # by table


def record_tables(records: Iterable[Record], plain: Callable[[Record], Mapping[str, Any]]) -> list[Table]:
    """Every table, also those without a row; `plain` gives what the file of a record says."""
    return of_rows(rows_of(record, plain(record)) for record in records)


def rows_of(record: Record, values: Mapping[str, Any]) -> Rows:
    """The rows of one record, by what its file says."""
    rows: Rows = {}
    layout = layout_of(record.kind)
    if layout.columns:
        rows[layout.table] = [tuple(_cells(layout, values))]
    _fill(layout, values, (record.kind, record.id), "", None, rows)
    return rows


def of_rows(every: Iterable[Mapping[str, Sequence[tuple[Cell, ...]]]]) -> list[Table]:
    """Every table of the rows of all records in their order."""
    rows: Rows = {}
    for one in every:
        for table, some in one.items():
            rows.setdefault(table, []).extend(some)
    return [_table(layout, rows.get(layout.table, [])) for layout in _tables()]


def _fill(
    layout: _Layout,
    values: Mapping[str, Any],
    of: tuple[str, str],
    path: str,
    under: str | None,
    rows: Rows,
) -> None:
    for key, inside in layout.below.items():
        for number, one in enumerate(values.get(key, ())):
            here = f"{path}{key}/{number}"
            where = (*of, here, under) if inside.shared else (of[1], here, under)
            rows.setdefault(inside.table, []).append((*where, *_cells(inside, one)))
            _fill(inside, one, of, f"{here}/", here, rows)


def _cells(layout: _Layout, values: Mapping[str, Any]) -> Iterator[Cell]:
    for key, column in layout.columns.items():
        value = values.get(key, layout.defaults.get(key))
        yield as_typed(value) if column.type is Type.TEXT and value is not None else value


def _table(layout: _Layout, rows: list[tuple[Cell, ...]]) -> Table:
    own = tuple(layout.columns.values())
    about, refers = (layout.table, layout.titles, layout.description), tuple(layout.refers)
    if layout.root:
        return Table(*about, own, tuple(rows), ("id",), refers)
    places = ("kind", *_INSIDE) if layout.shared else _INSIDE
    to_record = (Refers(("record",), layout.parent, ("id",)),) if layout.parent else ()
    columns = (*map(_inside, places), *own)
    return Table(*about, columns, tuple(rows), places[:-1], (*to_record, *refers))


@cache
def _tables() -> tuple[_Layout, ...]:
    """One layout for each table, in the order of kinds and of their schemas, the shared ones last."""
    found: dict[str, _Layout] = {}
    for kind in KINDS:
        waiting = [layout_of(kind)]
        while waiting:
            one = waiting.pop(0)
            if one.columns and one.table not in found:
                found[one.table] = one
            if one is layout_of(kind) or one.table in found:
                waiting[:0] = [below for below in one.below.values() if below is not one]
    return tuple(sorted(found.values(), key=lambda one: one.shared))


@cache
def layout_of(kind: str) -> _Layout:
    """How the records of a kind become rows."""
    schema = schemas.bundled(kind)
    parent = "" if KINDS[kind].single else _named(kind)
    made = _Layout(_named(kind), (schema["title"],), schema["description"], root=parent)
    _lay(made, schema, _Place(schema, kind, parent))
    return made


@dataclass(frozen=True, slots=True)
class _Place:
    """Where in the schemas a layout is made; `around` are the objects it stands in, by their properties."""

    root: Schema
    kind: str
    parent: str
    around: Mapping[int, _Layout] = field(default_factory=dict)


def _lay(layout: _Layout, schema: Schema, place: _Place) -> None:
    around = {**place.around, id(schema["properties"]): layout}
    inner = _Place(place.root, place.kind, place.parent, around)
    required = schema.get("required", ())
    for key, given in schema["properties"].items():
        one = resolved(given, place.root)
        items = resolved(one.get("items", {}), place.root)
        if key == "kind":
            continue
        if "properties" in items:
            layout.below[key] = _below(layout, key, given, one, items, inner)
            continue
        layout.columns[key] = column_of(_named(key), one, key in required)
        if "default" in one:
            layout.defaults[key] = one["default"]
        if table := _leads_to(one):
            layout.refers.append(Refers((_named(key),), table, ("id",)))


def _below(layout: _Layout, key: str, given: Schema, one: Schema, items: Schema, place: _Place) -> _Layout:
    if known := place.around.get(id(items["properties"])):
        return known
    if name := _shared(given):
        made = _Layout(name, (_definitions()[name]["title"],), one["description"], shared=True)
    elif _named(key) == layout.table:  # the list that a single file of all is there for
        made = _Layout(layout.table, (one["title"],), one["description"])
    else:
        table, titles = f"{layout.table}_{_named(key)}", (*layout.titles, one["title"])
        made = _Layout(table, titles, one["description"], shared=layout.shared)
    made.parent = "" if made.shared else place.parent
    _lay(made, items, place)
    return made


def _named(key: str) -> str:
    """A table or a column by what the schema calls it: SQL knows no hyphen in a name."""
    return key.replace("-", "_")


def _leads_to(schema: Schema) -> str:
    """The table in which whatever is named has its row, where it can be only one."""
    if schema.get("x-role") != Role.REFERENCE:
        return ""
    to = schema["x-to"]
    if to in _IN_LISTS:
        return _IN_LISTS[to]
    return _named(to) if kinds_named(to) == (to,) and not KINDS[to].single else ""


def _shared(given: Schema) -> str:
    """The name of a definition that all kinds share, unless a kind is called so."""
    name = str(given.get("$ref", "")).removeprefix("#/$defs/")
    return name if name in _definitions() and name not in KINDS else ""


@cache
def _definitions() -> Mapping[str, Schema]:
    return schemas.definitions("defs")


def resolved(schema: Schema, root: Schema) -> Schema:
    """A schema with what it refers to, its own words before the other's."""
    ref = schema.get("$ref")
    if ref is None:
        return schema
    return {**resolved(root["$defs"][ref.removeprefix("#/$defs/")], root), **schema}


def column_of(name: str, schema: Schema, required: bool) -> Column:
    """The column for what a schema describes."""
    choices = tuple(schema.get("enum", ()))
    return Column(name, _type(schema), schema["title"], schema["description"], required, choices)


def _type(schema: Schema) -> Type:
    if "anyOf" in schema:
        return Type.TEXT
    return Type(schema["type"])


def _inside(name: str) -> Column:
    schema = schemas.definitions("tables")["inside"]
    return column_of(name, schema["properties"][name], name in schema["required"])
