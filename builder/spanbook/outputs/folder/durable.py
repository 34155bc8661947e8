"""What was written outlives a power failure."""

from __future__ import annotations

import ctypes
import errno
import os
import sys
from pathlib import Path


def write_through(folder: Path) -> None:
    """Wait until the disk has all of a folder: a site that takes its place outlives a power failure."""
    if sys.platform == "linux":
        descriptor = os.open(folder, os.O_RDONLY)
        try:
            if ctypes.CDLL(None, use_errno=True).syncfs(descriptor) != 0:
                failed = ctypes.get_errno()
                raise OSError(failed, os.strerror(failed), str(folder))
        finally:
            os.close(descriptor)
        return
    for at, _, files in os.walk(folder):
        for name in files:
            with Path(at, name).open("rb+") as file:
                os.fsync(file.fileno())


def write_names(*folders: Path) -> None:
    for folder in folders if hasattr(os, "O_DIRECTORY") else ():
        descriptor = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(descriptor)
        except OSError as failure:
            if failure.errno != errno.EINVAL:  # this disk has no such thing
                raise
        finally:
            os.close(descriptor)
