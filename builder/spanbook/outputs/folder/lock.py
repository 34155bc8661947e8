"""A lock on a file, which the system lets go of when the process ends, however it ends."""

from __future__ import annotations

import errno
import os
import sys
from pathlib import Path

# What says that somebody else has it; anything else is a failure of the disk.
_TAKEN = {errno.EACCES, errno.EAGAIN, errno.EDEADLK}


def take(descriptor: int) -> bool:
    """Take the lock on an open file, for this process and none that it forks. False if another has it."""
    try:
        if sys.platform == "win32":
            import msvcrt

            msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)
        else:
            import fcntl

            fcntl.lockf(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError as failure:
        if failure.errno in _TAKEN:
            return False
        raise
    return True


def still_at(descriptor: int, path: Path) -> bool:
    """Whether the open file is still the one at this path: who had the lock before may have removed it."""
    try:
        return os.path.samestat(os.fstat(descriptor), path.lstat())
    except FileNotFoundError:
        return False
