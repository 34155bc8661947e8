"""What tells a site from any other in its place: each file and folder in it as it is, without opening any."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from hashlib import sha256
from operator import attrgetter
from pathlib import Path

from spanbook.outputs.folder import mark

Entries = list[os.DirEntry[str]]
Found = tuple[str, bool, os.stat_result]  # by its path, and whether it is a folder


class State:
    """Made of all folders of a site, in the order of `folders`. Of the mark, which is written last, only what
    stands beside all the rest."""

    def __init__(self) -> None:
        self._digest = sha256()

    def add(self, held: Iterable[Found]) -> None:
        """What a folder holds, in the order of the names."""
        lines = "".join(
            f"{path}\0{one.st_mode}\n"
            if is_folder
            else f"{path}\0{one.st_mode} {one.st_ino} {one.st_size} {one.st_mtime_ns}\n"
            for path, is_folder, one in held
        )
        self._digest.update(lines.encode("utf-8", "surrogateescape"))

    def told(self) -> str:
        return self._digest.hexdigest()


def folders(top: str, below: str = "") -> Iterator[tuple[str, Entries]]:
    """Each folder by its path with a slash at its end, and what is in it but for the mark, by name."""
    entries = entries_of(f"{top}/{below}")
    if not below:
        entries = [entry for entry in entries if entry.name != mark.NAME]
    yield below, entries
    for entry in entries:
        if entry.is_dir(follow_symlinks=False):
            yield from folders(top, f"{below}{entry.name}/")


def entries_of(folder: str) -> Entries:
    with os.scandir(folder) as entries:
        return sorted(entries, key=attrgetter("name"))


def found(below: str, entry: os.DirEntry[str]) -> Found:
    return f"{below}{entry.name}", entry.is_dir(follow_symlinks=False), entry.stat(follow_symlinks=False)


def state_of(place: Path) -> str:
    state = State()
    for below, entries in folders(str(place)):
        state.add(found(below, entry) for entry in entries)
    return state.told()


def with_mark(place: Path, state: str) -> str:
    """That of a whole site, by the state of all that its mark lists."""
    one = (place / mark.NAME).lstat()
    return f"{state} {one.st_mode} {one.st_ino} {one.st_size} {one.st_mtime_ns}"
