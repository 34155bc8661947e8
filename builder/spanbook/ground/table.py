"""A table of data that leaves the program: named, with typed columns; a writer makes a file of it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Any

Cell = str | int | float | bool | list[Any] | dict[str, Any] | None


class Type(StrEnum):
    """What a column holds, by the names that Table Schema (Data Package, v2) has for it.

    A list or a map is one value: where a file knows text alone, it stands there as JSON.
    """

    TEXT = "string"
    INTEGER = "integer"
    NUMBER = "number"
    YES_NO = "boolean"
    LIST = "array"
    MAP = "object"


@dataclass(frozen=True, slots=True)
class Column:
    """`required`: every row has it. `choices` are the words it may hold, if only some."""

    name: str
    type: Type
    title: str
    description: str
    required: bool = False
    choices: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Refers:
    """That the values of some columns are those of other columns in another table."""

    columns: tuple[str, ...]
    table: str
    there: tuple[str, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Table:
    """`titles` are what its rows are called, after the things that they are inside of. `key` are the columns
    that tell its rows apart; None in a row is what nobody has said."""

    name: str
    titles: tuple[str, ...]
    description: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    key: tuple[str, ...] = ()
    refers: tuple[Refers, ...] = ()

    @property
    def title(self) -> str:
        return ": ".join(self.titles)
