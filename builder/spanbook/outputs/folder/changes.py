"""What of a new site is other than in the old one; what is the same stays the very file that it was.

Every byte is compared, so nothing has to be believed. A file that stays keeps its day too, by which whoever
copies a site on knows it.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

from spanbook.ground.changes import Changes
from spanbook.outputs.folder import mark

_LINK = ".spanbook-same"  # the name of a file for a moment


def settle(fresh: Path, old: Path) -> Changes:
    """Compare a new site with the one whose place it takes, and let it have the old one's file where both are
    the same. Raises OSError."""
    before = dict(_files(str(old), "")) if old.is_dir() else {}
    new, changed = [], []
    for path, entry in _files(str(fresh), ""):
        was = before.pop(path, None)
        if was is None:
            new.append(path)
        elif os.path.samestat(entry.stat(), was.stat()):
            continue  # it was carried on when it was written
        elif _same(entry, was):
            _keep(was, entry, fresh / _LINK)
        else:
            changed.append(path)
    return Changes(tuple(sorted(new)), tuple(sorted(changed)), tuple(sorted(before)))


def _files(folder: str, below: str) -> Iterator[tuple[str, os.DirEntry[str]]]:
    """Every plain file but the mark, which is for this program alone."""
    with os.scandir(folder) as entries:
        for entry in entries:
            path = f"{below}{entry.name}"
            if entry.is_dir(follow_symlinks=False):
                yield from _files(entry.path, f"{path}/")
            elif entry.is_file(follow_symlinks=False) and path != mark.NAME:
                yield path, entry


def _same(one: os.DirEntry[str], other: os.DirEntry[str]) -> bool:
    return one.stat().st_size == other.stat().st_size and _bytes(one) == _bytes(other)


def _bytes(entry: os.DirEntry[str]) -> bytes:
    return Path(entry.path).read_bytes()


def _keep(was: os.DirEntry[str], entry: os.DirEntry[str], link: Path) -> None:
    """A file that somebody has under another name as well, or given other rights, is not carried on."""
    before, now = was.stat(), entry.stat()
    ours = (before.st_nlink, before.st_mode, before.st_uid) == (1, now.st_mode, now.st_uid)
    if ours:
        with suppress(OSError):  # where a disk has no second names for a file, the new one does as well
            os.link(was.path, link)
            link.replace(entry.path)
