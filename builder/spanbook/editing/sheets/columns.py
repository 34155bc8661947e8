"""Where the columns of a map stand in a sheet, and which columns the map does not name."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from functools import reduce

from spanbook.editing.sheets.left import Left, Why
from spanbook.editing.sheets.names import folded
from spanbook.editing.sheets.values import tidy
from spanbook.ground.language import gettext as _
from spanbook.ground.language import pgettext
from spanbook.reading.fields import Sort
from spanbook.reading.problems import Place, Problem, Problems, Severity
from spanbook.reading.sheets import Column, Map, Sheet, letter_of
from spanbook.reading.sheets.cells import column_of


@dataclass(frozen=True, slots=True)
class Laid:
    """Where columns stand: `at` those of the map, in its order, `id` those that make the id.

    `headings` are the headings of all, `left` the columns that nobody named though cells in them are filled.
    """

    at: tuple[tuple[int, Column], ...]
    id: tuple[int, ...]
    headings: Mapping[int, str]
    left: tuple[Left, ...]


def laid(sheet: Sheet, map_: Map) -> Laid:
    """Find the columns of a map in a sheet. Raises Problems where one is not there."""
    finder = _Finder(sheet, map_)
    made = finder.laid()
    if finder.problems:
        raise Problems(finder.problems)
    return made


class _Finder:
    def __init__(self, sheet: Sheet, map_: Map) -> None:
        self._sheet, self._map = sheet, map_
        self.headings = {
            number: tidy(cell.text) for number, cell in sheet.rows.get(map_.headings, {}).items()
        }
        self.problems: list[Problem] = []

    def laid(self) -> Laid:
        at: list[tuple[int, Column]] = []
        for column in self._map.columns:
            name = column.heading or column.letter
            if number := self._number(name, column.place, letter=bool(column.letter)):
                path, sort = column.target.path, column.target.field.sort
                if sort is not Sort.TEXTS and any(other.target.path == path for _, other in at):
                    todo = _("keep one of them, or number entries of a list, such as found.1 and found.2")
                    self._tell(column.place, _("two columns go into {}").format(path), todo)
                at.append((number, column))
        place = self._map.place
        id_ = [self._number(name, place) for name in self._map.id]
        left = {self._number(name, place) for name in self._map.left}
        named = {*(number for number, _ in at), *id_, *left}
        return Laid(tuple(at), tuple(filter(None, id_)), self.headings, tuple(self._unnamed(named)))

    def _number(self, name: str, place: Place, *, letter: bool = False) -> int:
        """The column of a heading or a letter; 0 where there is none, which is told."""
        found = [n for n, heading in self.headings.items() if folded(heading) == folded(name)]
        if letter or not found:
            if name.isascii() and name.isalpha() and name.isupper() and len(name) <= 3:
                return column_of(name)
            like = get_close_matches(folded(name), map(folded, self.headings.values()), n=1)
            known = {folded(heading): heading for heading in self.headings.values()}
            there = ", ".join(self.headings.values()) or pgettext("to choose from", "none")
            todo = (
                _("did you mean {}?").format(known[like[0]])
                if like
                else _("row {row} has: {there}").format(row=self._map.headings, there=there)
            )
            self._tell(place, _("there is no column {}").format(name), todo)
            return 0
        if len(found) > 1:
            letters = reduce(_both, map(letter_of, found))
            read, todo = _("several columns are called {}"), _("name them by their letters, {}")
            self._tell(place, read.format(name), todo.format(letters))
        return found[0]

    def _unnamed(self, named: set[int]) -> Iterator[Left]:
        rows = [cells for row, cells in self._sheet.rows.items() if row > self._map.headings]
        if self._map.section:
            rows = [cells for cells in rows if len(cells) > 1]
        counted = Counter(number for cells in rows for number in cells)
        for number, count in sorted(counted.items()):
            if number not in named:
                yield Left(Why.COLUMN, 0, number, self.headings.get(number, ""), str(count))

    def _tell(self, place: Place, read: str, todo: str) -> None:
        self.problems.append(Problem(place, Severity.ERROR, "sheet-map", read, todo))


def _both(one: str, other: str) -> str:
    return _("{first} and {last}").format(first=one, last=other)
