"""What a draft rests on: the sheet and its rows, said of the record, of its statements, or in its notes."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from spanbook.editing.sheets.values import tidy
from spanbook.ground.language import gettext as _
from spanbook.ground.markdown_escape import escaped
from spanbook.reading.fields import Field, fields_of
from spanbook.reading.sheets import Sheet

_PLAIN = re.compile(r"[A-Za-z0-9 ,.…-]+")  # what is no Markdown


def cites(kind: str) -> bool:
    """Whether a record of a kind names what it rests on; a teardown is what others rest on."""
    fields = fields_of(kind)
    return any(one.key == "evidence" for field in fields for one in (field, *field.fields))


@dataclass(frozen=True, slots=True)
class Citer:
    """Cites a sheet in records of a kind; `source` is the id of its record, where it is to be one."""

    fields: Sequence[Field]
    sheet: Sheet
    source: str | None

    def cite(
        self, values: dict[str, Any], rows: Sequence[int], rows_of: Mapping[str, Sequence[Sequence[int]]]
    ) -> None:
        """Say in a record which rows it rests on; `rows_of` are those of each entry of its lists."""
        if self.source and self._cited(values, self.source, rows, rows_of):
            return
        if any(one.key == "notes" for one in self.fields):
            told = f"{self._where(rows)}."
            told = told if _PLAIN.fullmatch(told) else escaped(told)
            values["notes"] = f"{values['notes']}\n\n{told}" if "notes" in values else told

    def _cited(
        self,
        values: dict[str, Any],
        source: str,
        rows: Sequence[int],
        rows_of: Mapping[str, Sequence[Sequence[int]]],
    ) -> bool:
        """Cite the sheet where evidence may stand, and tell whether it may anywhere."""
        _complete(values, source)
        if any(one.key == "evidence" for one in self.fields):
            self._add(values, source, rows)
            return True
        cited = [one for one in self.fields if _may_cite(one)]
        entries = [
            (one, *pair)
            for one in cited
            for pair in zip(values.get(one.key, ()), rows_of.get(one.key, ()), strict=True)
        ]
        for one, entry, its_rows in entries:
            self._inside(one, entry, source, its_rows)
        return bool(entries)

    def _inside(self, field: Field, entry: dict[str, Any], source: str, rows: Sequence[int]) -> None:
        """An entry of a list, and those inside it: which machines a line is for is a statement, too."""
        self._add(entry, source, rows)
        for one in filter(_may_cite, field.fields):
            for below in entry.get(one.key, ()):
                self._inside(one, below, source, rows)

    def _add(self, entry: dict[str, Any], source: str, rows: Sequence[int]) -> None:
        entry["evidence"] = [*entry.get("evidence", ()), {"source": source, "at": self._where(rows)}]

    def _where(self, rows: Sequence[int]) -> str:
        name = [_("sheet {}").format(tidy(self.sheet.name))] if self.sheet.name else []
        return ", ".join([tidy(self.sheet.file)[:80], *name, rows_text(rows)])[:300]


def rows_text(rows: Sequence[int]) -> str:
    """Rows as they are named in evidence: `row 12`, `rows 12 to 15, 40`."""
    runs: list[list[int]] = []
    for row in sorted(set(rows)):
        if runs and runs[-1][-1] == row - 1:
            runs[-1][1:] = [row]
        else:
            runs.append([row])
    shown = ", ".join(map(_run, runs[:8])) + (" …" if len(runs) > 8 else "")
    told = _("row {}") if len(runs) == 1 and len(runs[0]) == 1 else _("rows {}")
    return told.format(shown)


def _run(ends: Sequence[int]) -> str:
    if len(ends) == 1:
        return str(ends[0])
    return _("{first} to {last}").format(first=ends[0], last=ends[1])


def _may_cite(field: Field) -> bool:
    return any(one.key == "evidence" for one in field.fields)


def _complete(value: Any, source: str) -> None:
    """A page or figure from a column of its own is one of the sheet's source where no other is named."""
    if isinstance(value, list):
        for one in value:
            _complete(one, source)
    elif isinstance(value, dict):
        for one in value.get("evidence", ()):
            if "source" not in one and "teardown" not in one:
                one["source"] = source
        for below in value.values():
            _complete(below, source)
