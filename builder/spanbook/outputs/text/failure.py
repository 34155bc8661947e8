"""What the system refused, as a sentence: where, what and what to do."""

from __future__ import annotations

import errno
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.punctuation import labelled
from spanbook.reading.problems import one_line
from spanbook.wording.grammar import span_of

_WORDS = {
    errno.ENOENT: marked("it is not there, or no longer"),
    errno.ENOTDIR: marked("a file stands where a folder is expected"),
    errno.EISDIR: marked("a folder stands where a file is expected"),
    errno.EEXIST: marked("it is there already"),
    errno.EACCES: marked("you have no right to read it, or to write there; look at whose it is"),
    errno.EPERM: marked("you have no right to do that; look at whose it is"),
    errno.EROFS: marked("the disk can only be read; name a place on another"),
    errno.ENOSPC: marked("the disk is full; make room and run it again"),
    errno.EDQUOT: marked("your share of the disk is full; make room and run it again"),
    errno.EFBIG: marked("the file would grow larger than is allowed"),
    errno.EIO: marked("the disk failed; look at it before anything else"),
    errno.ENAMETOOLONG: marked("the name is too long for the disk"),
    errno.ELOOP: marked("its links lead in a circle"),
    errno.EBUSY: marked("something else is using it"),
    errno.ENOTEMPTY: marked("it is not empty"),
    errno.EMFILE: marked("too many files are open at once; close other programs"),
    errno.EADDRINUSE: marked("something else is listening there; name another port"),
}


def sentence(failure: OSError) -> str:
    """A failure of the system, with the path if it has one. One that we worded ourselves stays as it is."""
    if failure.errno is None:
        return one_line(str(failure))
    worded = _WORDS.get(failure.errno)
    said = _(worded) if worded else failure.strerror or os.strerror(failure.errno)
    paths = [_shown(path) for path in (failure.filename, failure.filename2) if path is not None]
    return labelled(span_of(paths), said) if paths else said


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
