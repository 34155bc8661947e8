"""One cell: the value that it gives its field, or why it gives none."""

from __future__ import annotations

import re

from spanbook.editing.sheets.left import Why
from spanbook.editing.sheets.names import Names, folded
from spanbook.reading.entered import value_of, wrong
from spanbook.reading.fields import Field, Sort
from spanbook.reading.sheets import SIGNS, Cell, CellSort, Column
from spanbook.reading.sheets.cells import LONGEST
from spanbook.reading.text import hidden
from spanbook.reading.write import Value

_COUNTED = (Sort.INTEGER, Sort.BOUND)
COMMA = re.compile("[0-9]+,[0-9]+")  # decimals behind a comma
_DAY = "2024-05-11"
_THOUSANDS = {
    sign: re.compile(rf"(?<![0-9])(?<![0-9]{at})[0-9]{{1,3}}(?:{at}[0-9]{{3}})+(?![0-9]|{at}[0-9])")
    for sign, at in ((sign, re.escape(sign)) for sign in SIGNS.values())
}
_DATE = re.compile(r"([0-9]{1,2})[./ -]([0-9]{1,2})[./ -]([0-9]{4})")


class NotTaken(Exception):  # noqa: N818 - it says what is not
    """A cell that gives no value: why, and what the reason needs."""

    def __init__(self, why: Why, about: str = "") -> None:
        super().__init__(why)
        self.why, self.about = why, about


def texts_of(cell: Cell, column: Column) -> list[str]:
    """The texts in a cell, in one line each; several where something stands between them. Raises NotTaken."""
    _sound(cell, column)
    text = tidy(cell.text, lines=column.target.field.sort is Sort.NOTES)
    pieces = _cut(text, column).split(column.between) if column.between else [_cut(text, column)]
    return [_meant(piece.strip(), column) for piece in pieces if piece.strip()]


def _cut(text: str, column: Column) -> str:
    """What stands before or after a sign, where the map asks for that alone."""
    for sign in filter(None, (column.after, column.before)):
        if sign not in text:
            raise NotTaken(Why.CUT, sign)
    text = text.partition(column.after)[2] if column.after else text
    return text.partition(column.before)[0] if column.before else text


def _meant(piece: str, column: Column) -> str:
    """What a word of the sheet means, and a date as the records write it."""
    if (word := column.words.get(piece.casefold())) is not None:
        return word
    if column.thousands:
        piece = _joined(piece, column.thousands)
    if column.decimals and COMMA.fullmatch(piece):
        return piece.replace(",", ".")
    if column.dates and (said := _DATE.fullmatch(piece)):
        day, month = (said[1], said[2]) if column.dates == "day" else (said[2], said[1])
        return f"{said[3]}-{month:0>2}-{day:0>2}"
    return piece


def _joined(text: str, sign: str) -> str:
    """A text without the signs between the thousands of its numbers."""
    return _THOUSANDS[sign].sub(lambda number: number[0].replace(sign, ""), text)


def value(field: Field, text: str, names: Names) -> Value:
    """What a text gives a field. Raises NotTaken."""
    if found := hidden(text):
        raise NotTaken(Why.HIDDEN, found[1])
    if field.choices:
        text = next((one for one in field.choices if _alike(one) == _alike(text)), text)
    if field.sort is Sort.YES:
        text = {"true": "yes", "false": "no"}.get(text.casefold(), text.casefold())
    if field.sort is not Sort.NOTES:
        named = names.id_of(field, text)
        if not isinstance(named, str):
            raise NotTaken(Why.UNKNOWN, ", ".join(named))
        text = named
    if said := wrong(field, text):
        pointed = text.replace(",", ".")
        if COMMA.fullmatch(text) and not wrong(field, pointed):
            raise NotTaken(Why.COMMA, pointed)
        for joined in (_joined(text, sign) for sign in SIGNS.values()):
            if field.sort in _COUNTED and not wrong(field, joined):
                raise NotTaken(Why.THOUSANDS, joined)
        raise NotTaken(Why.CHOICE if field.choices or field.sort is Sort.YES else Why.FORM, said)
    return value_of(field, text)


def tidy(text: str, *, lines: bool = False) -> str:
    """A cell's text without what is only its layout: blanks at its ends, and line breaks where one line is
    asked."""
    parts = [" ".join(line.split()) for line in text.splitlines()]
    return "\n".join(parts).strip() if lines else " ".join(part for part in parts if part)


def _sound(cell: Cell, column: Column) -> None:
    """Raise NotTaken where it is not sure what was typed into a cell."""
    field = column.target.field
    if len(cell.text) > LONGEST:
        raise NotTaken(Why.LONG)
    if cell.sort is CellSort.ERROR:
        raise NotTaken(Why.ERROR)
    if cell.sort is CellSort.FORMULA:
        raise NotTaken(Why.FORMULA)
    if cell.text.casefold() in column.words:
        return  # whoever made the map knows what it means
    if cell.sort is CellSort.TRUTH and field.sort is not Sort.YES:
        raise NotTaken(Why.TRUTH)
    if cell.sort is CellSort.DATE and not _takes_date(field, cell):
        raise NotTaken(Why.DATE)
    if cell.sort is CellSort.NUMBER:
        if field.sort in _COUNTED and not cell.text.isdigit():
            raise NotTaken(Why.WHOLE)
        if field.sort not in _COUNTED and not (cell.exact or column.shown):
            raise NotTaken(Why.NUMBER)


def _takes_date(field: Field, cell: Cell) -> bool:
    if not cell.exact:
        return False
    if field.sort in _COUNTED:
        return len(cell.text) == 4
    dated = field.pattern and re.fullmatch(field.pattern, _DAY) and not re.fullmatch(field.pattern, "x y")
    return bool(dated)


def _alike(word: str) -> str:
    return folded(word).replace(" ", "-")
