"""A map to begin with: headings that read like a field's own words, each to be looked at."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from difflib import SequenceMatcher

from spanbook.editing.sheets.names import folded
from spanbook.editing.sheets.values import tidy
from spanbook.reading.fields import Field, Sort, fields_of
from spanbook.reading.sheets import Cell, CellSort, Sheet, letter_of
from spanbook.reading.sheets.targets import paths_of

# Words that headings of the trade have, and the words of our fields (common practice, no source).
_WORDS = {
    "part no": "number",
    "part no.": "number",
    "part number": "number",
    "no": "number",
    "no.": "number",
    "item no.": "number",
    "description": "name",
    "desc": "name",
    "designation": "name",
    "qty": "quantity",
    "qty.": "quantity",
    "quantity": "quantity",
    "no. off": "quantity",
    "remarks": "note",
    "remark": "note",
    "comment": "note",
    "comments": "note",
    "old no.": "old.number",
    "old number": "old.number",
    "old part no.": "old.number",
    "new no.": "new.number",
    "new number": "new.number",
    "new part no.": "new.number",
    "superseded by": "new.number",
    "replaced by": "new.number",
    "serial": "serial",
    "serial no.": "serial",
    "engine no.": "serial",
    "owner": "seen-by",
    "seen by": "seen-by",
    "from": "first",
    "from no.": "first",
    "to": "last",
    "to no.": "last",
    "assembly": "title",
    "position": "position",
    "supplier": "by",
    "maker": "by",
    "figure": "evidence.at",
    "fig.": "evidence.at",
    "page": "evidence.at",
}
_CLOSE = 0.8


@dataclass(frozen=True, slots=True)
class Guess:
    """A column and the field that it is likely for, empty where none is; `shown` are some of its cells."""

    column: int
    heading: str
    field: str
    shown: tuple[str, ...]


def headings_row(sheet: Sheet) -> int:
    """The row that most likely has the headings: of the first ones, the fullest of texts."""
    first = sorted(sheet.rows)[:20]
    if not first:
        return 1
    texts = {row: sum(cell.sort is CellSort.TEXT for cell in sheet.rows[row].values()) for row in first}
    widest = max(texts.values())
    return next(row for row in first if texts[row] == widest)


def sections(sheet: Sheet, headings: int) -> bool:
    """Whether headings stand between the rows: rows with one cell alone, several of them."""
    rows = _below(sheet, headings)
    alone = sum(len(cells) == 1 for cells in rows)
    return 1 < alone < len(rows) / 2


def guesses(sheet: Sheet, kind: str, headings: int) -> tuple[Guess, ...]:
    """What each column is likely for. No two are for one field."""
    rows = _below(sheet, headings)
    if sections(sheet, headings):
        rows = [cells for cells in rows if len(cells) > 1]
    columns = sorted({number for cells in rows for number in cells})
    said = {c: tidy(cell.text) for c, cell in sheet.rows.get(headings, {}).items()}
    paths = dict(paths_of(kind))
    likely = {column: _likely(said.get(column, ""), paths) for column in columns}
    # Of several lists with such a field, the one that most columns may be for.
    weight = Counter(above for found in likely.values() for above in {_above(path) for path in found})
    taken = set[str]()
    made = []
    for column in columns:
        free = [path for path in likely[column] if path not in taken]
        path = max(free, key=lambda path: (weight[_above(path)], -path.count(".")), default="")
        taken.add(path)
        shown = dict.fromkeys(tidy(cells[column].text)[:40] for cells in rows if column in cells)
        made.append(Guess(column, said.get(column, ""), path, tuple(shown)[:3]))
    return tuple(made)


def _below(sheet: Sheet, headings: int) -> list[Mapping[int, Cell]]:
    return [cells for row, cells in sorted(sheet.rows.items()) if row > headings]


def _above(path: str) -> str:
    return path.rpartition(".")[0]


def _likely(heading: str, paths: Mapping[str, Field]) -> list[str]:
    """The fields that a heading may be for: by the trade's words, or else the likest of the fields' own."""
    said = folded(heading)
    if not said:
        return []
    if wanted := _WORDS.get(said):
        return [path for path in paths if path == wanted or path.endswith(f".{wanted}")]
    close = {
        path: max(
            SequenceMatcher(None, said, word.casefold()).ratio()
            for word in (field.title, field.key.replace("-", " "))
        )
        for path, field in paths.items()
        if not field.last
    }
    best = max(close.values(), default=0.0)
    return [path for path, score in close.items() if score == best] if best > _CLOSE else []


def map_text(sheet: Sheet, kind: str, headings: int, found: tuple[Guess, ...]) -> Iterator[str]:
    """The lines of a map: what was guessed, and what nobody can guess as comments to be filled in."""
    yield f"kind: {kind}"
    if sheet.name:
        yield f"sheet: {_quoted(sheet.name)}"
    yield f"headings: {headings}"
    yield "# What the statements rest on. class: what the sheet is a copy of."
    yield "source: {id: the-sheet, title: " + _quoted(sheet.file) + ", class: recollection}"
    yield "columns:"
    for one in found:
        yield from _column(one)
    given = {one.field for one in found if one.field}
    if sections(sheet, headings):
        yield "# The rows with one cell alone, such as headings between the others."
        yield "section: title"
        given.add("title")
    yield from _missing(kind, given)
    left = [one.heading or letter_of(one.column) for one in found if not one.field]
    if left:
        yield "# Columns left out on purpose; those that are not are told."
        yield f"# left: [{', '.join(map(_quoted, left))}]"


def _column(one: Guess) -> Iterator[str]:
    name = f"column: {_quoted(one.heading)}" if one.heading else f"letter: {letter_of(one.column)}"
    seen = f"   # such as {'; '.join(one.shown)}" if one.shown else ""
    if not one.field:
        yield f"  # - {{{name}, field: }}{seen}"
        return
    yield f"  - {{{name}, field: {one.field}}}{seen}"


def _missing(kind: str, given: set[str]) -> Iterator[str]:
    needed = [(path, field) for path, field in _needed(kind, given) if path not in given and path != "id"]
    if needed:
        yield "# What no column has: the same for all rows."
        yield "fixed:"
        for path, field in needed:
            choices = f" (one of {', '.join(field.choices)})" if field.choices else ""
            yield f'  {path}: ""   # {field.title}{choices}, for example {field.example}'


def _needed(kind: str, given: set[str]) -> Iterator[tuple[str, Field]]:
    """The fields that a record must have, and each entry of a list that is begun; a list that must be there
    and is not has one entry, the same for all rows."""
    for field in fields_of(kind):
        begun = {path.partition(".")[2] for path in given if path.startswith(f"{field.key}.")}
        if field.sort is not Sort.GROUPS:
            if field.required:
                yield field.key, field
        elif field.required or begun:
            above = field.key if begun else f"{field.key}.1"
            inside = (one for one in field.fields if one.required and one.sort is not Sort.GROUPS)
            yield from ((f"{above}.{one.key}", one) for one in inside)


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)
