"""A whole site as one file, for a job that publishes it elsewhere: one file is sent sooner than thousands."""

from __future__ import annotations

import tarfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import IO
from zipfile import ZIP_DEFLATED, ZipFile

from spanbook.outputs import whole_file
from spanbook.outputs.folder import mark


def lay(site: Path, file: Path) -> None:
    """Write every file of a site but its mark into an archive, whole or not at all, by a name whose ending
    says of which sort. Raises OSError."""
    sort = ending(file)
    assert sort, "the name says it"
    whole_file.replace_by(file, lambda out: _WAYS[sort](site, out))


def ending(file: Path) -> str | None:
    """The ending of a name that says which sort of archive is meant; None where none does."""
    return next((one for one in _WAYS if file.name.lower().endswith(one)), None)


def _zip(site: Path, out: IO[bytes]) -> None:
    with ZipFile(out, "w", ZIP_DEFLATED, strict_timestamps=False) as made:
        for path in _files(site):
            made.write(path, path.relative_to(site).as_posix())


def _tar(site: Path, out: IO[bytes]) -> None:
    with tarfile.open(fileobj=out, mode="w") as made:
        _fill(made, site)


def _tar_gz(site: Path, out: IO[bytes]) -> None:
    with tarfile.open(fileobj=out, mode="w:gz") as made:
        _fill(made, site)


def _fill(made: tarfile.TarFile, site: Path) -> None:
    for path in _files(site):
        made.add(path, path.relative_to(site).as_posix(), recursive=False, filter=_of_nobody)


def _of_nobody(entry: tarfile.TarInfo) -> tarfile.TarInfo:
    """Whoever built a site is not told to those who get it."""
    entry.uid = entry.gid = 0
    entry.uname = entry.gname = ""
    return entry


def _files(site: Path) -> Iterator[Path]:
    return (path for path in sorted(site.rglob("*")) if path.is_file() and path != site / mark.NAME)


_WAYS: dict[str, Callable[[Path, IO[bytes]], None]] = {
    ".zip": _zip,
    ".tar": _tar,
    ".tar.gz": _tar_gz,
    ".tgz": _tar_gz,
}
