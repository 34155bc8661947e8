"""Files of a folder change all at once: whenever it is killed, the folder is as it was, or as it is to be.

The folder is made anew in a workshop beside it, of the same files but for those that change, and takes its
place in one step of the system, or in two that the next run mends. What somebody put there meanwhile is seen.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterable, Iterator
from pathlib import Path

from spanbook.editing import FileChange
from spanbook.ground.language import gettext as _
from spanbook.outputs.folder.durable import write_names, write_through
from spanbook.outputs.folder.exchange import exchange
from spanbook.outputs.folder.refusal import NoPlace
from spanbook.outputs.folder.workshop import OLD, PART, WHOLE, Say, held, workshop_of

_State = dict[str, tuple[int, int, int]]  # of every file, by its path: what tells it from another
PATIENCE = 10.0  # seconds to wait for another run


def edit(folder: Path, changes: Iterable[FileChange], say: Say, patience: float = PATIENCE) -> None:
    """Change files of a folder, all of them or none. Raises NoPlace where somebody else did, and OSError."""
    place = folder.resolve()
    _outside(place)
    with held(place, say, patience) as workshop:
        _mend(workshop, place)
        try:
            part, whole = workshop / PART, workshop / WHOLE
            known = _copied(place, part)
            for change in sorted(changes, key=lambda one: one.after is not None):
                _make(change, place, part)
            part.rename(whole)
            write_through(whole)
            _take_place(whole, place, workshop / OLD, known)
        finally:
            _mend(workshop, place)


def mend(folder: Path) -> None:
    """Put back a folder that a killed run had taken down, where a system cannot exchange two in one step."""
    if not folder.exists() and (workshop_of(folder) / OLD).is_dir():
        with held(folder, lambda _: None, PATIENCE) as workshop:
            _mend(workshop, folder)


def _outside(place: Path) -> None:
    if place in (Path.cwd(), *Path.cwd().parents):
        raise NoPlace(
            _("{}: it is changed as a whole, and you stand in it; go out of it with cd first").format(place)
        )


def _mend(workshop: Path, place: Path) -> None:
    old = workshop / OLD
    if old.exists() and not place.exists():
        old.rename(place)
    for left in (old, workshop / PART, workshop / WHOLE):
        if left.exists():
            shutil.rmtree(left)


def _copied(place: Path, part: Path) -> _State:
    """The same files under second names, or copies of them where the disk has no second names."""
    known: _State = {}
    part.mkdir()
    for path, entry in _entries(place, ""):
        copy = part / path
        if entry.is_symlink():
            copy.symlink_to(os.readlink(entry.path))  # noqa: PTH115 - it need not lead anywhere
        elif entry.is_dir():
            copy.mkdir()
            shutil.copystat(entry.path, copy)
        elif entry.is_file():
            known[path] = _state(entry)
            try:
                copy.hardlink_to(entry.path)
            except OSError:
                shutil.copy2(entry.path, copy)
        else:
            raise NoPlace(_("{}: it is no plain file; move it away").format(entry.path))
    shutil.copystat(place, part)
    return known


def _entries(folder: Path, below: str) -> Iterator[tuple[str, os.DirEntry[str]]]:
    with os.scandir(folder / below) as found:
        entries = sorted(found, key=lambda entry: entry.name)
    for entry in entries:
        yield f"{below}{entry.name}", entry
        if entry.is_dir(follow_symlinks=False):
            yield from _entries(folder, f"{below}{entry.name}/")


def _state(entry: os.DirEntry[str]) -> tuple[int, int, int]:
    found = entry.stat(follow_symlinks=False)
    return found.st_ino, found.st_mtime_ns, found.st_size


def _make(change: FileChange, place: Path, part: Path) -> None:
    """One change: a file goes first, so that another may have its name."""
    before = part / change.before if change.before else None
    if before and (not before.is_file() or before.read_bytes() != change.was):
        raise NoPlace(
            _("{}: somebody has changed it meanwhile; begin again").format(place / str(change.before))
        )
    if change.after is None:
        assert before is not None, "a change is of a file that is there, or is to be there"
        before.unlink()
        return
    after = part / change.after
    if change.after != change.before and os.path.lexists(after):
        raise NoPlace(_("{}: somebody has made it meanwhile; begin again").format(place / change.after))
    after.parent.mkdir(parents=True, exist_ok=True)
    made = after.with_name(f".{after.name}.spanbook")
    made.write_bytes(change.now)
    if before:
        shutil.copymode(before, made)
        before.unlink()
    made.rename(after)


def _take_place(whole: Path, place: Path, old: Path, known: _State) -> None:
    _swap(whole, place, old)
    # Here nobody can put anything into it any more.
    if {path: _state(e) for path, e in _entries(whole, "") if e.is_file(follow_symlinks=False)} != known:
        _swap(whole, place, old)
        raise NoPlace(_("{}: somebody has changed files in it meanwhile; begin again").format(place))
    write_names(place.parent, whole.parent)


def _swap(whole: Path, place: Path, old: Path) -> None:
    if exchange(whole, place):
        return
    place.rename(old)
    whole.rename(place)  # if that fails, mending puts the old one back
    old.rename(whole)
