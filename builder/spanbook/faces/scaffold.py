"""A fresh community: everything that a site and its workflows need, with one example of each kind."""

from __future__ import annotations

import json
import shutil
import tempfile
from pathlib import Path

from spanbook.faces import program, remarks
from spanbook.faces.program import STARTER, Source
from spanbook.ground.language import ENGLISH, FOLDER, languages, speaking
from spanbook.ground.language import gettext as _
from spanbook.ground.licences import OFTEN, licence_of

# The line of the settings in which the licence is said.
_UNSAID = "      # licence: CC-BY-4.0\n"


class NotStarted(Exception):  # noqa: N818 - it says what happened
    """Nothing was made. The message says why."""


def start(
    folder: Path, name: str, source: Source | None, licence: str | None = None, language: str = ENGLISH
) -> tuple[str, ...]:
    """Make a community in a folder that is not there or is empty. Gives the files made, in order.

    `licence` is the one under which its records are given, by its SPDX identifier; without one that is left
    to be said in mkdocs.yml. `language` is the one in which its site is told, by its tag.

    Its workflows install the program from `source`; without one they say that it has to be named first.

    Raises NotStarted and OSError; the folder is then as it was.
    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise NotStarted(_("{} is there and is not empty; name a new folder").format(folder))
    if language not in languages():
        raise NotStarted(
            _("read the language {language}; it is one of {known}").format(
                language=language, known=", ".join(languages())
            )
        )
    given = licence_of(licence) if licence else None
    if licence and given is None:
        raise NotStarted(
            _("read the licence {licence}; it is an SPDX identifier: {known}, …").format(
                licence=licence, known=", ".join(OFTEN)
            )
        )
    folder.parent.mkdir(parents=True, exist_ok=True)
    fresh = Path(tempfile.mkdtemp(prefix=f".{folder.name}-", dir=folder.resolve().parent))
    try:
        with speaking(language):
            made = {_write(file, fresh, name, STARTER) for file in STARTER.rglob("*") if file.is_file()}
            made |= {*program.lay(source, fresh)}
        if language != ENGLISH:
            _told_in(language, fresh, name)
        if given:
            _licensed(fresh / "mkdocs.yml", given.id)
        fresh.chmod(0o755)
        if folder.exists():
            folder.rmdir()
        fresh.rename(folder)
    finally:
        shutil.rmtree(fresh, ignore_errors=True)
    return tuple(sorted(made))


def _licensed(settings: Path, id_: str) -> None:
    text = settings.read_text(encoding="utf-8")
    settings.write_text(text.replace(_UNSAID, f"      licence: {id_}\n"), encoding="utf-8")


def _told_in(language: str, fresh: Path, name: str) -> None:
    """The settings ask for a language; the records and guides that are written in it are laid over."""
    settings = fresh / "mkdocs.yml"
    text = settings.read_text(encoding="utf-8")
    settings.write_text(text.replace("language: en\n", f"language: {language}\n"), encoding="utf-8")
    over = FOLDER / language / "starter"
    for file in over.rglob("*"):
        if file.is_file():
            _write(file, fresh, name, over)


def _write(file: Path, fresh: Path, name: str, of: Path) -> str:
    # Packages carry no hidden files reliably: `dot-x` becomes `.x`.
    relative = "/".join(part.replace("dot-", ".", 1) for part in file.relative_to(of).parts)
    # In mkdocs.yml the name stands in quotes.
    shown = json.dumps(name, ensure_ascii=False)[1:-1] if file.suffix == ".yml" else name
    text = file.read_text(encoding="utf-8")
    if remarks.has_remarks(file.relative_to(of).as_posix()):
        text = remarks.told(text)
    target = fresh / relative
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_text(text.replace("@NAME@", shown), encoding="utf-8")
    return relative
