"""The tables as one workbook (Office Open XML, ECMA-376), a sheet each: what is text stands in cells of text.

A spreadsheet makes 12 of `0012` in a CSV file and a date of `1-10`; here both stay as they were typed.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from functools import partial
from itertools import islice
from xml.sax.saxutils import quoteattr

from spanbook.ground.memo import Memo
from spanbook.ground.table import Cell, Table
from spanbook.outputs.data import zipped
from spanbook.outputs.data.about import About
from spanbook.outputs.data.cells import as_text

MOST = 32_767  # characters in a cell
_ROWS = 1_000  # that are written at a time
_NAME = 31  # characters in the name of a sheet
_HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
_MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_PACKAGE = "http://schemas.openxmlformats.org/package/2006"
_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml."
# Styles by number: 0 as it comes, 1 text, 2 a heading.
_STYLES = (
    f'{_HEAD}<styleSheet xmlns="{_MAIN}"><fonts count="2"><font><sz val="11"/><name val="Calibri"/></font>'
    '<font><b/><sz val="11"/><name val="Calibri"/></font></fonts>'
    '<fills count="2"><fill><patternFill patternType="none"/></fill>'
    '<fill><patternFill patternType="gray125"/></fill></fills>'
    '<borders count="1"><border/></borders><cellStyleXfs count="1"><xf/></cellStyleXfs>'
    '<cellXfs count="3"><xf xfId="0"/><xf numFmtId="49" xfId="0" applyNumberFormat="1"/>'
    '<xf fontId="1" xfId="0" applyFont="1"/></cellXfs>'
    '<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>'
)
# What XML writes otherwise, what it cannot hold, and what reads as the escape for that (ECMA-376, part 1,
# 22.9.2.19).
_ESCAPED = re.compile(r"[&<>]|_(?=x[0-9A-Fa-f]{4}_)|[\x00-\x08\x0b-\x1f\ufffe\uffff]")
_ENTITIES = {"&": "&amp;", "<": "&lt;", ">": "&gt;"}


def as_bytes(tables: Sequence[Table], about: About) -> bytes:
    return zipped.as_bytes((name, map(str.encode, pieces)) for name, pieces in _parts(tables, about))


def _parts(tables: Sequence[Table], about: About) -> Iterator[tuple[str, Iterable[str]]]:
    """Each in pieces, one after another: sheets are large, and none has to be held whole."""
    names = ["about"]
    for table in tables:
        names.append(_sheet_name(table.name, names))
    small = {
        "[Content_Types].xml": _content_types(len(names)),
        "_rels/.rels": _relations({"rId1": ("officeDocument", "xl/workbook.xml")}),
        "xl/workbook.xml": _workbook(names),
        "xl/_rels/workbook.xml.rels": _relations(
            {f"rId{n}": ("worksheet", f"worksheets/sheet{n}.xml") for n, _ in enumerate(names, 1)}
            | {"styles": ("styles", "styles.xml")}
        ),
        "xl/styles.xml": _STYLES,
    }
    yield from ((name, (text,)) for name, text in small.items())
    yield "xl/worksheets/sheet1.xml", _about(tables, about)
    texts = Memo(partial(_text, style=1))  # ids and words stand in many cells
    for n, table in enumerate(tables, 2):
        yield f"xl/worksheets/sheet{n}.xml", _sheet(_rows(table, texts))


def _sheet_name(name: str, taken: Iterable[str]) -> str:
    """As the table is called, cut where that is too long; two that would be one are told by a number."""
    cut, number = name[:_NAME], 2
    while cut in taken:
        end = f"_{number}"
        cut, number = name[: _NAME - len(end)] + end, number + 1
    return cut


def _about(tables: Sequence[Table], about: About) -> Iterator[str]:
    licence = about.licence
    told = [about.title, about.description, about.address, about.release]
    told += [licence.title, licence.address] if licence else []
    told += [about.day.isoformat()] if about.day else []
    lines: list[list[str]] = [[_text(one, 1)] for one in told if one]
    lines.append([])
    lines += [[_text(table.name, 1), _text(table.title, 1), _text(table.description, 1)] for table in tables]
    return _sheet(iter(lines), frozen=False)


def _rows(table: Table, texts: Memo[str, str]) -> Iterator[list[str]]:
    yield [_text(column.name, 2) for column in table.columns]
    for row in table.rows:
        yield [texts[cell] if isinstance(cell, str) else _cell(cell, texts) for cell in row]


def _cell(cell: Cell, texts: Memo[str, str]) -> str:
    if cell is None:
        return "<c/>"
    if isinstance(cell, bool):
        return f'<c t="b"><v>{int(cell)}</v></c>'
    if isinstance(cell, int | float):
        return f"<c><v>{cell}</v></c>"
    return texts[as_text(cell)]


def _text(text: str, style: int) -> str:
    """A cell of text. What is longer than a cell may be ends in `…`: it is whole in the other files."""
    cut = text if len(text) <= MOST else f"{text[: MOST - 1]}…"
    safe = _ESCAPED.sub(_escape, cut)
    return f'<c s="{style}" t="inlineStr"><is><t xml:space="preserve">{safe}</t></is></c>'


def _escape(found: re.Match[str]) -> str:
    character = found.group()
    return _ENTITIES.get(character) or f"_x{ord(character):04X}_"


def _sheet(rows: Iterator[list[str]], frozen: bool = True) -> Iterator[str]:
    pane = '<pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/>' if frozen else ""
    yield (
        f'{_HEAD}<worksheet xmlns="{_MAIN}">'
        f'<sheetViews><sheetView workbookViewId="0">{pane}</sheetView></sheetViews>'
        '<sheetFormatPr baseColWidth="18" defaultRowHeight="15"/><sheetData>'
    )
    while some := [f"<row>{''.join(cells)}</row>" for cells in islice(rows, _ROWS)]:
        yield "".join(some)
    yield "</sheetData></worksheet>"


def _workbook(names: Sequence[str]) -> str:
    sheets = "".join(
        f'<sheet name={quoteattr(name)} sheetId="{n}" r:id="rId{n}"/>' for n, name in enumerate(names, 1)
    )
    return f'{_HEAD}<workbook xmlns="{_MAIN}" xmlns:r="{_OFFICE}"><sheets>{sheets}</sheets></workbook>'


def _relations(targets: dict[str, tuple[str, str]]) -> str:
    inside = "".join(
        f'<Relationship Id="{id_}" Type="{_OFFICE}/{sort}" Target="{target}"/>'
        for id_, (sort, target) in targets.items()
    )
    return f'{_HEAD}<Relationships xmlns="{_PACKAGE}/relationships">{inside}</Relationships>'


def _content_types(sheets: int) -> str:
    parts = [("/xl/workbook.xml", "sheet.main"), ("/xl/styles.xml", "styles")]
    parts += [(f"/xl/worksheets/sheet{n}.xml", "worksheet") for n in range(1, sheets + 1)]
    inside = "".join(f'<Override PartName="{part}" ContentType="{_TYPE}{sort}+xml"/>' for part, sort in parts)
    return (
        f'{_HEAD}<Types xmlns="{_PACKAGE}/content-types">'
        '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
        f'<Default Extension="xml" ContentType="application/xml"/>{inside}</Types>'
    )
