"""Files laid in a folder of their own: all of them, or no folder."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Mapping
from pathlib import Path

from spanbook.ground.language import gettext as _
from spanbook.outputs.folder.durable import write_through
from spanbook.outputs.folder.refusal import NoPlace


def lay(folder: Path, files: Mapping[str, bytes]) -> None:
    """Make a folder with files by their paths in it. Raises NoPlace unless it is new or empty; OSError."""
    if folder.is_symlink():
        raise NoPlace(_("{}: it is a link; name the folder itself").format(folder))
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise NoPlace(
            _("{}: it is there and is not empty; name a new folder, or the community's own").format(folder)
        )
    place = folder.resolve()
    place.parent.mkdir(parents=True, exist_ok=True)
    fresh = Path(tempfile.mkdtemp(prefix=f".{place.name}-", dir=place.parent))
    try:
        for path, data in files.items():
            file = fresh / path
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_bytes(data)
        fresh.chmod(0o755)
        write_through(fresh)
        if place.exists():
            place.rmdir()
        fresh.rename(place)
    finally:
        shutil.rmtree(fresh, ignore_errors=True)
