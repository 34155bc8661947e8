"""One row: what its cells give the record, put together as the record is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from spanbook.editing.sheets.left import Left, Why
from spanbook.editing.sheets.names import Names
from spanbook.editing.sheets.values import NotTaken, texts_of, value
from spanbook.reading.fields import Field, Sort
from spanbook.reading.sheets import Cell, Column, Map
from spanbook.reading.sheets.targets import Steps, Target
from spanbook.reading.write import Value


@dataclass(slots=True)
class Entry:
    """A record, or an entry of one of its lists: its values, and the entries of its own lists by their
    labels.

    `column_of` is the column that each value came from, 0 where the map fixes it. `unread` are fields whose
    cell could not be taken, where leaving them out would say something else: no quantity is a quantity of 1.
    """

    values: dict[str, Value] = field(default_factory=dict)
    column_of: dict[str, int] = field(default_factory=dict)
    lists: dict[str, dict[str, Entry]] = field(default_factory=dict)
    unread: list[str] = field(default_factory=list)

    @property
    def filled(self) -> bool:
        """Whether a cell gave something to it."""
        below = (entry for entries in self.lists.values() for entry in entries.values())
        return any(self.column_of.values()) or any(entry.filled for entry in below)

    def put(self, key: Field, value: Value, column: int) -> None:
        if value is False or value == "":
            return
        if key.sort is Sort.TEXTS:
            there = self.values.get(key.key, [])
            assert isinstance(there, list), "a list of texts is a list"
            value = there if value in there else [*there, value]
        self.values[key.key], self.column_of[key.key] = value, column


@dataclass(frozen=True, slots=True)
class Rower:
    """Makes an entry of each row. `at` tells where each column of the map stands, `headings` what they are
    called."""

    map: Map
    names: Names
    at: Mapping[int, Column]
    headings: Mapping[int, str]

    def entry(self, row: int, cells: Mapping[int, Cell], section: str) -> tuple[Entry, list[Left]]:
        """What the row says, and which of its cells say nothing that can be taken."""
        made, lefts = Entry(), list[Left]()
        for number, column in self.at.items():
            if (cell := cells.get(number)) is None:
                continue
            try:
                texts = texts_of(cell, column)
            except NotTaken as why:
                lefts.append(self._left(why, made, row, number, cell.text))
                continue
            for i, text in enumerate(texts):
                try:
                    said = value(column.target.field, text, self.names)
                except NotTaken as why:
                    lefts.append(self._left(why, made, row, number, text, i))
                else:
                    _entry_at(made, column.target.steps, i).put(column.target.field, said, number)
        if section and self.map.section:
            self._said(made, self.map.section, section, row, lefts, section=True)
        self._fix(made, row, lefts)
        return made, lefts

    def _left(self, why: NotTaken, made: Entry, row: int, column: int, read: str, piece: int = 0) -> Left:
        target = self.at[column].target
        if target.field.assumed:
            _entry_at(made, target.steps, piece).unread.append(target.field.title)
        return Left(why.why, row, column, self.headings.get(column, ""), read, why.about)

    def _fix(self, made: Entry, row: int, lefts: list[Left]) -> None:
        """What the map fixes; an entry of a list that columns fill only where they have."""
        mapped = {column.target.steps[:n] for column in self.at.values() for n in range(1, 5)}
        for target, text in self.map.fixed:
            if not target.steps or target.steps not in mapped:
                self._said(made, target, text, row, lefts)
                continue
            for entry in _entries_at(made, target.steps):
                if entry.filled and target.field.key not in entry.values:
                    self._said(entry, Target(target.path, (), target.field), text, row, lefts)

    def _said(
        self, made: Entry, target: Target, text: str, row: int, lefts: list[Left], *, section: bool = False
    ) -> None:
        try:
            said = value(target.field, text, self.names)
        except NotTaken as why:
            lefts.append(Left(why.why, row, 0, target.path, text, why.about))
        else:
            entry = _entry_at(made, target.steps, 0)
            if target.field.key not in entry.values:
                entry.put(target.field, said, -1 if section else 0)


def whole(fields: tuple[Field, ...], made: Entry, row: int, headings: Mapping[int, str]) -> Iterator[Left]:
    """Take entries of lists out that lack what they must have, or would say it wrongly, and tell them."""
    for one in fields:
        entries = made.lists.get(one.key, {})
        for label, entry in list(entries.items()):
            yield from whole(one.fields, entry, row, headings)
            missing = entry.unread + [
                need.title
                for need in one.fields
                if need.required and need.key not in entry.values and not entry.lists.get(need.key)
            ]
            if not missing:
                continue
            del entries[label]
            if entry.filled:
                columns = [column for column in entry.column_of.values() if column > 0]
                column = min(columns, default=0)
                read = next((str(v) for k, v in entry.values.items() if entry.column_of[k] == column), "")
                yield Left(Why.PART, row, column, headings.get(column, ""), read, ", ".join(missing))


def _entry_at(made: Entry, steps: Steps, piece: int) -> Entry:
    """The entry of a list that steps lead to, made where it is not there; of several things in one cell each
    has its own."""
    for i, (key, label) in enumerate(steps):
        told = f"{label}/{piece}" if piece and i == len(steps) - 1 else label
        made = made.lists.setdefault(key, {}).setdefault(told, Entry())
    return made


def _entries_at(made: Entry, steps: Steps) -> list[Entry]:
    found = [made]
    for key, label in steps:
        found = [
            below
            for entry in found
            for told, below in entry.lists.get(key, {}).items()
            if told.partition("/")[0] == label
        ]
    return found
