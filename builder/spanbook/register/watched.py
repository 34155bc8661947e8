"""A register that notes what is read of it: so that it can be told who is to be asked again.

Watched are the tables of what is said most often: assemblies, parts, acts, conversions, sources, teardowns,
strip-downs, and what follows from them. All else is ground: where it changes everything is worked out anew.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import fields, replace
from enum import Enum
from functools import partial
from types import MappingProxyType
from typing import Any, TypeVar

from spanbook.ground.notes import Notes
from spanbook.reading.kinds import KINDS
from spanbook.reading.records import (
    Assembly,
    Conversion,
    PartRecord,
    Source,
    StripDown,
    Supersession,
    Teardown,
)
from spanbook.register.model import Register

K = TypeVar("K")
V = TypeVar("V")
OFTEN = (Assembly, Conversion, PartRecord, Source, StripDown, Supersession, Teardown)
_SORTS = {name for name, kind in KINDS.items() if issubclass(kind.cls, OFTEN)}
# Ground, and what follows from it and the record that is asked about; things are watched by their sorts.
_NOT = {
    *("machines", "series", "retired_series", "unit_records", "positions", "inside"),
    *("cautions", "terms", "signs", "gone", "makers"),
    *("owners", "possible", "said", "things"),
}
_ROWS = ("records", "statements")


class Whole(Enum):
    """What may be read of a table besides one entry."""

    ALL = "all"
    KEYS = "keys"


class Watched(Mapping[K, V]):
    """A table that notes what is read of it: one entry, its keys, or all of it."""

    __slots__ = ("_cells", "_open", "_table")

    def __init__(self, name: str, table: Mapping[K, V], notes: Notes) -> None:
        self._table, self._open = table, notes.open
        self._cells = _Cells(name, notes)

    def __getitem__(self, key: K) -> V:
        self._open[-1].add(self._cells[key])
        return self._table[key]

    def __contains__(self, key: object) -> bool:
        self._open[-1].add(self._cells[key])
        return key in self._table

    def get(self, key: K, default: Any = None) -> Any:
        self._open[-1].add(self._cells[key])
        return self._table.get(key, default)

    def __iter__(self) -> Iterator[K]:
        self._open[-1].add(self._cells[Whole.KEYS])
        return iter(self._table)

    def __len__(self) -> int:
        self._open[-1].add(self._cells[Whole.KEYS])
        return len(self._table)

    def keys(self) -> Any:
        self._open[-1].add(self._cells[Whole.KEYS])
        return self._table.keys()

    def values(self) -> Any:
        self._open[-1].add(self._cells[Whole.ALL])
        return self._table.values()

    def items(self) -> Any:
        self._open[-1].add(self._cells[Whole.ALL])
        return self._table.items()


class _Cells(dict[object, int]):
    """The number of each cell of a table, by what is read of it."""

    def __init__(self, name: str, notes: Notes) -> None:
        super().__init__()
        self._name, self._notes = name, notes

    def __missing__(self, what: object) -> int:
        number = self[what] = self._notes.cell((self._name, what))
        return number


class _Row(tuple[V, ...]):
    """A row of everything that notes when it is read."""

    read: Callable[[], None]

    def __iter__(self) -> Iterator[V]:
        self.read()
        return super().__iter__()

    def __len__(self) -> int:
        self.read()
        return super().__len__()

    def __getitem__(self, at: Any) -> Any:
        self.read()
        return super().__getitem__(at)

    def __contains__(self, one: object) -> bool:
        self.read()
        return super().__contains__(one)


def watched(register: Register, notes: Notes) -> Register:
    """The same register, all of whose watched tables note what is read of them."""

    def noting(name: str, table: Mapping[K, V]) -> Mapping[K, V]:
        return Watched(name, table, notes)

    changed: dict[str, Any] = {name: noting(name, getattr(register, name)) for name in _watched(register)}
    things = {
        sort: noting(_of_sort(sort), found) if sort in _SORTS else found
        for sort, found in register.things.items()
    }
    changed |= {name: _row(name, getattr(register, name), notes) for name in _ROWS}
    return replace(register, **changed, things=MappingProxyType(things))


def _row(name: str, row: tuple[V, ...], notes: Notes) -> tuple[V, ...]:
    made, number = _Row(row), notes.cell((name, Whole.ALL))
    made.read = partial(notes.saw, number)
    return made


def tables(register: Register) -> dict[str, Any]:
    """Everything of a register that is watched, by the name that it is noted by."""
    found = {name: getattr(register, name) for name in (*_watched(register), *_ROWS)}
    return found | {_of_sort(sort): register.things.get(sort, {}) for sort in _SORTS}


def _watched(register: Register) -> Iterator[str]:
    for one in fields(register):
        if isinstance(getattr(register, one.name), Mapping) and one.name not in _NOT:
            yield one.name


def _of_sort(sort: str) -> str:
    return f"things/{sort}"
