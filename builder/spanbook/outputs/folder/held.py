"""What a folder holds: every file with its size and a digest."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from pathlib import Path

from spanbook.ground.digests import digest
from spanbook.outputs.folder.written import Written


def held(folder: Path, known: Mapping[str, Written]) -> Iterator[Written]:
    """Every file; of those that are known nothing is read."""
    for path, entry in _files(str(folder), ""):
        if path in known:
            yield known[path]
        else:
            data = Path(entry.path).read_bytes()
            yield Written(path, len(data), digest(data))


def _files(folder: str, below: str) -> Iterator[tuple[str, os.DirEntry[str]]]:
    with os.scandir(folder) as entries:
        for entry in entries:
            path = f"{below}{entry.name}"
            if entry.is_dir(follow_symlinks=False):
                yield from _files(entry.path, f"{path}/")
            else:
                yield path, entry
