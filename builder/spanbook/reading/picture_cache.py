"""Pictures to be shared drawn once: kept in the user's own cache folder by all that stands on them.

Each begins with a digest of its name and of the rest: what does not hold to that is made again.
"""

from __future__ import annotations

from contextlib import suppress
from hashlib import sha256
from pathlib import Path

import PIL

from spanbook.ground.pictures import RECIPE, Letters, Plate, png
from spanbook.reading import kept_files

MOST_KEPT = 200_000_000  # bytes, some eighty thousand pictures
_SEAL = 32  # bytes


def folder() -> Path:
    """Not that of photographs, which are kept longer than these have room."""
    return kept_files.folder("shared")


def picture(plate: Plate, letters: Letters) -> bytes:
    """Raises Unwritable as `png`; where nothing can be kept it is made every time."""
    file = folder() / sha256(f"{RECIPE} {PIL.__version__} {letters} {plate}".encode()).hexdigest()
    with suppress(OSError):
        held = kept_files.read(file)
        if held[:_SEAL] == _seal(file, held[_SEAL:]):
            return held[_SEAL:]
    made = png(plate, letters)
    with suppress(OSError):
        kept_files.put(file, _seal(file, made) + made)
    return made


def trim() -> None:
    """Let go of what was not used for a month, and of what was used longest ago beyond 200 MB."""
    kept_files.trim(folder(), MOST_KEPT)


def _seal(file: Path, held: bytes) -> bytes:
    return sha256(file.name.encode() + held).digest()
