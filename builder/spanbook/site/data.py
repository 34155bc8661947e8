"""What the site lays down for other programs, as the page of the data shows it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from hashlib import sha256

from spanbook.ground.licences import Licence
from spanbook.ground.table import Table
from spanbook.wording.data import size_words
from spanbook.wording.pages import release_name


@dataclass(frozen=True, slots=True)
class Download:
    """A file of data: its name below the page, how large it is, and its digest (SHA-256)."""

    name: str
    size: str
    digest: str

    @classmethod
    def of(cls, name: str, data: bytes) -> Download:
        return cls(name, size_words(len(data)), sha256(data).hexdigest())

    @property
    def form(self) -> str:
        """What sort of file it is, by how its name ends."""
        return self.name.rpartition("/")[2].partition(".")[2]


@dataclass(frozen=True, slots=True)
class DataShown:
    """`whole` are files with all of it, `each` a file for every one of the tables; none where a site lays
    none down. `beside`: whether pages have their records beside them. `credits`: whose work it is, each
    with what it was."""

    licence: Licence | None = None
    whole: tuple[Download, ...] = ()
    each: tuple[tuple[Table, Download], ...] = ()
    beside: bool = False
    credits: tuple[tuple[str, str], ...] = ()


def shown(licence: Licence | None, tables: Sequence[Table], files: Iterable[Download]) -> DataShown:
    """All files of data, those for most people first."""
    made = {file.name: file for file in files}
    each = tuple((table, made.pop(f"csv/{table.name}.csv")) for table in tables)
    return DataShown(licence, tuple(made.values()), each)


def release_of(tables: Sequence[Table]) -> str:
    """A name for a state of the records: the same records and answers have the same one."""
    digest = sha256()
    for table in tables:
        digest.update(repr((table.name, table.rows)).encode())
    return release_name(digest.hexdigest()[:8])
