"""What lies in a folder, to be held against what lay there before."""

from __future__ import annotations

from pathlib import Path


def tree(folder: Path) -> dict[str, bytes | str | None]:
    """Everything below a folder by its path: a file's bytes, where a link leads, None for a folder."""
    return {str(path.relative_to(folder)): _what(path) for path in sorted(folder.rglob("*"))}


def _what(path: Path) -> bytes | str | None:
    if path.is_symlink():
        return f"-> {path.readlink()}"
    return path.read_bytes() if path.is_file() else None
