"""One row: what its cells give the record, put together as the record is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from spanbook.editing.sheets.columns import Laid
from spanbook.editing.sheets.entries import FIXED, SECTION, Entry
from spanbook.editing.sheets.left import Left, Why
from spanbook.editing.sheets.names import Names
from spanbook.editing.sheets.values import NotTaken, texts_of, value
from spanbook.reading.fields import Field, fields_of
from spanbook.reading.sheets import Cell, Column, Map
from spanbook.reading.sheets.targets import Steps, Target


class Rower:
    """Makes an entry of each row. `laid` tells where each column of the map stands."""

    def __init__(self, map_: Map, names: Names, laid: Laid) -> None:
        self._map, self._names, self._laid = map_, names, laid
        self._fields = fields_of(map_.kind)
        # Entries of lists to which columns give something.
        steps = [column.target.steps for _, column in laid.at]
        self._given = {one[:n] for one in steps for n in range(1, len(one) + 1)}

    def entry(self, row: int, cells: Mapping[int, Cell], section: str) -> tuple[Entry, list[Left]]:
        """What the row says, and which of its cells say nothing that can be taken."""
        made, lefts = Entry(), list[Left]()
        for number, column in self._laid.at:
            if number in cells:
                lefts += self._cell(made, row, number, column, cells[number])
        if section and self._map.section:
            lefts += self._said(made, self._map.section, section, row, SECTION)
        for target, text in self._map.fixed:
            for entry in made.all_at(target.steps) or [made.at(target.steps)]:
                if target.field.key not in entry.values:
                    lefts += self._said(entry, Target(target.path, (), target.field), text, row, FIXED)
        return made, [*lefts, *self._unsaid(self._fields, made, row, ())]

    def _cell(self, made: Entry, row: int, number: int, column: Column, cell: Cell) -> Iterator[Left]:
        target, heading = column.target, self._laid.headings.get(number, "")
        try:
            texts = texts_of(cell, column)
        except NotTaken as why:
            _unread(made.at(target.steps), target.field)
            yield Left(why.why, row, number, heading, cell.text, why.about)
            return
        for piece, text in enumerate(texts):
            entry = made.at(target.steps, piece)
            try:
                entry.put(target.field, value(target.field, text, self._names), number)
            except NotTaken as why:
                _unread(entry, target.field)
                yield Left(why.why, row, number, heading, text, why.about)

    def _said(self, made: Entry, target: Target, text: str, row: int, column: int) -> Iterator[Left]:
        """What the map says of all rows, or of those under a heading."""
        try:
            made.at(target.steps).put(target.field, value(target.field, text, self._names), column)
        except NotTaken as why:
            yield Left(why.why, row, 0, target.path, text, why.about)

    def _unsaid(self, fields: tuple[Field, ...], made: Entry, row: int, steps: Steps) -> Iterator[Left]:
        """Take out entries of lists that say nothing, or lack what they must have; the latter are told."""
        for one in fields:
            entries = made.lists.get(one.key, {})
            for label, entry in list(entries.items()):
                here = (*steps, (one.key, label.partition("/")[0]))
                yield from self._unsaid(one.fields, entry, row, here)
                missing = entry.missing(one.fields)
                if not entry.filled and here in self._given and not entry.unread:
                    # No cell says anything of it: it stands only where the map alone says enough.
                    if missing or _place_alone(entry, one.fields):
                        del entries[label]
                elif missing:
                    del entries[label]
                    yield self._lacking(one, entry, row, missing)

    def _lacking(self, one: Field, entry: Entry, row: int, missing: list[str]) -> Left:
        column = min((column for column in entry.column_of.values() if column > 0), default=0)
        read = next((str(said) for key, said in entry.values.items() if entry.column_of[key] == column), "")
        return Left(Why.PART, row, column, self._laid.headings.get(column, one.key), read, ", ".join(missing))


def _unread(entry: Entry, field: Field) -> None:
    if field.assumed:
        entry.unread.append(field.title)


def _place_alone(entry: Entry, fields: tuple[Field, ...]) -> bool:
    """Whether nothing is said of it but where it is."""
    places = {one.key for one in fields if one.pick == "positions"}
    return not entry.lists and entry.values.keys() <= places
