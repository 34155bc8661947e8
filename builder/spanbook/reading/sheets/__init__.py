"""Spreadsheets: from a file's bytes to cells that say how sure their text is, and the map of their
columns."""

from __future__ import annotations

from spanbook.reading.sheets.cells import Cell, CellSort, NotASheet, OtherEncoding, Sheet, letter_of
from spanbook.reading.sheets.mapping import SIGNS, Column, Map, Origin, read_map
from spanbook.reading.sheets.read import read_sheet

__all__ = [
    "SIGNS",
    "Cell",
    "CellSort",
    "Column",
    "Map",
    "NotASheet",
    "Origin",
    "OtherEncoding",
    "Sheet",
    "letter_of",
    "read_map",
    "read_sheet",
]
