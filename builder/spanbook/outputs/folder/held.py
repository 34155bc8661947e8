"""What a folder holds: every file with its size and a digest, and how much it is together."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from pathlib import Path

from spanbook.ground.digests import digest
from spanbook.ground.hosts import Size
from spanbook.outputs.folder.written import Written

_PAGE = ".html"


def held(folder: Path, known: Mapping[str, Written]) -> Iterator[Written]:
    """Every file; of those that are known nothing is read."""
    for path, entry in _files(str(folder), ""):
        if path in known:
            yield known[path]
        else:
            data = Path(entry.path).read_bytes()
            yield Written(path, len(data), digest(data))


def size_of(folder: Path) -> tuple[int, Size]:
    """How many pages there are below a folder, and how much it is. Nothing in it is opened."""
    pages, folders, sizes, left = 0, -1, [], [str(folder)]
    while left:
        folders += 1
        with os.scandir(left.pop()) as entries:
            for entry in entries:
                if entry.is_dir(follow_symlinks=False):
                    left.append(entry.path)
                else:
                    pages += entry.name.endswith(_PAGE)
                    sizes.append(entry.stat().st_size)
    return pages, Size(len(sizes), folders, sum(sizes), max(sizes, default=0))


def _files(folder: str, below: str) -> Iterator[tuple[str, os.DirEntry[str]]]:
    with os.scandir(folder) as entries:
        for entry in entries:
            path = f"{below}{entry.name}"
            if entry.is_dir(follow_symlinks=False):
                yield from _files(entry.path, f"{path}/")
            else:
                yield path, entry
