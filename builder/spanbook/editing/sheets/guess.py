"""What the columns of a sheet are likely for, by their headings and by what stands in them."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from difflib import SequenceMatcher

from spanbook.editing.sheets.names import Names, folded
from spanbook.editing.sheets.values import tidy
from spanbook.ground.language import gettext, marked
from spanbook.reading.fields import Field
from spanbook.reading.sheets import Cell, CellSort, Sheet
from spanbook.reading.sheets.targets import paths_of

# What columns of the trade are headed, by the field (common practice, no source), with `; ` between the
# words; each language has its own beside these. "no." is read as number.
_WORDS = {
    "number": marked("part number; number; item number; stock number; part"),
    "name": marked("description; desc; designation; part name; item"),
    "quantity": marked("qty; quantity; number off; per assembly"),
    "note": marked("remarks; remark; comment; comments; note"),
    "notes": marked("notes; remarks on the whole"),
    "old.number": marked("old number; old part; old part number; old; superseded; replaced"),
    "new.number": marked("new number; new part; new part number; new; superseded by; replaced by"),
    "serial": marked("serial; serial number; engine; engine number; machine; machine number; plate"),
    "condition": marked("condition; state of the machine"),
    "date": marked("date; looked at; day; seen on; when"),
    "seen-by": marked("owner; seen by; by; who"),
    "first": marked("from; first; since; starting"),
    "last": marked("to; last; up to; until; ending"),
    "title": marked("assembly; title"),
    "position": marked("position; position on the machine"),
    "by": marked("supplier; maker; make"),
    "evidence.at": marked("figure; fig; page; plate number"),
}
_NUMBERED = {"engine", "machine", "serial", "number"}
_CLOSE = 0.8
_PLACE = "found.{}.assembly"


@dataclass(frozen=True, slots=True)
class Guess:
    """A column and the field that it is likely for, empty where none is; `shown` are some of its cells.

    `place` is the position that its heading names, where the column says what is there.
    """

    column: int
    heading: str
    field: str
    shown: tuple[str, ...]
    place: str = ""


def headings_row(sheet: Sheet) -> int:
    """The row that most likely has the headings: of the first ones, the fullest of texts."""
    first = sorted(sheet.rows)[:20]
    if not first:
        return 1
    texts = {row: sum(cell.sort is CellSort.TEXT for cell in sheet.rows[row].values()) for row in first}
    widest = max(texts.values())
    return next(row for row in first if texts[row] == widest)


def sections(sheet: Sheet, headings: int) -> bool:
    """Whether headings stand between the rows: rows with one cell alone, several of them."""
    rows = _below(sheet, headings)
    alone = sum(len(cells) == 1 for cells in rows)
    return 1 < alone < len(rows) / 2


def guesses(sheet: Sheet, kind: str, headings: int, names: Names | None = None) -> tuple[Guess, ...]:
    """What each column is likely for; no two are for one field. `names` tells of positions."""
    rows = _below(sheet, headings)
    if sections(sheet, headings):
        rows = [cells for cells in rows if len(cells) > 1]
    columns = sorted({number for cells in rows for number in cells})
    said = {c: tidy(cell.text) for c, cell in sheet.rows.get(headings, {}).items()}
    shown = {c: tuple(dict.fromkeys(tidy(cells[c].text) for cells in rows if c in cells)) for c in columns}
    paths = dict(paths_of(kind))
    places = _places(said, columns, paths, names)
    likely = {
        column: _likely(said.get(column, ""), paths) or _by_choice(shown[column], paths)
        for column in columns
        if column not in places
    }
    # First what a record must have; of several lists, the one that most of the other columns may be for.
    needed = {path for path, field in paths.items() if "." not in path and field.required}
    others = [found for found in likely.values() if needed.isdisjoint(found)]
    weight = Counter(list_ for found in others for list_ in {_list_of(path) for path in found})

    def likeliest(path: str) -> tuple[bool, int, int]:
        return path in needed, weight[_list_of(path)], -path.count(".")

    taken = set[str]()
    made = []
    for column in columns:
        free = [path for path in likely.get(column, ()) if path not in taken]
        path = max(free, key=likeliest, default="")
        taken.add(path)
        field, place = places.get(column, (path, ""))
        some = tuple(text[:40] for text in shown[column][:3])
        made.append(Guess(column, said.get(column, ""), field, some, place))
    return tuple(made)


def _places(
    said: Mapping[int, str], columns: list[int], paths: Mapping[str, Field], names: Names | None
) -> dict[int, tuple[str, str]]:
    """Columns that are headed by a place on the machine, of what says what was found there."""
    if names is None or "found.assembly" not in paths:
        return {}
    field = paths["found.position"]
    found = {column: names.id_of(field, said[column]) for column in columns if said.get(column)}
    at = {column: place for column, place in found.items() if isinstance(place, str)}
    return {column: (_PLACE.format(n), place) for n, (column, place) in enumerate(at.items(), 1)}


def _by_choice(shown: tuple[str, ...], paths: Mapping[str, Field]) -> list[str]:
    """The fields that are a choice of words, where all cells are of these words."""
    words = {folded(text).replace(" ", "-") for text in shown}
    return [path for path, field in paths.items() if words and field.choices and words <= {*field.choices}]


def _below(sheet: Sheet, headings: int) -> list[Mapping[int, Cell]]:
    return [cells for row, cells in sorted(sheet.rows.items()) if row > headings]


def _list_of(path: str) -> str:
    """The list that a field stands in; empty for a field of the record itself."""
    return path.split(".")[0] if "." in path else ""


def _likely(heading: str, paths: Mapping[str, Field]) -> list[str]:
    """The fields that a heading may be for: by the trade's words, or else the likest of the fields' own."""
    said = _words(heading)
    if not said:
        return []
    found = [
        path
        for wanted in _WORDS
        if said in _headed(wanted)
        for path in paths
        if path == wanted or path.endswith(f".{wanted}")
    ]
    if found:
        return found
    close = {
        path: max(SequenceMatcher(None, said, word).ratio() for word in _own(field))
        for path, field in paths.items()
        if not field.last
    }
    best = max(close.values(), default=0.0)
    return [path for path, score in close.items() if score == best] if best > _CLOSE else []


def _headed(wanted: str) -> set[str]:
    """What a column for a field is headed, in English and in the language that is spoken."""
    return {_words(one) for text in (_WORDS[wanted], gettext(_WORDS[wanted])) for one in text.split("; ")}


def _own(field: Field) -> Iterator[str]:
    yield field.title.casefold()
    yield field.key.replace("-", " ")


def _words(heading: str) -> str:
    plain = re.sub(r"[^\w ]+", " ", folded(heading))
    words = ["number" if word in ("no", "nr", "num") else word for word in plain.split()]
    ends = words[0] in ("from", "to", "first", "last", "since", "until", "up") if words else False
    # From engine no., up to serial: of an end of a span only which end it is.
    return " ".join(word for word in words if not (ends and word in _NUMBERED))
