"""Drawings read and drawn once: what was found in a file, and the small pictures made of it, are kept.

In the user's own cache folder, as photographs are (`image_cache.py`), named by a digest of the file's bytes,
of the recipe and of what was asked. Each begins with a digest of its name and of the rest: what does not hold
to that is made again.
"""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from hashlib import sha256
from pathlib import Path

import PIL

from spanbook.ground.drawings.raster import raster
from spanbook.ground.drawings.read import read
from spanbook.reading import kept_files

MOST_KEPT = 200_000_000  # bytes, some twenty thousand drawings
# Says how drawings are read and small pictures made: another recipe gives others of the same bytes.
_RECIPE = f"drawings 1 Pillow {PIL.__version__}\n".encode()
_SEAL = 32  # bytes


def folder() -> Path:
    return kept_files.folder("drawings")


def left_behind(data: bytes) -> tuple[str, ...]:
    """What a sound file has that is not taken. Raises Refused as `read`, every time anew."""
    return tuple(_kept(data, "left", lambda: "\n".join(read(data).left).encode()).decode().splitlines())


def small(data: bytes, side: int) -> bytes:
    """The small picture of a file, its longer side of so many points. Raises Refused as `read`."""
    return _kept(data, str(side), lambda: raster(read(data), side))


def trim() -> None:
    """Let go of what was not used for a month, and of what was used longest ago beyond 200 MB."""
    kept_files.trim(folder(), MOST_KEPT)


def _kept(data: bytes, asked: str, make: Callable[[], bytes]) -> bytes:
    """What was made of a file before, or is made now; where nothing can be kept it is made every time."""
    file = folder() / sha256(_RECIPE + asked.encode() + b"\n" + data).hexdigest()
    with suppress(OSError):
        held = kept_files.read(file)
        if held[:_SEAL] == _seal(file, held[_SEAL:]):
            return held[_SEAL:]
    made = make()
    with suppress(OSError):
        kept_files.put(file, _seal(file, made) + made)
    return made


def _seal(file: Path, held: bytes) -> bytes:
    return sha256(file.name.encode() + held).digest()
