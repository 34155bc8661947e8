"""Records that were read before, kept in the user's cache: a file of the same bytes is not read again."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from hashlib import sha256
from pathlib import Path

from spanbook.reading import kept_files, sealed
from spanbook.reading.records import Record

Read = tuple[str, bytes]
_MOST_KEPT = 1_000_000_000  # bytes, of all projects
_MUCH = 8  # the share of all records that may have changed before all are written anew
_Kept = tuple[Path, dict[Read, Record]]


class Known:
    """Records by the path and the bytes they were read from; a record never changes once made."""

    def __init__(self, records: Mapping[Read, Record] | None = None) -> None:
        self._records = dict(records or {})
        self.used: dict[Read, Record] = {}

    def of(self, path: str, data: bytes) -> Record | None:
        """The record that these bytes made before."""
        found = self._records.get((path, data)) or self.used.get((path, data))
        if found is not None:
            self.used[path, data] = found
        return found

    def add(self, path: str, data: bytes, record: Record) -> None:
        self.used[path, data] = record


@contextmanager
def known_of(content: Path) -> Iterator[Known]:
    """What was read of a content folder before. What is used inside is kept for the next time."""
    file = kept_files.folder("records") / f"{_name(content)}.pickle"
    since = file.with_suffix(".since.pickle")
    most, few = _taken(file), _taken(since)
    known = Known({**most, **few})
    yield known
    with suppress(OSError):  # where nothing can be kept the next time is slower, and nothing else
        _keep(known.used, (file, most), (since, few))


def _keep(used: dict[Read, Record], whole: _Kept, more: _Kept) -> None:
    """Put what was used beside what is kept already, or all of it anew where much of it is another."""
    (file, most), (since, few) = whole, more
    new = {read: record for read, record in used.items() if read not in most}
    if max(len(new), len(most.keys() - used.keys())) > len(most) // _MUCH:
        sealed.put(file, used, _MOST_KEPT)
        since.unlink(missing_ok=True)
    elif new.keys() != few.keys():
        sealed.put(since, new, _MOST_KEPT)


def _name(content: Path) -> str:
    return sha256(sealed.program().encode() + b" " + os.fsencode(content.resolve())).hexdigest()


def _taken(file: Path) -> dict[Read, Record]:
    found = sealed.take(file)
    return found if isinstance(found, dict) else {}
