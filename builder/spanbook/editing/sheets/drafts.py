"""From rows to drafts: rows with one id make one record, and each statement says the row it rests on."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from spanbook.editing.sheets.columns import Laid
from spanbook.editing.sheets.entries import Entry
from spanbook.editing.sheets.left import Left, Why
from spanbook.editing.sheets.names import Names
from spanbook.editing.sheets.row import Rower
from spanbook.editing.sheets.values import tidy
from spanbook.ground.markdown_escape import escaped
from spanbook.reading import read_bytes
from spanbook.reading.entered import id_from, place_of, suggestion
from spanbook.reading.fields import Field, Sort, fields_of
from spanbook.reading.records import Record
from spanbook.reading.sheets import Cell, Map, Sheet
from spanbook.reading.write import Value, to_yaml

_PLAIN = re.compile(r"[A-Za-z0-9 ,.…-]+")  # what is no Markdown


@dataclass(frozen=True, slots=True)
class Draft:
    """A record as the rows say it. `values` has everything but the kind and the id."""

    kind: str
    id: str
    values: Mapping[str, Value]
    rows: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Filled:
    """The drafts by the order of their first rows, and what was left over by its place."""

    drafts: tuple[Draft, ...]
    left: tuple[Left, ...]
    rows: int


def filled(sheet: Sheet, map_: Map, laid: Laid, names: Names) -> Filled:
    """The drafts that a sheet gives by a map; `laid` tells where the map's columns stand in it."""
    drafter = _Drafter(sheet, map_, laid, Rower(map_, names, laid))
    return drafter.run()


@dataclass(slots=True)
class _Made:
    """A record while rows are added to it: every entry of a list with the rows that say it."""

    entry: Entry
    rows: list[int]
    lists: dict[str, dict[str, tuple[dict[str, Any], list[int]]]]
    row_of: dict[str, int] = field(default_factory=dict)


class _Drafter:
    def __init__(self, sheet: Sheet, map_: Map, laid: Laid, rower: Rower) -> None:
        self._sheet, self._map, self._laid, self._rower = sheet, map_, laid, rower
        self._fields = fields_of(map_.kind)
        self._left: list[Left] = []
        self._made: dict[str, _Made] = {}

    def run(self) -> Filled:
        count = 0
        for row, cells, section in self._rows():
            count += 1
            entry, lefts = self._rower.entry(row, cells, section)
            self._left += lefts
            if not entry.filled:
                continue
            if entry.unread:
                self._left.append(Left(Why.RECORD, row, 0, "", f"row {row}", ", ".join(entry.unread)))
            elif id_ := self._id(entry, cells):
                self._add(id_, entry, row)
            else:
                self._left.append(Left(Why.NO_ID, row, 0, "", ""))
        self._left += self._laid.left
        drafts = tuple(filter(None, (self._draft(id_, made) for id_, made in self._made.items())))
        return Filled(drafts, tuple(sorted(self._left, key=lambda one: (one.row, one.column))), count)

    def _rows(self) -> Iterator[tuple[int, Mapping[int, Cell], str]]:
        """Rows with what their empty cells mean, and the heading between rows that they stand under."""
        above: dict[int, Cell] = {}
        section = ""
        for row, cells in sorted(self._sheet.rows.items()):
            if row <= self._map.headings:
                continue
            if self._map.section and len(cells) == 1:
                section, above = tidy(next(iter(cells.values())).text), {}
                continue
            if not any(number in cells for number, _ in self._laid.at):
                continue
            for number, column in self._laid.at:
                if column.above and number in cells:
                    above[number] = cells[number]
            yield row, {**above, **cells}, section

    def _id(self, entry: Entry, cells: Mapping[int, Cell]) -> str:
        if self._laid.id:
            words = [cells[number].text for number in self._laid.id if number in cells]
            return id_from(words) if len(words) == len(self._laid.id) else ""
        given = entry.values.get("id")
        return given if isinstance(given, str) else suggestion(self._map.kind, _plain(entry, self._fields))

    def _add(self, id_: str, entry: Entry, row: int) -> None:
        made = self._made.get(id_)
        if made is None:
            made = self._made[id_] = _Made(Entry(), [], {})
        made.rows.append(row)
        for one in self._fields:
            if one.key in entry.values:
                self._scalar(made, one, entry, row)
            self._entries(made, one, entry, row)

    def _scalar(self, made: _Made, one: Field, entry: Entry, row: int) -> None:
        said, column = entry.values[one.key], entry.column_of[one.key]
        there = made.entry.values.get(one.key)
        if there is None:
            made.entry.values[one.key], made.row_of[one.key] = said, row
        elif isinstance(there, list) and one.sort is Sort.TEXTS and isinstance(said, list):
            made.entry.values[one.key] = [*there, *(text for text in said if text not in there)]
        elif there != said:
            heading = self._laid.headings.get(column, one.key)
            earlier = f"{there} ({made.row_of[one.key]})"
            self._left.append(Left(Why.OTHERWISE, row, max(column, 0), heading, str(said), earlier))

    def _entries(self, made: _Made, one: Field, entry: Entry, row: int) -> None:
        for below in entry.lists.get(one.key, {}).values():
            plain = _plain(below, one.fields)
            known = made.lists.setdefault(one.key, {})
            same = known.setdefault(json.dumps(plain), (plain, [row]))[1]
            if same != [row] and below.filled:
                column = min((c for c in below.column_of.values() if c > 0), default=0)
                heading = self._laid.headings.get(column, "")
                read = str(next(iter(plain.values())))
                self._left.append(Left(Why.TWICE, row, column, heading, read, str(same[0])))

    def _draft(self, id_: str, made: _Made) -> Draft | None:
        if id_ in self._map.without:
            return None
        values = dict(made.entry.values)
        values.pop("id", None)
        for key, entries in made.lists.items():
            values[key] = [dict(plain) for plain, _ in entries.values()]
        missing = [f.title for f in self._fields if f.required and f.key != "id" and f.key not in values]
        if missing:
            self._left += (Left(Why.RECORD, row, 0, "", id_, ", ".join(missing)) for row in made.rows)
            return None
        self._cite(values, made)
        ordered = {f.key: values[f.key] for f in sorted(self._fields, key=_order) if f.key in values}
        draft = Draft(self._map.kind, id_, ordered, tuple(made.rows))
        if said := _unreadable(draft):
            self._left += (Left(Why.UNREADABLE, row, 0, "", id_, said) for row in made.rows)
            return None
        return draft

    def _cite(self, values: dict[str, Any], made: _Made) -> None:
        """Say of the record, or else of each statement in it, the rows it rests on; a teardown says it
        itself."""
        origin = self._map.origin
        if origin:
            _complete(values, origin.id)
        if origin and any(one.key == "evidence" for one in self._fields):
            values["evidence"] = [*values.get("evidence", []), self._evidence(origin.id, made.rows)]
            return
        cited = [one for one in self._fields if any(below.key == "evidence" for below in one.fields)]
        said = False
        for one in cited if origin else ():
            found = made.lists.get(one.key, {}).values()
            for entry, (_, rows) in zip(values.get(one.key, []), found, strict=True):
                assert origin, "nothing is cited without a source"
                entry["evidence"] = [*entry.get("evidence", []), self._evidence(origin.id, rows)]
                said = True
        if not said and any(one.key == "notes" for one in self._fields):
            told = f"{self._where(made.rows)}."
            told = told if _PLAIN.fullmatch(told) else escaped(told)
            values["notes"] = f"{values['notes']}\n\n{told}" if "notes" in values else told

    def _evidence(self, source: str, rows: list[int]) -> dict[str, str]:
        return {"source": source, "at": self._where(rows)}

    def _where(self, rows: list[int]) -> str:
        sheet = [f"sheet {tidy(self._sheet.name)}"] if self._sheet.name else []
        return ", ".join([tidy(self._sheet.file)[:80], *sheet, rows_text(rows)])[:300]


def _complete(value: Any, source: str) -> None:
    """A page or figure from a column of its own is one of the sheet's source where no other is named."""
    if isinstance(value, list):
        for one in value:
            _complete(one, source)
    elif isinstance(value, dict):
        for one in value.get("evidence", ()):
            if "source" not in one and "teardown" not in one:
                one["source"] = source
        for below in value.values():
            _complete(below, source)


def cites(kind: str) -> bool:
    """Whether a record of a kind names what it rests on; a teardown is what others rest on."""
    fields = fields_of(kind)
    return any(one.key == "evidence" for field in fields for one in (field, *field.fields))


def rows_text(rows: list[int] | tuple[int, ...]) -> str:
    """Rows as they are named in evidence: `row 12`, `rows 12 to 15, 40`."""
    runs: list[list[int]] = []
    for row in sorted(set(rows)):
        if runs and runs[-1][-1] == row - 1:
            runs[-1][1:] = [row]
        else:
            runs.append([row])
    shown = ", ".join(" to ".join(map(str, run)) for run in runs[:8]) + (" …" if len(runs) > 8 else "")
    return f"row {shown}" if len(runs) == 1 and len(runs[0]) == 1 else f"rows {shown}"


def _plain(entry: Entry, fields: tuple[Field, ...]) -> dict[str, Any]:
    """An entry as a record has it, in the order of the schema."""
    made: dict[str, Any] = {}
    for one in sorted(fields, key=_order):
        if one.key in entry.values:
            made[one.key] = entry.values[one.key]
        elif below := entry.lists.get(one.key):
            made[one.key] = [_plain(each, one.fields) for each in below.values()]
    return made


def _order(one: Field) -> int:
    return one.order


def text_of(draft: Draft, schema_address: str | None = None) -> str:
    """The draft's record as a file, without its mark."""
    return to_yaml({"kind": draft.kind, "id": draft.id, **draft.values}, schema_address)


def _unreadable(draft: Draft) -> str:
    """What is wrong with it as a record; empty where nothing is."""
    found = read_bytes(text_of(draft).encode(), place_of(draft.kind, draft.id), draft.kind, draft.id)
    return "" if isinstance(found, Record) else "; ".join(f"{p.read}, {p.todo}" for p in found[:3])
