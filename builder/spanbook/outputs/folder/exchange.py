"""Two folders change places in one step, where the system can do that."""

from __future__ import annotations

import ctypes
import errno
import os
import sys
from pathlib import Path

_AT_FDCWD = -100
_RENAME_EXCHANGE = 2  # renameat2(2)
# The kernel, or this file system, has no such call.
_CANNOT = {errno.ENOSYS, errno.EINVAL, errno.EOPNOTSUPP, errno.EPERM}


def exchange(one: Path, other: Path) -> bool:
    """Swap two folders of one disk. False, and nothing was done, where that takes more than one step."""
    if sys.platform != "linux":
        return False
    call = getattr(ctypes.CDLL(None, use_errno=True), "renameat2", None)
    if call is None:
        return False
    if call(_AT_FDCWD, os.fsencode(one), _AT_FDCWD, os.fsencode(other), _RENAME_EXCHANGE) == 0:
        return True
    failed = ctypes.get_errno()
    if failed in _CANNOT:
        return False
    raise OSError(failed, os.strerror(failed), str(one), None, str(other))
