"""Spreadsheets against what others published or made: formats of numbers, CSV, a second library's cells."""

from __future__ import annotations

import csv
from pathlib import Path
from typing import Any

import pytest
import python_calamine
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from spanbook.reading.sheets import CellSort, letter_of, read_sheet
from spanbook.reading.sheets.formats import number_cell
from tests.support import sheets
from tests.support.tries import tries

# What SSF 0.11.2 (npm ssf, Apache-2.0, written after ECMA-376 part 1, 18.8.31) shows of numbers by formats.
FORMATS = Path(__file__).parent / "data/number_formats.csv"


def test_what_a_number_shows_is_what_another_program_shows() -> None:
    with FORMATS.open(encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    sure = [(row, cell) for row in rows if (cell := number_cell(row["number"], row["format"])).exact]
    assert [(row, cell.text) for row, cell in sure if cell.text != row["shown"].strip()] == []
    assert len(sure) > 160
    assert {row["format"] for row, _ in sure} >= {"00", "0000", "00-000", '"WH-"000', "\\W000", "[Red]0000"}


@pytest.mark.parametrize(
    ("text", "rows"),
    [
        # RFC 4180, section 2, its examples 1, 2, 5, 6 and 7.
        ("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", [["aaa", "bbb", "ccc"], ["zzz", "yyy", "xxx"]]),
        ("aaa,bbb,ccc\r\nzzz,yyy,xxx", [["aaa", "bbb", "ccc"], ["zzz", "yyy", "xxx"]]),
        ('"aaa","bbb","ccc"\r\nzzz,yyy,xxx', [["aaa", "bbb", "ccc"], ["zzz", "yyy", "xxx"]]),
        ('"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx', [["aaa", "b\r\nbb", "ccc"], ["zzz", "yyy", "xxx"]]),
        ('"aaa","b""bb","ccc"', [["aaa", 'b"bb', "ccc"]]),
    ],
)
def test_csv_is_read_as_its_standard_has_it(text: str, rows: list[list[str]], tmp_path: Path) -> None:
    file = tmp_path / "a.csv"
    file.write_bytes(text.encode())
    assert [[cell.text for cell in cells.values()] for cells in read_sheet(file).rows.values()] == rows


def test_columns_have_the_letters_of_the_standard() -> None:
    """ECMA-376 part 1, 18.3.1.4 and annex: the last column of a sheet, the 16,384th, is XFD."""
    assert [letter_of(n) for n in (1, 26, 27, 702, 703, 16_384)] == ["A", "Z", "AA", "ZZ", "AAA", "XFD"]


cells = st.one_of(
    st.none(),
    st.integers(0, 10**9),
    st.booleans(),
    st.text(
        st.characters(
            codec="utf-8", exclude_characters="\u2028", exclude_categories=("Cc", "Cf", "Cs", "Co", "Cn")
        ),
        min_size=1,
        max_size=8,
    ).filter(lambda text: text.strip() == text and not text.startswith("=")),
)


@pytest.mark.slow
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=tries(5))
@given(rows=st.lists(st.lists(cells, min_size=1, max_size=4), min_size=1, max_size=4))
def test_two_libraries_read_the_same_workbook(rows: list[list[Any]], tmp_path: Path) -> None:
    """openpyxl, through which we read XLSX, against calamine, a library of its own in Rust."""
    file = sheets.xlsx(tmp_path / "a.xlsx", rows)
    read = read_sheet(file).rows
    ours = [(row, column, cell.text) for row, found in read.items() for column, cell in found.items()]
    book = python_calamine.load_workbook(str(file))
    theirs = book.get_sheet_by_index(0).to_python(skip_empty_area=False)
    assert ours == [
        (r, c, {True: "yes", False: "no"}[value] if isinstance(value, bool) else _plain(value))
        for r, row in enumerate(theirs, 1)
        for c, value in enumerate(row, 1)
        if value not in ("", None)
    ]
    assert {cell.sort for found in read.values() for cell in found.values()} <= {
        CellSort.TEXT,
        CellSort.NUMBER,
        CellSort.TRUTH,
        CellSort.ERROR,
    }


def _plain(value: object) -> str:
    return str(int(value)) if isinstance(value, float) else str(value)
