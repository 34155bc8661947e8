"""Data out: everything that a register holds and answers as tables, and the tables as files."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from pathlib import Path

from spanbook.faces.api import OpenRegister, open_register
from spanbook.ground.table import Table
from spanbook.mkdocs.export import described
from spanbook.outputs import data
from spanbook.outputs.folder import fresh
from spanbook.reading.plain import plain
from spanbook.site import tables as made


def tables(register: OpenRegister) -> tuple[Table, ...]:
    """Everything in a register as named tables with typed columns: its records, and what is worked out of
    them (their names begin with `answer_`).

    Raises BuildFailed for settings that cannot be read: breaks and questions go by `rates`.
    """
    return made.tables(register.answers)


def export(project: str | Path, target: str | Path, forms: Collection[str] = data.FORMS) -> tuple[str, ...]:
    """Lay the data of a project down in a new folder, in some of the forms xlsx, sqlite, csv and json.

    Gives the names of the files. The same records give the same bytes. Raises Problems for records with
    errors, BuildFailed for settings, FileExistsError where the folder holds anything, OSError.
    """
    register = open_register(project)
    files = _files(register, forms)
    fresh.lay(Path(target), files)
    return tuple(files)


def _files(register: OpenRegister, forms: Collection[str]) -> Mapping[str, bytes]:
    said = {record: plain(record) for record in register.records}
    every = made.tables(register.answers, said.__getitem__)
    about, records = described(register.project, every), list(map(data.Record.of, said.values()))
    found: dict[str, bytes] = {}
    for form in data.FORMS:
        if form in forms:
            found |= data.files(form, every, about, records)
    return found
