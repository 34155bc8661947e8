"""A spreadsheet as it is read: rows of cells, each with its text and how sure that text is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

MOST_ROWS = 100_000
MOST_COLUMNS = 1_000
LONGEST = 30_000  # characters in a cell; a spreadsheet program's own limit is 32,767


class NotASheet(Exception):  # noqa: N818 - it says what the file is not
    """A file that cannot be read as a spreadsheet. The message says why, and what to do."""


class OtherEncoding(NotASheet):
    """A CSV file in another encoding than it was read in."""


class CellSort(StrEnum):
    """What a cell holds.

    text: what was typed. number, date, truth: what the program made of what was typed. formula: one whose
    result the file does not hold. error: the result of a formula that failed.
    """

    TEXT = "text"
    NUMBER = "number"
    DATE = "date"
    TRUTH = "truth"
    FORMULA = "formula"
    ERROR = "error"


@dataclass(frozen=True, slots=True)
class Cell:
    """`text` is what the cell shows, as far as the file says: 0012 for a number 12 of the format 0000.

    `exact` tells whether it surely is that: a number without a format may have been typed with zeros before
    it. A date's text is year, year and month, or day, as much of it as the cell shows.
    """

    sort: CellSort
    text: str
    exact: bool = True


@dataclass(frozen=True, slots=True)
class Sheet:
    """`rows` are those that hold something: by their number as the program counts them, their cells by
    column, from 1. `name` is the sheet's in its file, empty where a file has no sheets; `names` are all of
    them.

    `macros` tells whether the file holds programs of its own, which nobody ran.
    """

    file: str
    name: str
    names: tuple[str, ...]
    rows: Mapping[int, Mapping[int, Cell]]
    macros: bool = False


def letter_of(column: int) -> str:
    """The letters of a column, counted from 1: AA for the 27th."""
    letters = ""
    while column > 0:
        column, rest = divmod(column - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


def column_of(letters: str) -> int:
    """The column of letters, counted from 1."""
    column = 0
    for letter in letters.upper():
        column = column * 26 + ord(letter) - ord("A") + 1
    return column
