"""A record while its cells are put together: its values, and the entries of its lists."""

from __future__ import annotations

from dataclasses import dataclass, field

from spanbook.reading.fields import Field, Sort
from spanbook.reading.sheets.targets import Steps
from spanbook.reading.write import Value

FIXED, SECTION = 0, -1  # where a value came from that has no column


@dataclass(slots=True)
class Entry:
    """A record, or an entry of one of its lists: its values, and the entries of its own lists by their
    labels.

    `column_of` is the column that each value came from. `unread` are fields whose cell could not be taken,
    where leaving them out would say something else: no quantity is a quantity of 1.
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
        """Set a value; a no is what is said by leaving it out."""
        if value is False:
            return
        if key.sort is Sort.TEXTS:
            there = self.values.get(key.key, [])
            assert isinstance(there, list), "a list of texts is a list"
            value = there if value in there else [*there, value]
        self.values[key.key], self.column_of[key.key] = value, column

    def at(self, steps: Steps, piece: int = 0) -> Entry:
        """The entry that steps lead to, made where it is not there; of several things in one cell each has
        its own."""
        found = self
        for i, (key, label) in enumerate(steps):
            told = f"{label}/{piece}" if piece and i == len(steps) - 1 else label
            found = found.lists.setdefault(key, {}).setdefault(told, Entry())
        return found

    def all_at(self, steps: Steps) -> list[Entry]:
        """Every entry that is there at the end of steps, of all the things in one cell."""
        found = [self]
        for key, label in steps:
            found = [
                below
                for entry in found
                for told, below in entry.lists.get(key, {}).items()
                if told.partition("/")[0] == label
            ]
        return found

    def missing(self, fields: tuple[Field, ...]) -> list[str]:
        """What it must have and has not, or what it has and could not be read."""
        lacking = [
            one.title
            for one in fields
            if one.required and one.key not in self.values and not self.lists.get(one.key)
        ]
        return self.unread + lacking
