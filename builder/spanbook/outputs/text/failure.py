"""What the system refused, as a sentence: where, what and what to do."""

from __future__ import annotations

import errno
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from spanbook.reading.problems import one_line

_WORDS = {
    errno.ENOENT: "it is not there, or no longer",
    errno.ENOTDIR: "a file stands where a folder is expected",
    errno.EISDIR: "a folder stands where a file is expected",
    errno.EEXIST: "it is there already",
    errno.EACCES: "you have no right to read it, or to write there; look at whose it is",
    errno.EPERM: "you have no right to do that; look at whose it is",
    errno.EROFS: "the disk can only be read; name a place on another",
    errno.ENOSPC: "the disk is full; make room and run it again",
    errno.EDQUOT: "your share of the disk is full; make room and run it again",
    errno.EFBIG: "the file would grow larger than is allowed",
    errno.EIO: "the disk failed; look at it before anything else",
    errno.ENAMETOOLONG: "the name is too long for the disk",
    errno.ELOOP: "its links lead in a circle",
    errno.EBUSY: "something else is using it",
    errno.ENOTEMPTY: "it is not empty",
    errno.EMFILE: "too many files are open at once; close other programs",
    errno.EADDRINUSE: "something else is listening there; name another port",
}


def sentence(failure: OSError) -> str:
    """A failure of the system, with the path if it has one. One that we worded ourselves stays as it is."""
    if failure.errno is None:
        return one_line(str(failure))
    said = _WORDS.get(failure.errno) or failure.strerror or os.strerror(failure.errno)
    paths = [_shown(path) for path in (failure.filename, failure.filename2) if path is not None]
    return ": ".join([" to ".join(paths), said]) if paths else said


@contextmanager
def about(path: Path | str) -> Iterator[None]:
    """Say which file it was: writing to an open one fails without its name."""
    try:
        yield
    except OSError as failure:
        if failure.errno is not None and failure.filename is None:
            failure.filename = str(path)
        raise


def _shown(path: object) -> str:
    return one_line(os.fsdecode(path) if isinstance(path, str | bytes | os.PathLike) else str(path))
