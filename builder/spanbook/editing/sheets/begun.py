"""The text of a map to begin with: what was guessed, and what nobody can guess left open, to be filled in."""

from __future__ import annotations

import json
from collections.abc import Iterator

from spanbook.editing.sheets.citing import cites
from spanbook.editing.sheets.guess import Guess, sections
from spanbook.editing.sheets.values import COMMA
from spanbook.ground.language import gettext as _
from spanbook.ground.punctuation import labelled, parted
from spanbook.reading.fields import Field, Sort, fields_of
from spanbook.reading.sheets import Sheet, letter_of
from spanbook.reading.sheets.targets import paths_of


def map_text(
    sheet: Sheet, kind: str, headings: int, found: tuple[Guess, ...], encoding: str | None = None
) -> Iterator[str]:
    """The lines of a map: what was guessed, and what nobody can guess as comments to be filled in.

    `encoding` is what the file was taken to be in, where it does not say itself.
    """
    yield f"kind: {kind}"
    if encoding:
        yield _comment(_("The file is not UTF-8: look whether the letters below read right."))
        yield f"encoding: {encoding}"
    if sheet.name:
        yield f"sheet: {_quoted(sheet.name)}"
    yield f"headings: {headings}"
    if cites(kind):
        yield _comment(_("What the statements rest on; class: what the sheet is a copy of."))
        yield "source: {id: the-sheet, title: " + _quoted(sheet.file) + ", class: recollection}"
    yield "columns:"
    for one in found:
        yield from _column(one)
    given = {one.field for one in found if one.field}
    if sections(sheet, headings) and any(path == "title" for path, _ in paths_of(kind)):
        yield _comment(_("The rows with one cell alone, such as headings between the others."))
        yield "section: title"
        given.add("title")
    yield from _fixed(kind, given, found)
    left = [one.heading or letter_of(one.column) for one in found if not one.field]
    if left:
        yield _comment(_("Columns left out on purpose; those that are not are told."))
        yield f"# left: [{', '.join(map(_quoted, left))}]"


def _column(one: Guess) -> Iterator[str]:
    name = f"column: {_quoted(one.heading)}" if one.heading else f"letter: {letter_of(one.column)}"
    seen = f"   {_comment(_('such as {}').format(parted(*one.shown)))}" if one.shown else ""
    if not one.field:
        yield f"  # - {{{name}, field: }}{seen}"
        return
    commas = ", decimals: comma" if any(map(COMMA.fullmatch, one.shown)) else ""
    yield f"  - {{{name}, field: {one.field}{commas}}}{seen}"


def _fixed(kind: str, given: set[str], found: tuple[Guess, ...]) -> Iterator[str]:
    places = {one.field.replace("assembly", "position"): one.place for one in found if one.place}
    needed = {path: field for path, field in _needed(fields_of(kind), given) if path not in given | {"id"}}
    if not needed and not places:
        return
    yield _comment(_("What no column has: the same for all rows."))
    yield "fixed:"
    for path, place in places.items():
        yield f"  {path}: {place}"
    for path, field in needed.items():
        told = labelled(field.title, ", ".join(field.choices) or field.example)
        yield f'  {path}: ""   {_comment(told)}'


def _needed(fields: tuple[Field, ...], given: set[str], above: str = "") -> Iterator[tuple[str, Field]]:
    """The fields that a record must have, and each entry of a list that is begun.

    A list that must be there and is not has one entry, the same for all rows.
    """
    for field in fields:
        path = above + field.key
        begun = {one for one in given if one.startswith(f"{path}.")}
        if field.sort is not Sort.GROUPS:
            if field.required:
                yield path, field
        elif begun and not any(one.removeprefix(f"{path}.").split(".")[0].isdigit() for one in begun):
            yield from _needed(field.fields, given, f"{path}.")
        elif field.required and not begun:
            yield from _needed(field.fields, given, f"{path}.1.")


def _comment(text: str) -> str:
    return f"# {text}"


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)
