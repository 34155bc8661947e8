"""The map of a sheet: which column goes into which field. Its law and manual is `schema/sheet-map.json`."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from spanbook.ground.language import gettext as _
from spanbook.reading import explain, schemas, text, typed, yaml
from spanbook.reading.examples import Examples
from spanbook.reading.nodes import Node, Step, place_of
from spanbook.reading.problems import Place, Problem, Problems, Severity
from spanbook.reading.sheets.targets import NoField, Target, target_of

# What may stand between thousands, by its name in a map.
SIGNS = {"space": " ", "comma": ",", "point": "."}


@dataclass(frozen=True, slots=True)
class Column:
    """A column and its field; found by its heading, or by its letter.

    `above`: an empty cell means the one above. `between` stands between several things in a cell. `shown`:
    a number is taken as it shows. `words` are what words of the sheet mean, in small letters. Of a cell
    only what stands `before`, or `after`, a sign is taken. `dates` tells what comes first in a date, `day`
    or `month`; `decimals` that a `comma` between figures is the decimal point; `thousands` is the sign
    between thousands.
    """

    heading: str
    letter: str
    target: Target
    above: bool
    between: str
    shown: bool
    words: Mapping[str, str]
    place: Place
    before: str = ""
    after: str = ""
    dates: str = ""
    decimals: str = ""
    thousands: str = ""


@dataclass(frozen=True, slots=True)
class Origin:
    """The sheet as a source: the id of its record, and what a record of it would say."""

    id: str
    title: str
    class_: str


@dataclass(frozen=True, slots=True)
class Map:
    kind: str
    sheet: str | None
    headings: int
    origin: Origin | None
    columns: tuple[Column, ...]
    fixed: tuple[tuple[Target, str], ...]
    section: Target | None
    id: tuple[str, ...]
    left: tuple[str, ...]
    without: frozenset[str]
    separator: str | None
    encoding: str | None
    place: Place


def read_map(data: bytes, path: str) -> Map:
    """The map in a file's bytes; `path` is how problems name it. Raises Problems."""
    try:
        node = yaml.read(data)
    except text.Refusal as refusal:
        place = Place(path, refusal.line, refusal.column)
        raise Problems([_problem(place, refusal.read, refusal.todo)]) from None
    schema = schemas.of_kind("sheet-map")
    values = typed.typed(node, schema.guide)
    if not schema.gate.is_valid(values):
        raise Problems(explain.explain(path, node, values, schema, Examples()))
    made = _Maker(path, node, values)
    map_ = made.map()
    if made.problems:
        raise Problems(made.problems)
    return map_


def _problem(place: Place, read: str, todo: str) -> Problem:
    return Problem(place, Severity.ERROR, "sheet-map", read, todo)


class _Maker:
    """A map from values that its schema takes; fields that are none are told."""

    def __init__(self, path: str, node: Node, values: dict[str, Any]) -> None:
        self._path, self._node, self._values = path, node, values
        self.problems: list[Problem] = []

    def map(self) -> Map:
        given = self._values
        section = given.get("section")
        origin = given.get("source")
        return Map(
            kind=given["kind"],
            sheet=given.get("sheet"),
            headings=given.get("headings", 1),
            origin=Origin(origin["id"], origin.get("title", ""), origin.get("class", "")) if origin else None,
            columns=tuple(self._columns()),
            fixed=tuple(self._fixed()),
            section=self._target(section, "section") if section else None,
            id=tuple(given.get("id", ())),
            left=tuple(given.get("left", ())),
            without=frozenset(given.get("without", ())),
            separator=given.get("separator"),
            encoding=given.get("encoding"),
            place=Place(self._path),
        )

    def _columns(self) -> Iterator[Column]:
        for i, one in enumerate(self._values["columns"]):
            if one.get("decimals", "") == one.get("thousands"):
                read = _("a comma before decimals and between thousands")
                place = self._place("columns", i, "thousands")
                self.problems.append(_problem(place, read, _("keep decimals or thousands")))
            if target := self._target(one["field"], "columns", i, "field"):
                yield Column(
                    heading=one.get("column", ""),
                    letter=one.get("letter", ""),
                    target=target,
                    above=one.get("above", False),
                    between=one.get("between", ""),
                    shown=one.get("numbers") == "shown",
                    words={word.casefold(): means for word, means in one.get("words", {}).items()},
                    place=self._place("columns", i),
                    before=one.get("before", ""),
                    after=one.get("after", ""),
                    dates=one.get("dates", "").removesuffix("-first"),
                    decimals=one.get("decimals", ""),
                    thousands=SIGNS.get(one.get("thousands", ""), ""),
                )

    def _fixed(self) -> Iterator[tuple[Target, str]]:
        for path, said in self._values.get("fixed", {}).items():
            if not (target := self._target(path, "fixed", path)):
                continue
            if said.strip():
                yield target, said
            else:
                todo = _("write it like {}, or delete the line").format(target.field.example)
                self.problems.append(
                    _problem(self._place("fixed", path), _("nothing for {}").format(path), todo)
                )

    def _target(self, path: str, *steps: Step) -> Target | None:
        try:
            return target_of(self._values["kind"], path)
        except NoField as why:
            read = _("the field {path}, which no {kind} has so").format(path=path, kind=self._values["kind"])
            self.problems.append(_problem(self._place(*steps), read, str(why)))
            return None

    def _place(self, *steps: Step) -> Place:
        return Place(self._path, *place_of(self._node, steps))
