"""Files kept from one run to the next, in the user's own cache folder, which may be emptied at any time.

Several runs may write and trim there at once. Whatever is read from there is held to a digest by its reader.
"""

from __future__ import annotations

import os
import shutil
import stat
import time
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from tempfile import NamedTemporaryFile

from platformdirs import user_cache_path

_LONGEST = 30 * 24 * 3600  # seconds without being used
_IN_USE = 3600  # what was used so lately another run may be about to read


def folder(name: str) -> Path:
    """A folder of our own in the user's cache; it may not be there yet."""
    return user_cache_path("spanbook") / name


def read(file: Path) -> bytes:
    """The bytes of a file, which from now on is in use. Raises OSError, for what is no plain file too."""
    found = file.stat()
    if not stat.S_ISREG(found.st_mode):
        raise OSError(f"{file} is no plain file")
    if time.time() - found.st_mtime > _IN_USE / 2:
        os.utime(file)
    return file.read_bytes()


def ours_alone(found: os.stat_result) -> bool:
    """Whether nobody else may write to the file; where there are no such rights, its folder is trusted."""
    if not hasattr(os, "getuid"):
        return True
    return found.st_uid == os.getuid() and not found.st_mode & (stat.S_IWGRP | stat.S_IWOTH)


def put(file: Path, *pieces: bytes | memoryview) -> None:
    """Whole or not at all, whoever else is writing the same. Raises OSError."""
    file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    with NamedTemporaryFile(dir=file.parent, prefix=".", delete=False) as new:
        try:
            for piece in pieces:
                new.write(piece)
            new.close()
            if file.is_dir() and not file.is_symlink():
                shutil.rmtree(file)  # in these folders such a name is ours
            Path(new.name).replace(file)
        except BaseException:
            Path(new.name).unlink(missing_ok=True)
            raise


def trim(kept: Path, most: int) -> None:
    """Let go of what was not used for a month, and beyond so many bytes of what was used longest ago."""
    now, total, longest = time.time(), 0, 0.0
    for used, size, _ in _files(kept):  # mostly there is room for all of them, and they are many
        total, longest = total + size, max(longest, now - used)
    if total <= most and longest <= _LONGEST:
        return
    total = 0
    for used, size, file in sorted(_files(kept), reverse=True):
        total += size
        unused = now - used
        if unused > _LONGEST or (total > most and unused > _IN_USE):
            with suppress(OSError):
                Path(file).unlink()


def _files(kept: Path) -> Iterator[tuple[float, int, str]]:
    """When each was used last, how large it is, and where."""
    with suppress(OSError), os.scandir(kept) as entries:
        for entry in entries:
            with suppress(OSError):  # another run may have let it go
                if entry.is_file():
                    found = entry.stat()
                    yield found.st_mtime, found.st_size, entry.path
