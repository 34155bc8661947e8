"""A fresh community: everything that a site and its workflows need, with one example of each kind."""

from __future__ import annotations

import json
import shutil
import tempfile
from pathlib import Path

from spanbook.faces import program
from spanbook.faces.program import STARTER, Source


class NotStarted(Exception):  # noqa: N818 - it says what happened
    """Nothing was made. The message says why."""


def start(folder: Path, name: str, source: Source | None) -> tuple[str, ...]:
    """Make a community in a folder that is not there or is empty. Gives the files made, in order.

    Its workflows install the program from `source`; without one they say that it has to be named first.

    Raises NotStarted and OSError; the folder is then as it was.
    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise NotStarted(f"{folder} is there and is not empty; name a new folder")
    folder.parent.mkdir(parents=True, exist_ok=True)
    fresh = Path(tempfile.mkdtemp(prefix=f".{folder.name}-", dir=folder.resolve().parent))
    try:
        made = {_write(file, fresh, name) for file in STARTER.rglob("*") if file.is_file()}
        made |= {*program.lay(source, fresh)}
        fresh.chmod(0o755)
        if folder.exists():
            folder.rmdir()
        fresh.rename(folder)
    finally:
        shutil.rmtree(fresh, ignore_errors=True)
    return tuple(sorted(made))


def _write(file: Path, fresh: Path, name: str) -> str:
    # Packages carry no hidden files reliably: `dot-x` becomes `.x`.
    relative = "/".join(part.replace("dot-", ".", 1) for part in file.relative_to(STARTER).parts)
    # In mkdocs.yml the name stands in quotes.
    shown = json.dumps(name, ensure_ascii=False)[1:-1] if file.suffix == ".yml" else name
    text = file.read_text(encoding="utf-8").replace("@NAME@", shown)
    target = fresh / relative
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_text(text, encoding="utf-8")
    return relative
