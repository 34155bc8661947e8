"""Files laid down in a folder that is not there yet, or is empty: all of them or none."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Mapping
from pathlib import Path

from spanbook.ground.language import gettext as _
from spanbook.outputs.text.failure import about


def lay(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write files by their paths below the folder. Raises FileExistsError where it holds any, OSError."""
    with about(folder):
        if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
            raise FileExistsError(_("{} is there and is not empty; name a new folder").format(folder))
        folder.parent.mkdir(parents=True, exist_ok=True)
        made = Path(tempfile.mkdtemp(prefix=f".{folder.name}-", dir=folder.resolve().parent))
        try:
            for name, data in files.items():
                file = made / name
                file.parent.mkdir(parents=True, exist_ok=True)
                file.write_bytes(data)
            made.chmod(0o755)
            if folder.exists():
                folder.rmdir()
            made.rename(folder)
        finally:
            shutil.rmtree(made, ignore_errors=True)
