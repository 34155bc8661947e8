"""The files of a new site, each written once; what the old site has just so stays the very file that it was.

What was written is told with its size and digest, so that nobody has to read it again.
"""

from __future__ import annotations

import os
import stat
from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple

from spanbook.ground.digests import digest

_PLAIN = getattr(os, "O_BINARY", 0)
_READ = os.O_RDONLY | _PLAIN | getattr(os, "O_NOFOLLOW", 0)
_WRITE = os.O_WRONLY | os.O_CREAT | os.O_EXCL | _PLAIN


class Written(NamedTuple):
    """A file by its path below the site with slashes, its bytes, and a digest of them."""

    path: str
    size: int
    digest: str


@dataclass(frozen=True, slots=True)
class Place:
    """Where the files of a site go: its folder, and the site whose place it takes where there is one.

    `rights` are those that a new file gets: one that was given others is not carried on.
    """

    folder: str
    before: str | None = None
    rights: int = 0

    @classmethod
    def of(cls, folder: Path, before: Path | None = None) -> Place:
        """The folder is made where there is none, as plain MkDocs leaves it.

        To be asked before any other thread writes: for a moment files would get the usual rights.
        """
        folder.mkdir(parents=True, exist_ok=True)
        masked = os.umask(0o022)
        os.umask(masked)
        there = before is not None and before.is_dir()
        return cls(str(folder), str(before) if there else None, 0o666 & ~masked)


class Writer:
    """Writes below one folder, and makes the folders in it when something goes into them."""

    def __init__(self, place: Place) -> None:
        self._place = place
        self._made = {""}

    def put(self, path: str, data: bytes) -> Written:
        """Raises OSError, also where that file was written before."""
        self._make(path.rpartition("/")[0])
        target, before = f"{self._place.folder}/{path}", self._place.before
        if before is None or not self._stays(f"{before}/{path}", target, data):
            _write(target, data)
        return Written(path, len(data), digest(data))

    def keep(self, files: Iterable[Written]) -> None:
        """What the old site has just as it was written goes into the new one as well. Raises OSError."""
        before = self._place.before
        assert before is not None, "it was written there"
        for one in files:
            self._make(one.path.rpartition("/")[0])
            was, target = f"{before}/{one.path}", f"{self._place.folder}/{one.path}"
            if os.lstat(was).st_nlink > 1 or not _linked(was, target):
                _write(target, Path(was).read_bytes())

    def _make(self, folder: str) -> None:
        if folder not in self._made:
            self._make(folder.rpartition("/")[0])
            with suppress(FileExistsError):  # another process makes its own files there
                os.mkdir(f"{self._place.folder}/{folder}")  # noqa: PTH102 - once for each page
            self._made.add(folder)

    def _stays(self, was: str, target: str, data: bytes) -> bool:
        """A file that somebody has under another name as well, or given other rights, is not carried on."""
        try:
            descriptor = os.open(was, _READ)
        except OSError:
            return False
        try:
            found = os.fstat(descriptor)
            ours = (1, self._place.rights, len(data)) == (
                found.st_nlink,
                stat.S_IMODE(found.st_mode),
                found.st_size,
            )
            if not ours or not _mine(found) or os.read(descriptor, len(data) + 1) != data:
                return False
            os.link(was, target)
        except OSError:  # where a disk has no second names for a file, a new one does as well
            return False
        finally:
            os.close(descriptor)
        return True


def _linked(was: str, target: str) -> bool:
    """Whether a disk has second names for a file."""
    try:
        os.link(was, target)
    except OSError:
        return False
    return True


def _mine(found: os.stat_result) -> bool:
    return not hasattr(os, "getuid") or found.st_uid == os.getuid()


def _write(target: str, data: bytes) -> None:
    descriptor = os.open(target, _WRITE, 0o666)
    try:
        left = memoryview(data)
        while left:
            left = left[os.write(descriptor, left) :]
    except OSError as failure:
        failure.filename = target
        raise
    finally:
        os.close(descriptor)
