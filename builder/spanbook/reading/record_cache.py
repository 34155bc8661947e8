"""Records that were read before, kept in the user's cache: a file whose bytes are the same is not read again.

Kept by Python's pickle, which runs what it is told to: so never in the project, where a stranger's proposal
could bring such a file, and never taken from a file that others may write to or whose digest does not hold.
"""

from __future__ import annotations

import os
import pickle
import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from functools import cache
from hashlib import sha256
from pathlib import Path

from spanbook.reading import kept_files
from spanbook.reading.records import Record
from spanbook.reading.schemas import folder as schema_folder

Read = tuple[str, bytes]
_MOST_KEPT = 1_000_000_000  # bytes, of all projects
_SEAL = sha256().digest_size
_PACKAGE = Path(__file__).parents[1]


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
    records = _taken(file)
    known = Known(records)
    yield known
    with suppress(OSError):  # where nothing can be kept the next time is slower, and nothing else
        if known.used.keys() != records.keys():
            _put(file, known.used)


def _name(content: Path) -> str:
    return sha256(_reader().encode() + b" " + os.fsencode(content.resolve())).hexdigest()


@cache
def _reader() -> str:
    """Names the program that reads, to the byte: another one might make another record of the same bytes."""
    digest = sha256(sys.version.encode())
    for file in sorted([*_PACKAGE.rglob("*.py"), *schema_folder().glob("*.json")]):
        digest.update(file.read_bytes())
    return digest.hexdigest()


def _taken(file: Path) -> dict[Read, Record]:
    try:
        if not kept_files.ours_alone(file.stat()):
            return {}
        data = kept_files.read(file)
        seal, kept = data[:_SEAL], data[_SEAL:]
        # What is damaged, cut off or another file's is not even looked into.
        found = pickle.loads(kept) if seal == _seal(file, kept) else {}
    except Exception:  # another program's pickle can raise anything at all; the files are read anew
        return {}
    return found if isinstance(found, dict) else {}


def _seal(file: Path, kept: bytes) -> bytes:
    digest = sha256(file.name.encode())
    digest.update(kept)
    return digest.digest()


def _put(file: Path, records: Mapping[Read, Record]) -> None:
    kept = pickle.dumps(records, pickle.HIGHEST_PROTOCOL)
    kept_files.put(file, _seal(file, kept) + kept)
    kept_files.trim(file.parent, _MOST_KEPT)
