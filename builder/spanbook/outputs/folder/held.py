"""Every file below a folder, with its size and a digest of what it holds."""

from __future__ import annotations

import os
from collections.abc import Iterator
from hashlib import blake2b
from pathlib import Path

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
