"""Tables as files: the same in every form, byte for byte again, and text stays text."""

from __future__ import annotations

import csv
import gzip
import io
import json
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import date
from typing import TYPE_CHECKING
from zipfile import ZipFile

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.ground.licences import licence_of
from spanbook.ground.table import Cell, Column, Refers, Table, Type
from spanbook.outputs import data
from spanbook.outputs.data import csv_file, package, sqlite, workbook
from spanbook.outputs.data.about import About

if TYPE_CHECKING:
    from openpyxl import Workbook

ABOUT = About("x", "X", "What", "https://x.example/", licence_of("cc0-1.0"), "records 1", date(2026, 5, 5))
COLUMNS = (
    Column("id", Type.TEXT, "Id", "What it goes by.", required=True),
    Column("count", Type.INTEGER, "Count", "How many."),
    Column("share", Type.NUMBER, "Share", "How much of it."),
    Column("old", Type.YES_NO, "Old", "Whether it is old."),
    Column("names", Type.LIST, "Names", "What it is called."),
    Column("years", Type.MAP, "Years", "When."),
)


def table(*rows: tuple[Cell, ...], name: str = "thing") -> Table:
    return Table(name, ("Thing",), "Things.", COLUMNS, rows, ("id",))


WHOLE = table(
    ("0012", 3, 0.25, True, ["8E10", 'ä, "b"'], {"1931": 1}), ("=1+1", None, None, False, None, None)
)
SAID = {"kind": "thing", "id": "0012", "title": "A strainer", "tell": ["A knob"]}
RECORDS = (data.Record.of(SAID),)


def from_csv(found: bytes) -> list[list[str]]:
    return list(csv.reader(io.StringIO(found.decode(), newline="")))


def test_csv_has_the_names_first_and_lists_as_json() -> None:
    assert from_csv(csv_file.as_bytes(WHOLE)) == [
        ["id", "count", "share", "old", "names", "years"],
        ["0012", "3", "0.25", "true", '["8E10", "ä, \\"b\\""]', '{"1931": 1}'],
        ["=1+1", "", "", "false", "", ""],
    ]


def test_a_database_keeps_text_as_text_and_finds_words() -> None:
    inside = Table(
        "inside", ("In",), "In.", COLUMNS[:1], (("0012",),), (), (Refers(("id",), "thing", ("id",)),)
    )
    base = sqlite3.connect(":memory:")
    with closing(base):
        base.deserialize(sqlite.as_bytes([WHOLE, inside], ABOUT, [one.found for one in RECORDS]))
        assert base.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        assert base.execute("PRAGMA foreign_key_check").fetchall() == []
        assert base.execute('SELECT id, count, share, old FROM "thing"').fetchall() == [
            ("0012", 3, 0.25, 1),
            ("=1+1", None, None, 0),
        ]
        assert base.execute("SELECT json_extract(names, '$[0]') FROM thing").fetchall()[0] == ("8E10",)
        found = "SELECT kind, record FROM found WHERE found MATCH 'knob'"
        assert base.execute(found).fetchall() == [("thing", "0012")]
        assert dict(base.execute("SELECT * FROM about"))["licence"] == "CC0-1.0"
        with pytest.raises(sqlite3.IntegrityError):
            base.execute("INSERT INTO thing (id) VALUES ('0012')")


def loaded(made: bytes) -> Workbook:
    """By openpyxl, which is loaded with numpy: half a second of every run that only looks for its tests."""
    import openpyxl

    return openpyxl.load_workbook(io.BytesIO(made))


@pytest.mark.slow
def test_a_workbook_keeps_text_in_cells_of_text() -> None:
    book = loaded(workbook.as_bytes([WHOLE], ABOUT))
    assert book.sheetnames == ["about", "thing"]
    head, first, second = book["thing"].iter_rows()
    assert [cell.value for cell in head] == [column.name for column in COLUMNS]
    assert [cell.value for cell in first][:4] == ["0012", 3, 0.25, True]
    assert (second[0].value, second[0].data_type, second[0].number_format) == ("=1+1", "s", "@")
    assert [cell.value for cell in second][1:] == [None, None, False, None, None]
    told = [cell.value for row in book["about"].iter_rows() for cell in row]
    assert {"X", "records 1", "2026-05-05", "https://creativecommons.org/publicdomain/zero/1.0/"} <= set(told)


@pytest.mark.slow
def test_a_text_longer_than_a_cell_says_that_it_goes_on() -> None:
    long, fits = "x" * (workbook.MOST + 1), "x" * workbook.MOST
    made = workbook.as_bytes([table((long,) + (None,) * 5, (fits,) + (None,) * 5)], ABOUT)
    cells = [row[0].value for row in loaded(made)["thing"].iter_rows(min_row=2)]
    assert cells == ["x" * (workbook.MOST - 1) + "…", fits]


def test_sheets_with_long_names_are_told_apart() -> None:
    name = "a_table_with_a_name_that_is_too_long"
    tables = [table(name=f"{name}_{number}") for number in range(12)]
    book = loaded(workbook.as_bytes(tables, ABOUT))
    assert len(set(book.sheetnames)) == 13
    assert max(map(len, book.sheetnames)) == 31


# What a spreadsheet program reads as its own escape, and what XML cannot hold, stands for itself.
@given(st.text(st.characters(exclude_categories=["Cs"]), min_size=1, max_size=30) | st.just("_x0041_"))
def test_every_text_comes_back_from_every_form(text: str) -> None:
    one = table((text, *(None,) * 5))
    assert from_csv(csv_file.as_bytes(one))[1][0] == text
    base = sqlite3.connect(":memory:")
    with closing(base):
        base.deserialize(sqlite.as_bytes([one], ABOUT, ()))
        assert base.execute("SELECT id FROM thing").fetchone() == (text,)
    from openpyxl.utils.escape import unescape

    cell = loaded(workbook.as_bytes([one], ABOUT))["thing"]["A2"].value
    assert unescape(cell) == text  # which openpyxl leaves to whoever reads the cell


def test_a_package_tells_types_keys_and_hashes() -> None:
    files = data.csv_files([WHOLE], ABOUT)
    made = json.loads(files[package.NAME])
    assert (made["version"], made["licenses"][0]["name"]) == ("records 1", "CC0-1.0")
    (resource,) = made["resources"]
    assert resource["path"] == "csv/thing.csv"
    assert resource["bytes"] == len(files["csv/thing.csv"])
    assert resource["schema"]["primaryKey"] == ["id"]
    types = [field["type"] for field in resource["schema"]["fields"]]
    assert types == ["string", "integer", "number", "boolean", "array", "object"]
    assert resource["schema"]["fields"][0]["constraints"] == {"required": True}
    bare = About("x", "X", None, None, None, "records 1", None)
    assert (
        not {"licenses", "created", "homepage"}
        & json.loads(data.csv_files([WHOLE], bare)[package.NAME]).keys()
    )


def test_the_same_tables_give_the_same_bytes() -> None:
    one, other = (dict(data.every_file([WHOLE], ABOUT, RECORDS)) for _ in range(2))
    assert one == other


def test_every_file_is_there_and_the_archive_has_the_package() -> None:
    made = dict(data.every_file([WHOLE], ABOUT, RECORDS))
    assert set(made) == {"tables.xlsx", "tables.sqlite", "tables.zip", "records.jsonl.gz", *CSV}
    with ZipFile(io.BytesIO(made["tables.zip"])) as archive:
        assert {name: archive.read(name) for name in archive.namelist()} == {name: made[name] for name in CSV}
    assert list(_lines(made["records.jsonl.gz"])) == [SAID]


CSV = ("datapackage.json", "csv/thing.csv")


def _lines(found: bytes) -> Iterator[object]:
    yield from map(json.loads, gzip.decompress(found).decode().splitlines())
