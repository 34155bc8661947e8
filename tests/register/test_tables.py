"""The records as tables: whatever a record says stands in one cell, and nothing else does."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from spanbook.ground.table import Table, Type
from spanbook.reading.kinds import KINDS
from spanbook.reading.plain import plain
from spanbook.register.tables import record_tables
from tests.support.demo import demo
from tests.support.full import full
from tests.support.rows import each_row

Leaf = tuple[str, str, str, str]  # kind, record, path, what stands there


@dataclass(frozen=True)
class Typed:
    """As much of a record as the tables look at."""

    kind: str
    id: str


def typed(value: Any) -> str:
    """Bounds as in a form, the rest as it is."""
    pair = isinstance(value, list) and len(value) == 2
    return " to ".join(map(str, value)) if pair else str(value)


def leaves(values: Mapping[str, Any], kind: str, record: str, path: str = "") -> Iterator[Leaf]:
    """Every value of a record but its kind; lists of things are gone into, others are one value."""
    for key, value in values.items():
        if isinstance(value, list) and value and isinstance(value[0], dict):
            for number, one in enumerate(value):
                yield from leaves(one, kind, record, f"{path}{key}/{number}/")
        elif value != [] and (key != "kind" or path):
            yield kind, record, f"{path}{key.replace('-', '_')}", typed(value)


def cells(tables: list[Table]) -> Iterator[Leaf]:
    """The same, read off the tables."""
    kinds = {kind.replace("-", "_"): kind for kind in KINDS}
    for table in tables:
        names = [column.name for column in table.columns]
        for row in table.rows:
            cell = dict(zip(names, row, strict=True))
            root = "path" not in cell
            owner = max(
                (name for name in kinds if f"{table.name}_".startswith(f"{name}_")), default="", key=len
            )
            kind = str(cell.pop("kind", None) or kinds[owner])
            record, path = (
                (str(cell["id"]), "") if root else (str(cell.pop("record")), f"{cell.pop('path')}/")
            )
            cell.pop("under", None)
            yield from (
                (kind, record, f"{path}{name}", typed(v)) for name, v in cell.items() if v is not None
            )


def held(tables: list[Table], said: list[Leaf]) -> None:
    found = set(cells(tables))
    assert set(said) - found == set()
    # What is there besides is what the schema gives where a record is silent.
    given = {(path.rpartition("/")[2], value) for _, _, path, value in found - set(said)}
    assert {one for one in given if one[1] != "False"} <= {
        ("quantity", "1"),
        ("fitted", "factory"),
        ("interchange", "new-for-old"),
        ("supplied", "unknown"),
        ("look", "outside"),
        ("hand", "right"),
    }


def test_everything_that_the_demonstration_says_stands_in_the_tables() -> None:
    records = demo().records
    said = [leaf for record in records for leaf in leaves(plain(record), record.kind, record.id)]
    held(record_tables(records, plain), said)


@each_row("kind", KINDS)
def test_every_field_of_a_kind_has_its_column(kind: str) -> None:
    values = full(kind)
    record = Typed(kind, values.get("id", kind))
    tables = record_tables([record], lambda _: values)  # type: ignore[list-item]
    held(tables, list(leaves(values, kind, record.id)))


def test_tables_and_columns_have_names_that_a_database_takes_and_none_twice() -> None:
    tables = record_tables(demo().records, plain)
    names = [table.name for table in tables]
    assert len(names) == len(set(names)) > 60
    for table in tables:
        columns = [column.name for column in table.columns]
        assert len(columns) == len(set(columns)), table.name
        assert all(name.isidentifier() for name in (table.name, *columns))
        assert table.title
        assert table.description


def test_a_row_is_told_apart_by_its_key_and_leads_to_its_record() -> None:
    tables = {table.name: table for table in record_tables(demo().records, plain)}
    for table in tables.values():
        at = [[c.name for c in table.columns].index(name) for name in table.key]
        keys = [tuple(row[place] for place in at) for row in table.rows]
        assert len(keys) == len(set(keys)), table.name
    (column,) = {one.columns for one in tables["assembly_serials"].refers if one.table == "assembly"}
    assert column == ("record",)
    assert {one.table for one in tables["assembly_serials"].refers} == {"assembly", "machine_series"}
    assert {one.table for one in tables["evidence"].refers} == {"source", "teardown"}


def test_text_is_text_and_a_number_a_number() -> None:
    tables = {table.name: table for table in record_tables(demo().records, plain)}
    types = {column.name: column.type for column in tables["assembly_parts"].columns}
    assert types["number"] is Type.TEXT
    assert types["quantity"] is Type.INTEGER
    first = {c.name: c.type for c in tables["assembly_serials"].columns}["first"]
    assert first is Type.TEXT
    spans = tables["assembly_serials"]
    names = [column.name for column in spans.columns]
    rows = [dict(zip(names, row, strict=True)) for row in spans.rows]
    (strainer,) = (row for row in rows if row["record"] == "edge-strainer" and row["series"] == "hk")
    assert (strainer["first"], strainer["last"], strainer["fitted"]) == ("1", "588 to 612", "factory")
    assert (strainer["path"], strainer["under"]) == ("serials/0", None)
