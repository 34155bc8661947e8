"""The folder beside a site in which it is made: one process at a time, and nobody else's things are swept."""

from __future__ import annotations

import os
import stat
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from spanbook.ground.language import gettext as _
from spanbook.outputs.folder import lock
from spanbook.outputs.folder.refusal import NoPlace

Say = Callable[[str], None]
_LOCK = "lock"
# A site that is being made or removed, which nobody needs; one that is ready, or was taken down whole; and
# what stood in the place while that had to be empty for a moment.
PART, WHOLE, OLD = "part", "whole", "old"
_MARK = b"A site is made in this folder by spanbook, and goes to its place when it is whole.\n"


def workshop_of(place: Path) -> Path:
    """Where a site is made before it is published: beside its place, so that it is on the same disk."""
    return place.with_name(f".{place.name}.spanbook-build")


@contextmanager
def held(place: Path, say: Say, patience: float) -> Iterator[Path]:
    """The workshop of a place, held by this process alone; gone afterwards."""
    workshop = workshop_of(place)
    descriptor = _wait(workshop, place, say, time.monotonic() + patience)
    try:
        _own(workshop, descriptor)
        yield workshop
    finally:
        _leave(workshop, descriptor)


def _leave(workshop: Path, descriptor: int) -> None:
    """Let go of the lock, and remove the workshop if nothing is left in it."""
    file, empty = workshop / _LOCK, False
    # The file goes before the lock does: whoever waits for it sees that it is no longer the one. Windows
    # removes no open file, and there nobody can hold one that is gone.
    with suppress(OSError):
        empty = _names(workshop) == {_LOCK} and _MARK.startswith(_read(descriptor))
        if empty:
            file.unlink()
    os.close(descriptor)
    if empty:
        with suppress(OSError):
            if sys.platform == "win32":
                file.unlink()
            workshop.rmdir()


def _wait(workshop: Path, place: Path, say: Say, until: float) -> int:
    waiting = False
    while True:
        if (descriptor := _try(workshop)) is not None:
            return descriptor
        if time.monotonic() > until:
            raise NoPlace(
                _("{}: another build into it is still running; build again when it has ended").format(place)
            )
        if not waiting:
            say(_("Another build into {} is running; waiting for it to end").format(place))
            waiting = True
        time.sleep(0.05)


def _try(workshop: Path) -> int | None:
    """The open file whose lock was taken; None where another process has it, or just let go of it."""
    with suppress(FileExistsError):
        workshop.mkdir()
    try:
        _look_at(workshop)
        flags = os.O_RDWR | os.O_CREAT | getattr(os, "O_NOFOLLOW", 0)
        descriptor = os.open(workshop / _LOCK, flags, 0o666)
    except FileNotFoundError:
        return None
    try:
        if lock.take(descriptor) and lock.still_at(descriptor, workshop / _LOCK):
            return descriptor
    except BaseException:
        os.close(descriptor)
        raise
    os.close(descriptor)
    return None


def _look_at(workshop: Path) -> None:
    """Raise NoPlace if it is no workshop; nothing is put into it then."""
    if not stat.S_ISDIR(workshop.lstat().st_mode):
        raise _in_the_way(workshop)
    found = _names(workshop)
    if found and (_LOCK not in found or not found <= {_LOCK, PART, WHOLE, OLD}):
        raise _in_the_way(workshop)


def _own(workshop: Path, descriptor: int) -> None:
    """Make sure that a workshop is ours: a folder that somebody else filled is not swept."""
    found = _read(descriptor)
    if found == _MARK:
        return
    if not _MARK.startswith(found) or _names(workshop) != {_LOCK}:
        raise _in_the_way(workshop)
    os.lseek(descriptor, 0, os.SEEK_SET)
    os.write(descriptor, _MARK)


def _read(descriptor: int) -> bytes:
    """Of the open file itself: closing it a second time would let go of the lock."""
    os.lseek(descriptor, 0, os.SEEK_SET)
    return os.read(descriptor, len(_MARK) + 1)


def _names(folder: Path) -> set[str]:
    return {file.name for file in folder.iterdir()}


def _in_the_way(workshop: Path) -> NoPlace:
    return NoPlace(
        _("{}: sites are made there, and what is in it did not come from a build; move it away").format(
            workshop
        )
    )
