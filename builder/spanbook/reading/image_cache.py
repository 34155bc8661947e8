"""Photographs made anew once: what a picture becomes is kept, and found again by what its bytes are.

Kept in the user's own cache folder, which may be emptied at any time; never in the project, where a
stranger's proposal could bring a cache of its own. An entry, named by a digest of the picture's bytes and of
the recipe, says that the picture is sound and lists the versions made of it; each version is a file named
by the digest of its own bytes. Nothing is taken that is not what its name says: what is damaged, cut off,
gone or somebody else's is made again.
"""

from __future__ import annotations

import os
import shutil
import time
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from tempfile import NamedTemporaryFile
from threading import Condition
from typing import TypeVar

import PIL
from platformdirs import user_cache_path

from spanbook.ground.images import MOST_PIXELS, RECIPE, check, pixels, versions

MOST_KEPT = 2_000_000_000  # bytes, some four thousand photographs
_LONGEST = 30 * 24 * 3600  # seconds without being used
_IN_USE = 3600  # what was used so lately another build may be about to copy
_RECIPE = f"{RECIPE} Pillow {PIL.__version__}\n".encode()

T = TypeVar("T")
R = TypeVar("R")


@dataclass(frozen=True, slots=True, order=True)
class Print:
    """One width of a picture, as a WebP file."""

    width: int
    height: int
    file: Path


def folder() -> Path:
    return user_cache_path("spanbook") / "pictures"


def prints(data: bytes) -> tuple[Print, ...]:
    """Every width of a picture, the narrowest first. Raises Refused as `images.check`, and OSError."""
    entry = _entry_of(data)
    found = _kept(entry)
    if found and all(_is_whole(made.file) for made in found):
        return found
    with _ROOM.taken(pixels(data)):
        made = tuple(Print(v.width, v.height, _keep_version(v.data)) for v in versions(data))
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


def _entry_of(data: bytes) -> Path:
    return folder() / sha256(_RECIPE + data).hexdigest()


def _kept(entry: Path) -> tuple[Print, ...] | None:
    """What an entry says was made, nothing for a picture only looked at; None without a sound entry."""
    try:
        *lines, seal = entry.read_text(encoding="ascii").splitlines()
        if seal != _seal(entry, lines):
            return None
        _use(entry)
    except (OSError, ValueError):
        return None
    fields = (line.split() for line in lines)
    return tuple(Print(int(width), int(height), entry.with_name(name)) for width, height, name in fields)


def _seal(entry: Path, lines: Iterable[str]) -> str:
    return sha256("\n".join([entry.name, *lines]).encode()).hexdigest()


def _is_whole(file: Path) -> bool:
    try:
        _use(file)
        return f"{sha256(file.read_bytes()).hexdigest()}.webp" == file.name
    except OSError:
        return False


def _use(file: Path) -> None:
    """From now on it is in use, and not trimmed."""
    if time.time() - file.stat().st_mtime > _IN_USE / 2:
        os.utime(file)


def _keep_version(data: bytes) -> Path:
    file = folder() / f"{sha256(data).hexdigest()}.webp"
    _put(file, data)
    return file


def _keep(entry: Path, made: Iterable[Print]) -> None:
    lines = [f"{p.width} {p.height} {p.file.name}" for p in made]
    _put(entry, "\n".join([*lines, _seal(entry, lines)]).encode())


def _put(file: Path, data: bytes) -> None:
    """Whole or not at all, whoever else is writing the same."""
    file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    with NamedTemporaryFile(dir=file.parent, prefix=".", delete=False) as new:
        try:
            new.write(data)
            new.close()
            if file.is_dir() and not file.is_symlink():
                shutil.rmtree(file)  # in this folder such a name is ours
            Path(new.name).replace(file)
        except BaseException:
            Path(new.name).unlink(missing_ok=True)
            raise


def trim() -> None:
    """Let go of what was not used for a month, and beyond 2 GB of what was used longest ago."""
    now, total = time.time(), 0
    for file, found in sorted(_files(), key=lambda pair: -pair[1].st_mtime):
        total += found.st_size
        unused = now - found.st_mtime
        if unused > _LONGEST or (total > MOST_KEPT and unused > _IN_USE):
            with suppress(OSError):
                file.unlink()


def _files() -> Iterator[tuple[Path, os.stat_result]]:
    with suppress(OSError):
        for file in folder().iterdir():
            with suppress(OSError):  # another run may have let it go
                if file.is_file():
                    yield file, file.stat()
