"""What is read of a spreadsheet: the text of a cell, and how sure it is."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.faces.prompt import ENTERED
from spanbook.reading import schemas
from spanbook.reading.problems import Problems
from spanbook.reading.sheets import NotASheet, read_map, read_sheet
from spanbook.reading.sheets.cells import column_of, letter_of
from spanbook.reading.sheets.formats import date_cell, number_cell
from spanbook.reading.sheets.targets import NoField, paths_of, target_of
from tests.reading.test_schemas import parts, resolved
from tests.support import sheets
from tests.support.rows import each_row

ROWS: list[list[Any]] = [
    ["No.", "Count", "Seen"],
    ["0012", 3, date(2024, 5, 11)],
    [None, None, None],
    [12, 1.5, "x"],
]


def texts(file: Path, **how: str) -> dict[int, dict[int, tuple[str, str, bool]]]:
    rows = read_sheet(file, **how).rows
    return {row: {c: (str(k.sort), k.text, k.exact) for c, k in cells.items()} for row, cells in rows.items()}


@pytest.mark.parametrize("made", [sheets.xlsx, sheets.ods, sheets.xls])
def test_every_sort_of_workbook_gives_the_same_cells(made: Callable[..., Path], tmp_path: Path) -> None:
    """Its rows and columns are counted as the program counts them, the empty ones before it too."""
    found = texts(made(tmp_path / "a file", [[], [], *([None, *row] for row in ROWS)]))
    assert found == {
        3: {2: ("text", "No.", True), 3: ("text", "Count", True), 4: ("text", "Seen", True)},
        4: {2: ("text", "0012", True), 3: ("number", "3", False), 4: ("date", "2024-05-11", True)},
        6: {2: ("number", "12", False), 3: ("number", "1.5", False), 4: ("text", "x", True)},
    }


@pytest.mark.slow
def test_a_cell_shows_the_zeros_that_its_format_gives_it(tmp_path: Path) -> None:
    file = sheets.xlsx(tmp_path / "a.xlsx", [[12, 12, 12]], {"A1": "0000", "B1": '"WH-"0', "C1": "General"})
    assert texts(file)[1] == {
        1: ("number", "0012", True),
        2: ("number", "WH-12", True),
        3: ("number", "12", False),
    }


@each_row(
    ("number", "shown_by", "text"),
    [
        ("12", "0000", "0012"),
        ("12345", "0000", "12345"),
        ("12345", "00-000", "12-345"),
        ("1234567", "00-000", None),
        ("0", '0000;-0000;"none"', None),
        ("12", "[>10]0000;000", None),
        ("12", "0000/00", None),
        ("12", "[Red]0000;-0000", "0012"),
        ("7", '"WH-"000', "WH-007"),
        ("7", r"\W000", "W007"),
        ("12", "General", None),
        ("12", "0", None),
        ("12", "@", None),
        ("12", "#,##0", None),
        ("12", "0.00", None),
        ("12", "0%", None),
        ("12.5", "0000", None),
        ("-12", "0000", None),
    ],
)
def test_what_a_number_shows(number: str, shown_by: str, text: str | None) -> None:
    cell = number_cell(number, shown_by)
    assert (cell.text, cell.exact) == ((text, True) if text else (number, False))


@given(st.integers(0, 10**9), st.integers(2, 12))
def test_zeros_fill_a_number_up_and_never_change_it(number: int, places: int) -> None:
    assert number_cell(str(number), "0" * places).text == str(number).zfill(places)


@each_row(
    ("shown_by", "text", "exact"),
    [
        ("yyyy-mm-dd", "2024-05-01", True),
        ("mm/yyyy", "2024-05", True),
        ("yyyy", "2024", True),
        ("d-mmm", "2024-05-01", False),
        ("m-d", "2024-05-01", False),
        ("mmm-yy", "2024-05-01", False),
        ("dd/mm/yy", "2024-05-01", False),
        ("mm-dd-yy", "2024-05-01", True),
        ('"y"yyy dd', "2024-05-01", False),
    ],
)
def test_a_date_is_as_exact_as_it_shows(shown_by: str, text: str, exact: bool) -> None:
    cell = date_cell(datetime(2024, 5, 1), shown_by)
    assert (cell.text, cell.exact) == (text, exact)


@pytest.mark.slow
def test_a_formula_gives_its_result_or_says_that_there_is_none(tmp_path: Path) -> None:
    file = sheets.xlsx(tmp_path / "a.xlsx", [["=1+1", "#REF!"]])
    assert texts(file)[1] == {1: ("formula", "=1+1", False), 2: ("error", "#REF!", False)}


@pytest.mark.slow
def test_another_sheet_is_named_and_a_wrong_name_is_told_with_those_there_are(tmp_path: Path) -> None:
    file = sheets.xlsx(tmp_path / "a.xlsx", [["x"]], name="Oil filters")
    assert read_sheet(file, "Oil filters").names == ("Oil filters",)
    with pytest.raises(NotASheet, match="there is no sheet 'Oil'; there are: 'Oil filters'"):
        read_sheet(file, "Oil")


@pytest.mark.parametrize("separator", [",", ";", "\t", "|"])
def test_what_separates_the_cells_of_a_csv_is_seen(separator: str, tmp_path: Path) -> None:
    file = sheets.csv(tmp_path / "a.csv", [["No.", "Name"], ["0012", '"a, b; c"'], ["", "x"]], separator)
    assert [dict(row) for row in texts(file).values()] == [
        {1: ("text", "No.", True), 2: ("text", "Name", True)},
        {1: ("text", "0012", True), 2: ("text", "a, b; c", True)},
        {2: ("text", "x", True)},
    ]


def test_a_csv_is_utf_8_or_says_what_it_is(tmp_path: Path) -> None:
    file = tmp_path / "a.csv"
    file.write_bytes("Größe,ü\n".encode("cp1252"))
    with pytest.raises(NotASheet, match=r"it is not utf-8; .*encoding: windows-1252"):
        read_sheet(file)
    assert texts(file, encoding="windows-1252")[1][1] == ("text", "Größe", True)
    for encoding in ("utf-8-sig", "utf-16"):
        file.write_bytes("Größe,ü\n".encode(encoding))
        assert texts(file)[1][1] == ("text", "Größe", True)


@given(st.integers(1, 20_000))
def test_letters_and_columns_are_one_another(column: int) -> None:
    assert column_of(letter_of(column)) == column


SOUND = "kind: part\ncolumns:\n- {column: No., field: number}\n- {column: Name, field: name}\n"


def test_a_map_is_read_with_its_defaults() -> None:
    found = read_map(SOUND.encode(), "a.yml")
    assert [(c.heading, c.target.path, c.above, c.shown) for c in found.columns] == [
        ("No.", "number", False, False),
        ("Name", "name", False, False),
    ]
    assert (found.headings, found.origin, found.fixed) == (1, None, ())


@each_row(
    ("text", "told"),
    [
        ("kind: sauce\ncolumns: [{column: A, field: b}]\n", "a.yml:1:7: error value-not-a-choice"),
        (
            SOUND.replace("name}", "nam}"),
            "a.yml:4:25: error sheet-map: the field nam, which no part has so",
        ),
        (SOUND + "fixed: {sizes: x}\n", "it is a list; name a field in it: sizes.what"),
        (SOUND + "fixed: {number.1: x}\n", "the field number.1, which no part has so"),
        (SOUND.replace("column: No., ", ""), "it names nothing; name either column or letter"),
        (SOUND.replace("column: No.,", "column: No., letter: A,"), "name either column or letter"),
        (SOUND + "fixed: {notes: }\n", "a.yml:5:16: error sheet-map: nothing for notes; write it like The"),
        (SOUND + "left: x\nfixed: {notes: x}\n", "a.yml:5:7: error value-kind: read “x”; write a list"),
        (
            SOUND.replace("name}", "name, decimals: comma, thousands: comma}"),
            "a comma before decimals and between thousands; keep decimals or thousands",
        ),
        ("kind: part\n\tcolumns: []\n", "a line is indented with a tab"),
    ],
)
def test_what_is_wrong_with_a_map_is_told_with_its_place(text: str, told: str) -> None:
    with pytest.raises(Problems) as wrong:
        read_map(text.encode(), "a.yml")
    assert told in str(wrong.value)


def test_the_maps_schema_is_its_manual() -> None:
    root = schemas.bundled("sheet-map")
    for at, part in parts({key: value for key, value in root.items() if key != "$defs"}):
        words = resolved(part, root)
        assert words.get("title"), at
        assert words.get("description"), at
        assert words.get("examples"), at
    assert set(root["properties"]["kind"]["enum"]) == set(ENTERED)


@each_row("kind", ENTERED)
def test_every_field_that_a_cell_can_fill_is_found_by_its_path(kind: str) -> None:
    for path, field in paths_of(kind):
        assert target_of(kind, path).field == field
        if "." in path:
            top, below = path.split(".", 1)
            assert target_of(kind, f"{top}.2.{below}").steps[0] == (top, "2")
    with pytest.raises(NoField):
        target_of(kind, "no-such-field")


def test_a_sheet_that_is_none_is_told_with_what_to_do(tmp_path: Path) -> None:
    file = tmp_path / "a.xlsx"
    file.write_bytes(b"\0\1\2")
    with pytest.raises(NotASheet, match=r"a\.xlsx: it is no text; name an XLSX, ODS, XLS or CSV file"):
        read_sheet(file)
