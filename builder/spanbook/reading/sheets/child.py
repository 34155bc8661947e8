"""Run by itself, with bounds on its memory and time: a workbook on standard input, its cells as lines of
JSON.

    python child.py xlsx|ods|xls MOST_ROWS MOST_COLUMNS LONGEST [SHEET]

The first line tells the sheets, each other one a row: its number and its cells, each a column and what was
read: ["s", text], ["n", number, format], ["d", moment, format], ["b", truth], ["e", error], ["f", formula].
A line {"failed": "sheet" | "rows" | "columns" | "memory" | "other", …} ends it where it cannot go on, in no
language. It uses nothing of spanbook, so that it starts fast.
"""

from __future__ import annotations

import io
import json
import sys
from collections.abc import Iterator
from datetime import date, datetime, time, timedelta
from typing import Any

MEMORY = 2_000_000_000  # bytes
SECONDS = 120

Row = tuple[int, dict[int, list[str]]]


class _NotRead(Exception):  # noqa: N818 - it says what happened
    """Why it cannot go on, as its last line tells it."""

    def __init__(self, failed: str, **told: object) -> None:
        super().__init__(failed)
        self.told = {"failed": failed, **told}


def _bounded() -> None:
    try:
        import resource
    except ImportError:  # Windows has no such bounds; the parent's patience remains
        return
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


def _xlsx(data: bytes, wanted: str | None) -> tuple[list[str], str, Iterator[Row]]:
    sys.modules["numpy"] = None  # type: ignore[assignment]  # openpyxl loads it where it is, and we want none of it
    import openpyxl

    # Twice: what a formula gave, and whether there is one.
    results, typed = (
        openpyxl.load_workbook(io.BytesIO(data), read_only=True, data_only=data_only, keep_links=False)
        for data_only in (True, False)
    )
    names = [sheet.title for sheet in results.worksheets]
    name = _named(names, wanted)
    for book in (results, typed):
        book[name].reset_dimensions()
    return names, name, _xlsx_rows(results[name].iter_rows(), typed[name].iter_rows())


def _xlsx_rows(results: Iterator[Any], typed: Iterator[Any]) -> Iterator[Row]:
    for number, (row, formulas) in enumerate(zip(results, typed, strict=True), 1):
        found = {}
        for column, (cell, formula) in enumerate(zip(row, formulas, strict=True), 1):
            if cell.value is not None:
                found[column] = _said(cell.value, cell.data_type == "e", cell.number_format or "General")
            elif formula.value is not None:
                found[column] = ["f", str(formula.value)]
        yield number, found


def _others(data: bytes, wanted: str | None) -> tuple[list[str], str, Iterator[Row]]:
    import python_calamine

    book = python_calamine.load_workbook(io.BytesIO(data))
    name = _named(book.sheet_names, wanted)
    sheet = book.get_sheet_by_name(name)
    above, before = sheet.start or (0, 0)
    return list(book.sheet_names), name, _calamine_rows(sheet.to_python(), above, before)


def _calamine_rows(rows: list[Any], above: int, before: int) -> Iterator[Row]:
    """The library leaves out what is empty above and before the first cell."""
    for number, row in enumerate(rows, above + 1):
        cells = enumerate(row, before + 1)
        yield number, {column: _said(value, False, "") for column, value in cells if value not in ("", None)}


def _named(names: list[str], wanted: str | None) -> str:
    if wanted is None:
        return names[0]
    if wanted not in names:
        raise _NotRead("sheet", wanted=wanted, names=names)
    return wanted


def _said(value: object, failed: bool, shown_by: str) -> list[str]:
    if failed:
        return ["e", str(value)]
    if isinstance(value, bool):
        return ["b", "yes" if value else "no"]
    if isinstance(value, int | float):
        return ["n", _plain(value), shown_by]
    if isinstance(value, datetime):
        return ["d", value.isoformat(), shown_by]
    if isinstance(value, date):
        return ["d", datetime.combine(value, time()).isoformat(), shown_by]
    if isinstance(value, time | timedelta):
        return ["e", str(value)]
    return ["s", str(value)]


def _plain(value: float) -> str:
    return str(int(value)) if value == int(value) and abs(value) < 1e15 else repr(value)


def _told(
    found: tuple[list[str], str, Iterator[Row]], rows: int, columns: int, longest: int
) -> Iterator[Any]:
    names, name, read = found
    yield {"names": names, "name": name}
    held = 0
    for number, cells in read:
        if not cells:
            continue
        held += 1
        if held > rows or number > 2_000_000:
            raise _NotRead("rows")
        if max(cells) > columns:
            raise _NotRead("columns")
        yield [number, [[column, *(text[: longest + 1] for text in said)] for column, said in cells.items()]]


def main(sort: str, rows: str, columns: str, longest: str, wanted: str | None = None) -> None:
    _bounded()
    data = sys.stdin.buffer.read()
    try:
        found = (_xlsx if sort == "xlsx" else _others)(data, wanted)
        for line in _told(found, int(rows), int(columns), int(longest)):
            sys.stdout.write(json.dumps(line) + "\n")
    except ImportError as missing:
        _end({"missing": missing.name})
    except _NotRead as stopped:
        _end(stopped.told)
    except MemoryError:
        _end({"failed": "memory"})
    except BaseException as wrong:  # a panic of a Rust library is no Exception
        _end({"failed": "other", "why": f"{type(wrong).__name__}: {str(wrong)[:200]}"})


def _end(told: dict[str, Any]) -> None:
    sys.stdout.write(json.dumps(told) + "\n")


if __name__ == "__main__":
    main(*sys.argv[1:])
