"""Spreadsheets made by the tests: XLSX by openpyxl, XLS by xlwt, ODS written out plainly.

The two are loaded when a sheet is made: every run only looks for the tests that make one.
"""

from __future__ import annotations

import zipfile
from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import Any
from xml.sax.saxutils import escape

Row = list[Any]
Rows = Sequence[Row]


def xlsx(file: Path, rows: Rows, formats: Mapping[str, str] | None = None, name: str = "Sheet") -> Path:
    """A workbook of one sheet; `formats` are number formats by cell."""
    import openpyxl

    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.title = name
    for row in rows:
        sheet.append(list(row))
    for cell, shown_by in (formats or {}).items():
        sheet[cell].number_format = shown_by
    book.save(file)
    return file


def xls(file: Path, rows: Rows) -> Path:
    import xlwt

    book = xlwt.Workbook()
    sheet = book.add_sheet("Sheet")
    days = xlwt.easyxf(num_format_str="YYYY-MM-DD")
    for r, row in enumerate(rows):
        for c, value in enumerate(row):
            if isinstance(value, date):
                sheet.write(r, c, value, days)
            elif value is not None:
                sheet.write(r, c, value)
    book.save(str(file))
    return file


def csv(file: Path, rows: Rows, separator: str = ",") -> Path:
    cells = (separator.join("" if value is None else str(value) for value in row) for row in rows)
    file.write_text("\n".join(cells) + "\n", encoding="utf-8")
    return file


ODS = "application/vnd.oasis.opendocument.spreadsheet"
_HEAD = (
    '<?xml version="1.0" encoding="UTF-8"?>'
    '<office:document-content xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" '
    'xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" '
    'xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0" office:version="1.3">'
    '<office:body><office:spreadsheet><table:table table:name="Sheet">'
)
_FOOT = "</table:table></office:spreadsheet></office:body></office:document-content>"
_MANIFEST = (
    '<?xml version="1.0" encoding="UTF-8"?>'
    '<manifest:manifest xmlns:manifest="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0">'
    f'<manifest:file-entry manifest:full-path="/" manifest:media-type="{ODS}"/>'
    '<manifest:file-entry manifest:full-path="content.xml" manifest:media-type="text/xml"/>'
    "</manifest:manifest>"
)


def ods(file: Path, rows: Rows) -> Path:
    body = "".join(f"<table:table-row>{''.join(map(_ods_cell, row))}</table:table-row>" for row in rows)
    return zipped(
        file, {"mimetype": ODS, "content.xml": _HEAD + body + _FOOT, "META-INF/manifest.xml": _MANIFEST}
    )


def zipped(file: Path, parts: Mapping[str, str | bytes]) -> Path:
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as made:
        for name, data in parts.items():
            made.writestr(name, data)
    return file


def _ods_cell(value: object) -> str:
    if value is None:
        return "<table:table-cell/>"
    shown = f"<text:p>{escape(str(value))}</text:p>"
    if isinstance(value, bool):
        return _cell("boolean", "boolean-value", str(value).lower(), shown)
    if isinstance(value, int | float):
        return _cell("float", "value", value, shown)
    if isinstance(value, date):
        return _cell("date", "date-value", value, shown)
    return f'<table:table-cell office:value-type="string">{shown}</table:table-cell>'


def _cell(sort: str, key: str, value: object, shown: str) -> str:
    return f'<table:table-cell office:value-type="{sort}" office:{key}="{value}">{shown}</table:table-cell>'
