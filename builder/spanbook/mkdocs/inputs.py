"""Everything that a site is made from, as a digest: the same digest makes the same site, byte for byte.

What a digest cannot answer for (a hook, somebody else's plugin, a setting taken from elsewhere) makes none,
and the site is then built whenever it is asked for.
"""

from __future__ import annotations

import os
import sys
import sysconfig
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime
from hashlib import sha256
from pathlib import Path
from pkgutil import iter_modules

from markdown import extensions
from mkdocs.config.defaults import MkDocsConfig

from spanbook.ground.language import gettext as _
from spanbook.reading.git import NoRevision, Repository
from spanbook.reading.schemas import folder as schema_folder
from spanbook.reading.sealed import packages

_PACKAGE = Path(__file__).parents[1]
_PLUGINS = {"spanbook", "search", "material/search"}
# Those of Markdown itself read nothing but the page.
_PREFIXES = ("", "markdown.extensions.")
# What settings may be read from besides their file.
_ELSEWHERE = (b"!ENV", b"INHERIT")
# By which days are told, and words.
_VARIABLES = ("SOURCE_DATE_EPOCH", "TZ", "LANG", "LANGUAGE", "LC_ALL")


@dataclass(frozen=True, slots=True)
class Inputs:
    """The digest of all that a site is made from, and of what is neither in its content nor of a day."""

    all: str
    program: str


def inputs_of(config: MkDocsConfig) -> Inputs | None:
    """By settings as they were loaded; None on any doubt."""
    program, content = sha256(), sha256()
    try:
        settings, docs = Path(config.config_file_path), Path(config.docs_dir)
        if _in_doubt(config) or any(mark in settings.read_bytes() for mark in _ELSEWHERE):
            return None
        for said in _surroundings(settings.parent):
            program.update(f"{said}\n".encode("utf-8", "surrogateescape"))
        for said in _today(settings.parent):
            content.update(f"{said}\n".encode("utf-8", "surrogateescape"))
        for file in _files(config):
            data = file.read_bytes()
            digest = content if docs in file.parents else program
            digest.update(f"{file} {len(data)}\n".encode("utf-8", "surrogateescape") + data)
    except OSError:  # the build says what is wrong, where it needs what cannot be read
        return None
    rest = program.hexdigest()
    content.update(rest.encode())
    return Inputs(content.hexdigest(), rest)


def places_of(config: MkDocsConfig) -> Iterator[Path]:
    """Where somebody changes a site: its settings, records and guides, and its own templates."""
    yield Path(config.config_file_path)
    yield Path(config.docs_dir)
    if config.theme.custom_dir:
        yield Path(config.theme.custom_dir)
    yield from map(Path, config.watch)


def _in_doubt(config: MkDocsConfig) -> bool:
    """Whether something has a say that may read whatever it likes."""
    known = {f"{prefix}{one.name}" for one in iter_modules(extensions.__path__) for prefix in _PREFIXES}
    return bool(
        config.hooks
        or "spanbook" not in config.plugins
        or set(config.plugins) - _PLUGINS
        or set(config.markdown_extensions) - known
    )


def _surroundings(project: Path) -> Iterator[object]:
    yield sys.version
    yield project
    yield from packages()
    yield [os.environ.get(name) for name in _VARIABLES]


def _today(project: Path) -> Iterator[object]:
    yield date.today()
    yield datetime.now(UTC).date()
    try:
        yield Repository(project).ask("rev-parse", "HEAD", "--is-shallow-repository")
    except NoRevision:
        yield None


def _files(config: MkDocsConfig) -> Iterator[Path]:
    """The program's, the community's, and those of a theme that is no package's."""
    installed = {Path(sysconfig.get_path(name)).resolve() for name in ("purelib", "platlib")}
    themes = [Path(folder).resolve() for folder in config.theme.dirs]
    own = (theme for theme in themes if not installed & {*theme.parents})
    for folder in (_PACKAGE, schema_folder(), *places_of(config), *own):
        yield from _below(folder)
    if (letters := config.plugins["spanbook"].config.pictures.font) is not None:
        yield Path(letters)


def _below(place: Path) -> Iterator[Path]:
    """The files of a place. Raises OSError for what cannot be read as one, or leads out of it."""
    if place.is_file():
        yield place
        return
    for folder, below, names in os.walk(place):
        below[:] = sorted(set(below) - {"__pycache__", ".git"})
        for name in below:
            if Path(folder, name).is_symlink():
                raise OSError(_("{folder}/{name} leads elsewhere").format(folder=folder, name=name))
        for file in (Path(folder, name) for name in sorted(names)):
            if not file.is_file():
                raise OSError(_("{} is no plain file").format(file))
            yield file
