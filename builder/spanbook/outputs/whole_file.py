"""A file is written whole or not at all, and every failure says which file it was."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import NamedTemporaryFile
from typing import IO

from spanbook.ground.language import gettext as _
from spanbook.outputs.text.failure import about

Write = Callable[[IO[bytes]], object]


def create(file: Path, text: str) -> None:
    """Write a new file, making its folder. Raises FileExistsError when it is there already, and OSError."""
    file.parent.mkdir(parents=True, exist_ok=True)
    if os.path.lexists(file):
        raise FileExistsError(_("{} is there already").format(file))
    with _beside(file, _text(text)) as whole:
        try:
            os.link(whole, file)  # unlike a renaming it never takes the place of another file
        except FileExistsError:
            raise
        except OSError:  # this disk has no second names for a file
            whole.rename(file)


def replace(file: Path, text: str) -> None:
    """Write a file in the place of the one that may be there. Raises OSError."""
    replace_by(file, _text(text))


def replace_by(file: Path, write: Write) -> None:
    """The same with whatever is written into it. Raises OSError."""
    if os.path.lexists(file) and not (file.is_file() and not file.is_symlink()):
        with about(file), file.open("wb") as out:  # a pipe or a terminal: nothing can take its place
            write(out)
        return
    with _beside(file, write) as whole:
        whole.replace(file)


def _text(text: str) -> Write:
    return lambda out: out.write(text.encode())


@contextmanager
def _beside(file: Path, write: Write) -> Iterator[Path]:
    """A file on the same disk with what is written, gone afterwards unless it was moved."""
    with about(file), NamedTemporaryFile(dir=file.parent, prefix=".", delete=False) as out:
        whole = Path(out.name)
        try:
            write(out)
            out.flush()
            os.fsync(out.fileno())
        except BaseException:
            whole.unlink()
            raise
    try:
        whole.chmod(0o666 & ~_umask())
        yield whole
    finally:
        whole.unlink(missing_ok=True)


def _umask() -> int:
    found = os.umask(0)
    os.umask(found)
    return found
