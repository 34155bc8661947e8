"""New records: their text, and their file in a project."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from spanbook.mkdocs.asked import schema_address
from spanbook.outputs import whole_file
from spanbook.reading import read_bytes
from spanbook.reading.entered import place_of
from spanbook.reading.problems import Problems
from spanbook.reading.records import Record
from spanbook.reading.write import Value, to_yaml


def record_text(project: str | Path, values: Mapping[str, Value]) -> str:
    """The file of a record, its `kind` and `id` among the values, as `write_record` writes it.

    Raises BuildFailed for settings that cannot be read: they say where the schema is published.
    """
    return to_yaml(values, schema_address(Path(project), str(values["kind"])))


def write_record(project: str | Path, values: Mapping[str, Value]) -> Path:
    """Write a new record into its place in a project.

    Raises Problems with what is wrong with it, FileExistsError where there is one already, and BuildFailed
    as record_text. Nothing is written then.
    """
    kind, id_ = str(values["kind"]), str(values["id"])
    text, place = record_text(project, values), place_of(kind, id_)
    found = read_bytes(text.encode(), place, kind, id_)
    if not isinstance(found, Record):
        raise Problems(found)
    file = Path(project) / place
    whole_file.create(file, text)
    return file
