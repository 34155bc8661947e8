"""What a folder holds: every file with its size and a digest, and how much it is together."""

from __future__ import annotations

import os
from collections.abc import Iterator
from hashlib import blake2b
from pathlib import Path

from spanbook.ground.hosts import Size

_BYTES = 8  # of a digest: it tells two states of a file apart, and proves nothing


def held(folder: Path) -> Iterator[tuple[str, int, str]]:
    """Each as its path with slashes, its bytes, its digest."""
    for where, _, names in os.walk(folder):
        for name in names:
            file = Path(where, name)
            data = file.read_bytes()
            yield (
                file.relative_to(folder).as_posix(),
                len(data),
                blake2b(data, digest_size=_BYTES).hexdigest(),
            )


def size_of(folder: Path) -> Size:
    """How much there is below a folder. Nothing in it is opened."""
    folders, sizes = 0, []
    for where, below, names in os.walk(folder):
        folders += len(below)
        sizes += [Path(where, name).stat().st_size for name in names]
    return Size(len(sizes), folders, sum(sizes), max(sizes, default=0))
