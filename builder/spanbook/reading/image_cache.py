"""Photographs made anew once: what a picture becomes is kept, and found again by what its bytes are.

Kept in the user's own cache folder, which may be emptied at any time; never in the project, where a
stranger's proposal could bring a cache of its own.
"""

from __future__ import annotations

from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from tempfile import TemporaryDirectory

import PIL
from platformdirs import user_cache_path

from spanbook.ground.images import RECIPE, check, versions

_RECIPE = f"{RECIPE} Pillow {PIL.__version__}\n".encode()


@dataclass(frozen=True, slots=True, order=True)
class Print:
    """One width of a picture, as a WebP file."""

    width: int
    height: int
    file: Path


def folder() -> Path:
    return user_cache_path("spanbook") / "photographs"


def prints(data: bytes) -> tuple[Print, ...]:
    """Every width of a picture, the narrowest first. Raises Refused as `photographs.check`, and OSError."""
    place = _place(data)
    if not _is_there(place):
        _develop(data, place)
    found = []
    for file in place.iterdir():
        width, _, height = file.stem.partition("x")
        found.append(Print(int(width), int(height), file))
    return tuple(sorted(found))


def inspect(data: bytes) -> None:
    """As `photographs.check`, but a picture that was developed before is not looked at again."""
    if not _is_there(_place(data)):
        check(data)


def _place(data: bytes) -> Path:
    return folder() / sha256(_RECIPE + data).hexdigest()


def _is_there(place: Path) -> bool:
    try:
        return place.is_dir()
    except OSError:  # somebody else's folder: nothing of ours is in it
        return False


def _develop(data: bytes, place: Path) -> None:
    place.parent.mkdir(parents=True, exist_ok=True)
    with TemporaryDirectory(dir=place.parent, prefix=".") as unfinished:
        made = Path(unfinished, "made")
        made.mkdir()
        for version in versions(data):
            (made / f"{version.width}x{version.height}.webp").write_bytes(version.data)
        try:
            made.rename(place)  # whole or not at all
        except OSError:
            if not _is_there(place):  # another build was faster
                raise
