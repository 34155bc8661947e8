"""Records that were read before, kept in the user's cache: a file whose bytes are the same is not read again.

Kept by Python's pickle, which runs what it is told to: so never in the project, where a stranger's proposal
could bring such a file, and never taken from a file that others may write to.
"""

from __future__ import annotations

import os
import pickle
import stat
import sys
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from functools import cache
from hashlib import sha256
from pathlib import Path
from tempfile import NamedTemporaryFile

from platformdirs import user_cache_path

from spanbook.reading.records import Record
from spanbook.reading.schemas import folder as schema_folder

Read = tuple[str, bytes]
# After so long unused, what was kept of a project is let go.
_LONGEST = 30 * 24 * 3600
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
    file = user_cache_path("spanbook") / "records" / f"{_name(content)}.pickle"
    records = _taken(file)
    known = Known(records)
    yield known
    with suppress(OSError):  # where nothing can be kept the next time is slower, and nothing else
        if known.used.keys() != records.keys():
            _put(file, known.used)
        else:
            os.utime(file)  # it is in use


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
        with file.open("rb") as opened:
            if not _ours_alone(os.fstat(opened.fileno())):
                return {}
            found = pickle.load(opened)
    except Exception:  # a damaged pickle can raise anything at all; whatever it is, the files are read anew
        return {}
    return found if isinstance(found, dict) else {}


def _ours_alone(found: os.stat_result) -> bool:
    """Whether nobody else may write to the file; where there are no such rights, its folder is trusted."""
    if not hasattr(os, "getuid"):
        return True
    return found.st_uid == os.getuid() and not found.st_mode & (stat.S_IWGRP | stat.S_IWOTH)


def _put(file: Path, records: Mapping[Read, Record]) -> None:
    file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    with NamedTemporaryFile(dir=file.parent, prefix=".", delete=False) as new:
        try:
            pickle.dump(records, new, pickle.HIGHEST_PROTOCOL)
            new.close()
            Path(new.name).replace(file)  # whole or not at all
        except BaseException:
            Path(new.name).unlink(missing_ok=True)
            raise
    _forget(file.parent)


def _forget(kept: Path) -> None:
    for old in kept.iterdir():
        if time.time() - old.stat().st_mtime > _LONGEST:
            old.unlink(missing_ok=True)
