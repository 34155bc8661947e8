"""From rows to drafts: rows with one id make one record, and each statement says the row it rests on."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from spanbook.editing.sheets.citing import Citer
from spanbook.editing.sheets.columns import Laid
from spanbook.editing.sheets.entries import Entry
from spanbook.editing.sheets.left import Left, Why
from spanbook.editing.sheets.names import Names
from spanbook.editing.sheets.row import Rower
from spanbook.editing.sheets.values import tidy
from spanbook.ground.language import gettext as _
from spanbook.ground.punctuation import parted
from spanbook.reading import read_bytes
from spanbook.reading.entered import id_from, place_of, suggestion
from spanbook.reading.fields import Field, Sort, fields_of
from spanbook.reading.records import Record
from spanbook.reading.sheets import Cell, Map, Sheet
from spanbook.reading.write import Value, to_yaml


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
        self._citer = Citer(self._fields, sheet, map_.origin.id if map_.origin else None)
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
                self._left.append(
                    Left(Why.RECORD, row, 0, "", _("row {}").format(row), ", ".join(entry.unread))
                )
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
            key = json.dumps(plain)
            if key not in known:
                known[key] = (plain, [row])
            elif below.filled:
                column = min((c for c in below.column_of.values() if c > 0), default=0)
                heading = self._laid.headings.get(column, "")
                read = str(next(iter(plain.values())))
                self._left.append(Left(Why.TWICE, row, column, heading, read, str(known[key][1][0])))

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
        rows_of = {key: [rows for _, rows in entries.values()] for key, entries in made.lists.items()}
        self._citer.cite(values, made.rows, rows_of)
        ordered = {f.key: values[f.key] for f in sorted(self._fields, key=_order) if f.key in values}
        draft = Draft(self._map.kind, id_, ordered, tuple(made.rows))
        if said := _unreadable(draft):
            self._left += (Left(Why.UNREADABLE, row, 0, "", id_, said) for row in made.rows)
            return None
        return draft


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
    return "" if isinstance(found, Record) else parted(*(f"{p.read}, {p.todo}" for p in found[:3]))
