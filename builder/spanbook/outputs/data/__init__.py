"""Tables as files for other programs: a thin writer each. The same tables give the same bytes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any

from spanbook.ground.table import Table
from spanbook.outputs.data import csv_file, json_lines, package, sqlite, workbook, zipped
from spanbook.outputs.data.about import About

DATABASE = "tables.sqlite"
WORKBOOK = "tables.xlsx"
ZIP = "tables.zip"
RECORDS = "records.jsonl.gz"
PACKAGE = package.NAME
FORMS = ("xlsx", "sqlite", "csv", "json")


@dataclass(frozen=True, slots=True)
class Record:
    """A record in the files that have them whole: the line that it is there, and by what it is found."""

    line: str
    found: sqlite.Found

    @classmethod
    def of(cls, said: Mapping[str, Any]) -> Record:
        """By what its file says."""
        return cls(json_lines.line_of(said), sqlite.found_of(said))


def csv_files(tables: Sequence[Table], about: About) -> dict[str, bytes]:
    """A CSV file each, and the Data Package that tells their columns."""
    made = {package.path_of(table): csv_file.as_bytes(table) for table in tables}
    return {PACKAGE: package.as_bytes(tables, about, made), **made}


def files(form: str, tables: Sequence[Table], about: About, records: Sequence[Record]) -> dict[str, bytes]:
    """The files of a form, by name; of those with all records besides."""
    match form:
        case "csv":
            return csv_files(tables, about)
        case "xlsx":
            return {WORKBOOK: workbook.as_bytes(tables, about)}
        case "sqlite":
            return {DATABASE: sqlite.as_bytes(tables, about, (one.found for one in records))}
        case "json":
            return {RECORDS: json_lines.as_bytes(one.line for one in records)}
        case _:
            raise ValueError(f"{form} is none of {', '.join(FORMS)}")


def every_file(
    tables: Sequence[Table], about: About, records: Sequence[Record]
) -> Iterator[tuple[str, bytes]]:
    """All forms, and the CSV files as one more: each by name, those for most people first."""
    xlsx, base, csv, lines = (partial(files, form, tables, about, records) for form in FORMS)
    yield from xlsx().items()
    yield from base().items()
    made = csv()
    yield ZIP, zipped.as_bytes((name, (one,)) for name, one in made.items())
    yield from lines().items()
    yield from made.items()
