"""The mark in a folder that a build made: what has none, and is not empty, is never touched.

It lists every file and folder of the site, so that somebody else's file among them is told from ours. Its
name begins with a dot, because MkDocs leaves such files alone when it empties a folder.
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterable, Iterator
from pathlib import Path
from unicodedata import normalize

NAME = ".spanbook-site"
_ABOUT = "Made by spanbook: the next build replaces all that is listed here, and stops at anything else."
_LARGEST = 100_000_000  # bytes, a million pages
# What file managers leave wherever they look.
_LITTER = {".DS_Store", "Thumbs.db", "desktop.ini"}


def put(folder: Path, holds: Iterable[str] | None = None) -> int:
    """Mark a folder as ours with all that is in it now, or what of it is known to be; how large the mark is.

    The same folder gets the same mark.
    """
    # json indents in Python, by the value: here a hundred thousand paths are in one list.
    listed = json.dumps(sorted(_all(folder, "") if holds is None else holds), separators=(",\n  ", ": "))
    between = f"\n  {listed[1:-1]}\n " if len(listed) > 2 else ""
    made = f'{{\n "about": {json.dumps(_ABOUT)},\n "holds": [{between}]\n}}\n'.encode()
    return (folder / NAME).write_bytes(made)


def is_on(folder: Path) -> bool:
    return _held(folder) is not None


def strangers(folder: Path) -> tuple[str, ...]:
    """What no build put into a marked folder, by path: what its mark does not list, links, and git's.

    A build makes no link and copies nothing of git, so neither is ours wherever it stands.
    """
    return tuple(sorted(_not_ours(folder, "", _held(folder) or frozenset())))


def _not_ours(folder: Path, below: str, held: frozenset[str]) -> Iterator[str]:
    """A folder that is not listed is told and not entered: no deeper than a build goes."""
    for entry in _entries(folder, below):
        path = f"{below}{plain(entry.name)}"
        if path not in held or entry.name == ".git" or entry.is_symlink():
            yield f"{below}{entry.name}"
        elif entry.is_dir(follow_symlinks=False):
            yield from _not_ours(Path(entry.path), f"{path}/", held)


def _all(folder: Path, below: str) -> Iterator[str]:
    for entry in _entries(folder, below):
        path = f"{below}{plain(entry.name)}"
        yield path
        if entry.is_dir(follow_symlinks=False):
            yield from _all(Path(entry.path), f"{path}/")


def _entries(folder: Path, below: str) -> Iterator[os.DirEntry[str]]:
    """What lies in a folder, but for the mark and what file managers leave."""
    with os.scandir(folder) as entries:
        for entry in entries:
            if not is_litter(entry) and f"{below}{entry.name}" != NAME:
                yield entry


def is_litter(entry: os.DirEntry[str]) -> bool:
    return entry.name in _LITTER and entry.is_file(follow_symlinks=False)


def _held(folder: Path) -> frozenset[str] | None:
    """The paths that the mark lists; None where there is no mark of ours."""
    file = folder / NAME
    if file.is_symlink() or not file.is_file() or file.stat().st_size > _LARGEST:
        return None
    try:
        made = json.loads(file.read_text(encoding="utf-8"))
    except ValueError:
        return None
    if not isinstance(made, dict) or made.get("about") != _ABOUT or not isinstance(made.get("holds"), list):
        return None
    return frozenset(str(name) for name in made["holds"])


def plain(name: str) -> str:
    """Some disks give a name back with its accents apart."""
    return name if name.isascii() else normalize("NFC", name)
