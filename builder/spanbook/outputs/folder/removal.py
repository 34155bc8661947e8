"""A folder goes with all that is in it, and nothing that is elsewhere does: no link is followed."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

_FOLDER = os.O_RDONLY | getattr(os, "O_DIRECTORY", 0) | getattr(os, "O_NOFOLLOW", 0)
# Where a system knows folders that are open, nobody can put a link into the way meanwhile.
_BY_DESCRIPTOR = {os.open, os.unlink, os.rmdir} <= os.supports_dir_fd and os.scandir in os.supports_fd


def remove(folder: Path) -> None:
    """Raises OSError. A large site has a hundred thousand files: of none is asked more than what it is."""
    if not _BY_DESCRIPTOR:
        shutil.rmtree(folder)
        return
    _empty(os.open(folder, _FOLDER), str(folder))
    folder.rmdir()


def _empty(within: int, folder: str) -> None:
    """Remove what is in an open folder, which is closed then."""
    try:
        with os.scandir(within) as entries:
            found = [(entry.name, entry.is_dir(follow_symlinks=False)) for entry in entries]
        for name, is_folder in found:
            if is_folder:
                _empty(os.open(name, _FOLDER, dir_fd=within), f"{folder}/{name}")
                os.rmdir(name, dir_fd=within)
            else:
                os.unlink(name, dir_fd=within)
    except OSError as failure:
        # What is at fault goes by its name in the folder that is open; deeper down that was put right.
        if isinstance(failure.filename, str) and not Path(failure.filename).is_absolute():
            failure.filename = f"{folder}/{failure.filename}"
        raise
    finally:
        os.close(within)
