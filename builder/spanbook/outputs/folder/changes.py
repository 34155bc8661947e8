"""One look through a new site: what of it is other than in the old one, and all that is to be known of it.

What is the same stays the very file that it was. Every byte is compared, so nothing has to be believed. A
file that stays keeps its day too, by which whoever copies a site on knows it.
"""

from __future__ import annotations

import os
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

from spanbook.ground.changes import Changes
from spanbook.ground.hosts import Size
from spanbook.outputs.folder import mark
from spanbook.outputs.folder.state import Found, State, entries_of, folders, found

_LINK = ".spanbook-same"  # the name of a file for a moment
_PAGE = ".html"


@dataclass(frozen=True, slots=True)
class Settled:
    """A new site as it goes to its place: how many pages it has, and how large it is with its mark.

    `holds` is what its mark lists, `state` tells it from any other.
    """

    changes: Changes
    pages: int
    size: Size
    holds: tuple[str, ...]
    state: str


@dataclass(slots=True)
class _Look:
    """What was seen so far."""

    fresh: Path
    one_disk: bool  # with the old site: there a number is one file's
    new: list[str] = field(default_factory=list)
    changed: list[str] = field(default_factory=list)
    gone: list[str] = field(default_factory=list)
    holds: list[str] = field(default_factory=list)
    sizes: list[int] = field(default_factory=list)
    pages: int = 0
    folders: int = -1
    state: State = field(default_factory=State)

    def folder(self, below: str, entries: list[os.DirEntry[str]], was: dict[str, os.DirEntry[str]]) -> None:
        """A folder of the new site, and what was in it before."""
        self.folders += 1
        held = [found(below, entry) for entry in entries]
        for number, entry in enumerate(entries):
            path, is_folder, one = held[number]
            if not mark.is_litter(entry):
                self.holds.append(mark.plain(path))
            if not is_folder:
                self.pages += path.endswith(_PAGE)
                self.sizes.append(one.st_size)
                held[number] = self._file(held[number], entry, was.pop(entry.name, None))
        self.state.add(held)

    def _file(self, now: Found, entry: os.DirEntry[str], was: os.DirEntry[str] | None) -> Found:
        """A file as it stays; the old one where both are the same."""
        path, _, one = now
        if was is None or not was.is_file(follow_symlinks=False):
            self.new.append(path)
            if was is not None:
                self._went(path, was)
        elif self.one_disk and was.inode() == entry.inode():
            pass  # it was carried on when it was written
        elif not _same(entry, one, was):
            self.changed.append(path)
        elif _kept(was, entry, one, self.fresh / _LINK):
            return path, False, was.stat()
        return now

    def left(self, below: str, was: dict[str, os.DirEntry[str]], now: set[str]) -> None:
        """What was in a folder before and is not any more, where these folders are in it `now`."""
        for name, entry in was.items():
            if name not in now or not entry.is_dir(follow_symlinks=False):
                self._went(f"{below}{name}", entry)

    def _went(self, path: str, was: os.DirEntry[str]) -> None:
        if was.is_dir(follow_symlinks=False):
            for name, entry in _entries(was.path).items():
                self._went(f"{path}/{name}", entry)
        elif was.is_file(follow_symlinks=False):
            self.gone.append(path)


def settle(fresh: Path, old: Path) -> Settled:
    """Look through a new site, and let it have the file of the one whose place it takes where both are the
    same; then it gets its mark. Raises OSError."""
    there = not old.is_symlink() and old.is_dir()
    look = _Look(fresh, there and fresh.stat().st_dev == old.stat().st_dev)
    for below, entries in folders(str(fresh)):
        was = _entries(f"{old}/{below}") if there else {}
        if not below:
            was.pop(mark.NAME, None)
        look.folder(below, entries, was)
        look.left(below, was, {entry.name for entry in entries if entry.is_dir(follow_symlinks=False)})
    marked = mark.put(fresh, look.holds)
    sizes = [*look.sizes, marked]
    return Settled(
        Changes(tuple(sorted(look.new)), tuple(sorted(look.changed)), tuple(sorted(look.gone))),
        look.pages,
        Size(len(sizes), look.folders, sum(sizes), max(sizes)),
        tuple(look.holds),
        look.state.told(),
    )


def _entries(folder: str) -> dict[str, os.DirEntry[str]]:
    """What is in a folder by name; nothing where there is none."""
    try:
        return {entry.name: entry for entry in entries_of(folder)}
    except (FileNotFoundError, NotADirectoryError):
        return {}


def _same(entry: os.DirEntry[str], one: os.stat_result, was: os.DirEntry[str]) -> bool:
    return one.st_size == was.stat().st_size and _bytes(entry) == _bytes(was)


def _bytes(entry: os.DirEntry[str]) -> bytes:
    return Path(entry.path).read_bytes()


def _kept(was: os.DirEntry[str], entry: os.DirEntry[str], now: os.stat_result, link: Path) -> bool:
    """A file that somebody has under another name as well, or given other rights, is not carried on."""
    before = was.stat()
    if (before.st_nlink, before.st_mode, before.st_uid) != (1, now.st_mode, now.st_uid):
        return False
    with suppress(OSError):  # where a disk has no second names for a file, the new one does as well
        os.link(was.path, link)
        link.replace(entry.path)
        return True
    return False
