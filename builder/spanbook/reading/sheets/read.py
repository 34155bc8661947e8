"""From the file of a spreadsheet to its cells. Sorts of files are told by their bytes, never by their
names."""

from __future__ import annotations

import csv
import io
import json
import subprocess
import sys
from collections.abc import Iterable, Mapping
from datetime import datetime
from pathlib import Path
from typing import Any

from spanbook.ground.language import gettext as _
from spanbook.reading.problems import one_line
from spanbook.reading.sheets import cells
from spanbook.reading.sheets.cells import Cell, CellSort, NotASheet, OtherEncoding, Sheet
from spanbook.reading.sheets.formats import date_cell, number_cell
from spanbook.reading.sheets.unpacked import unpacked

LARGEST = 50_000_000  # bytes of a file
PATIENCE = 150.0  # seconds for a workbook
NEEDED = "pip install openpyxl python-calamine rapidfuzz"  # the extra `sheets` of pyproject.toml
_OLD = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"  # OLE2, in which XLS is kept, and what is locked by a password
_CHILD = Path(__file__).with_name("child.py")
_MARKS = {b"\xef\xbb\xbf": "utf-8-sig", b"\xff\xfe": "utf-16", b"\xfe\xff": "utf-16"}
_SEPARATORS = ",;\t|"

Rows = dict[int, Mapping[int, Cell]]


def read_sheet(
    file: Path, name: str | None = None, *, separator: str | None = None, encoding: str | None = None
) -> Sheet:
    """One sheet of a file: XLSX, ODS, XLS or CSV; the first unless named.

    `separator` and `encoding` are for CSV: told by its first lines and its first bytes where not given.
    Raises NotASheet and OSError.
    """
    with file.open("rb") as opened:
        data = opened.read(LARGEST + 1)
    try:
        if len(data) > LARGEST:
            raise NotASheet(_("it is over {} MB; split it").format(LARGEST // 1_000_000))
        if data.startswith(b"PK"):
            sort, clean, macros = unpacked(data)
            return _workbook(file.name, sort, clean, name, macros)
        if data.startswith(_OLD):
            return _workbook(file.name, "xls", data, name, macros=False)
        return Sheet(file.name, "", (), _csv(data, separator, encoding))
    except NotASheet as why:
        raise type(why)(one_line(f"{file}: {why}")) from None


def _csv(data: bytes, separator: str | None, encoding: str | None) -> Rows:
    named = encoding or next((name for mark, name in _MARKS.items() if data.startswith(mark)), "utf-8")
    try:
        text = data.decode(named)
    except LookupError:
        raise NotASheet(_("there is no encoding {}; write windows-1252, or utf-8").format(named)) from None
    except UnicodeError:
        told = _("it is not {}; save it as CSV UTF-8, or say in the map what it is: encoding: windows-1252")
        raise OtherEncoding(told.format(named)) from None
    if "\0" in text:
        raise NotASheet(_("it is no text; name an XLSX, ODS, XLS or CSV file"))
    csv.field_size_limit(cells.LONGEST * 4)
    rows: Rows = {}
    try:
        for number, row in enumerate(
            csv.reader(io.StringIO(text, ""), delimiter=separator or _likely(text)), 1
        ):
            found = {i: Cell(CellSort.TEXT, t) for i, t in enumerate(row, 1) if t.strip()}
            if found:
                rows[number] = found
                _bounded(len(rows), max(found))
    except csv.Error as wrong:
        raise NotASheet(
            _("it is no sound CSV after row {row} ({wrong})").format(row=max(rows, default=0), wrong=wrong)
        ) from None
    return rows


def _likely(text: str) -> str:
    """What separates most often, and outside of quotes, in the first lines."""
    lines = text.splitlines()[:20]
    counts = {sign: sum(len(line.split(sign)) - 1 for line in _unquoted(lines)) for sign in _SEPARATORS}
    return max(_SEPARATORS, key=lambda sign: counts[sign])


def _unquoted(lines: Iterable[str]) -> Iterable[str]:
    return ("".join(line.split('"')[::2]) for line in lines)


def _bounded(rows: int, columns: int) -> None:
    if rows > cells.MOST_ROWS:
        raise NotASheet(_("it has more than {} rows; split it").format(cells.MOST_ROWS))
    if columns > cells.MOST_COLUMNS:
        raise NotASheet(
            _("it has more than {} columns; save those that matter alone").format(cells.MOST_COLUMNS)
        )


def _workbook(file: str, sort: str, data: bytes, name: str | None, macros: bool) -> Sheet:
    limits = (cells.MOST_ROWS, cells.MOST_COLUMNS, cells.LONGEST)
    # -P: no folder of ours goes before what is installed.
    command = [sys.executable, "-P", str(_CHILD), sort, *map(str, limits), *([name] if name else [])]
    try:
        done = subprocess.run(command, input=data, capture_output=True, timeout=PATIENCE, check=False)
    except subprocess.TimeoutExpired:
        raise NotASheet(
            _("reading it takes over {} seconds; save the sheet as CSV").format(f"{PATIENCE:.0f}")
        ) from None
    lines = [json.loads(line) for line in done.stdout.decode().splitlines() if line.endswith(("}", "]"))]
    head, last = (lines[0], lines[-1]) if lines else ({}, {})
    if isinstance(last, dict) and "missing" in last:
        raise NotASheet(
            _(
                "{package} is not installed, which reads workbooks: {needed}; or save the sheet as CSV UTF-8"
            ).format(package=last["missing"], needed=NEEDED)
        )
    if isinstance(last, dict) and "failed" in last:
        raise NotASheet(
            _("{}; open it in its program and save it again, or save the sheet as CSV").format(_why(last))
        )
    if done.returncode != 0 or "name" not in head:
        raise NotASheet(_("reading it took more memory or time than is given to it; save the sheet as CSV"))
    rows = {number: {column: _cell(*said) for column, *said in row} for number, row in lines[1:]}
    return Sheet(file, head["name"], tuple(head["names"]), rows, macros)


def _why(told: Mapping[str, Any]) -> str:
    """Why the child could not go on."""
    match told["failed"]:
        case "sheet":
            named = _("there is no sheet {wanted}; there are: {names}")
            return named.format(wanted=repr(told["wanted"]), names=", ".join(map(repr, told["names"])))
        case "rows":
            return _("it has more than {} rows; split it").format(cells.MOST_ROWS)
        case "columns":
            said = _("it has more than {} columns; save those that matter as a sheet of their own")
            return said.format(cells.MOST_COLUMNS)
        case "memory":
            return _("reading it takes more memory than is given to it")
    return _("it cannot be read ({})").format(told["why"])


def _cell(sort: str, said: str, shown_by: str = "") -> Cell:
    if sort == "n":
        return number_cell(said, shown_by)
    if sort == "d":
        return date_cell(datetime.fromisoformat(said), shown_by or "yyyy-mm-dd")
    sorts: dict[str, Any] = {"b": CellSort.TRUTH, "e": CellSort.ERROR, "f": CellSort.FORMULA}
    return Cell(sorts.get(sort, CellSort.TEXT), said, exact=sort == "s")
