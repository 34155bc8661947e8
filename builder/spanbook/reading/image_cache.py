"""Photographs made anew once: what a picture becomes is kept, and found again by what its bytes are.

Kept in the user's own cache folder, which may be emptied at any time; never in the project, where a
stranger's proposal could bring a cache of its own. An entry, named by a digest of the picture's bytes and of
the recipe, says that the picture is sound and lists the versions made of it; each version is a file named
by the digest of its own bytes. Nothing is taken that is not what its name says: what is damaged, cut off,
gone or somebody else's is made again.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from threading import Condition
from typing import TypeVar

import PIL

from spanbook.ground.images import MOST_PIXELS, RECIPE, Version, anew, check, pixels, versions
from spanbook.reading import kept_files

MOST_KEPT = 2_000_000_000  # bytes, some four thousand photographs
_RECIPE = f"{RECIPE} Pillow {PIL.__version__}\n".encode()

T = TypeVar("T")
R = TypeVar("R")


@dataclass(frozen=True, slots=True, order=True)
class Print:
    """One width of a picture, as a file."""

    width: int
    height: int
    file: Path


def folder() -> Path:
    return kept_files.folder("pictures")


def prints(data: bytes) -> tuple[Print, ...]:
    """Every width of a picture, the narrowest first. Raises Refused as `images.check`, and OSError."""
    return _made(data, _entry_of(data), versions)


def own_form(data: bytes) -> Path:
    """The picture made anew in the form that it came in, to be read, not named. Raises as `prints`."""
    (made,) = _made(data, _entry_of(data, b"own form"), anew)
    return made.file


def _made(data: bytes, entry: Path, make: Callable[[bytes], Iterator[Version]]) -> tuple[Print, ...]:
    found = _kept(entry)
    if found and all(_is_whole(made.file) for made in found):
        return found
    with _ROOM.taken(pixels(data)):
        made = tuple(Print(v.width, v.height, _keep_version(v.data)) for v in make(data))
    _keep(entry, made)
    return made


def inspect(data: bytes) -> None:
    """As `images.check`, but a picture that was found sound before is not looked at again."""
    entry = _entry_of(data)
    if _kept(entry) is None:
        with _ROOM.taken(pixels(data)):
            check(data)
        with suppress(OSError):  # where nothing can be kept the next time is slower, and nothing else
            _keep(entry, ())


def each(work: Callable[[T], R], things: Iterable[T]) -> Iterator[R]:
    """What `work` gives for each thing in order, several at once, for Pillow lets go of the interpreter."""
    with ThreadPoolExecutor(os.cpu_count()) as pool:
        yield from pool.map(work, things)


class _Room:
    """Lets in as many pictures at once as there is room for their pixels, and the largest alone."""

    def __init__(self, room: int) -> None:
        self._room = self._free = room
        self._changed = Condition()

    @contextmanager
    def taken(self, asked: int) -> Iterator[None]:
        asked = min(asked, self._room)
        with self._changed:
            self._changed.wait_for(lambda: self._free >= asked)
            self._free -= asked
        try:
            yield
        finally:
            with self._changed:
                self._free += asked
                self._changed.notify_all()


_ROOM = _Room(MOST_PIXELS)


def _entry_of(data: bytes, more: bytes = b"") -> Path:
    return folder() / sha256(more + _RECIPE + data).hexdigest()


def _kept(entry: Path) -> tuple[Print, ...] | None:
    """What an entry says was made, nothing for a picture only looked at; None without a sound entry."""
    try:
        *lines, seal = kept_files.read(entry).decode("ascii").splitlines()
        if seal != _seal(entry, lines):
            return None
    except (OSError, ValueError):
        return None
    fields = (line.split() for line in lines)
    return tuple(Print(int(width), int(height), entry.with_name(name)) for width, height, name in fields)


def _seal(entry: Path, lines: Iterable[str]) -> str:
    return sha256("\n".join([entry.name, *lines]).encode()).hexdigest()


def _is_whole(file: Path) -> bool:
    try:
        return f"{sha256(kept_files.read(file)).hexdigest()}.webp" == file.name
    except OSError:
        return False


def _keep_version(data: bytes) -> Path:
    file = folder() / f"{sha256(data).hexdigest()}.webp"
    kept_files.put(file, data)
    return file


def _keep(entry: Path, made: Iterable[Print]) -> None:
    lines = [f"{p.width} {p.height} {p.file.name}" for p in made]
    kept_files.put(entry, "\n".join([*lines, _seal(entry, lines)]).encode())


def trim() -> None:
    """Let go of what was not used for a month, and of what was used longest ago beyond 2 GB."""
    kept_files.trim(folder(), MOST_KEPT)
