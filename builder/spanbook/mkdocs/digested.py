"""Everything that a site is made from, as a digest: the same digest makes the same site, byte for byte.

It is made by places alone, so that a site that needs no build is known without MkDocs.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime
from hashlib import sha256
from pathlib import Path

from spanbook.ground.language import gettext as _
from spanbook.reading.git import NoRevision, Repository
from spanbook.reading.schemas import folder as schema_folder
from spanbook.reading.sealed import packages

_PACKAGE = Path(__file__).parents[1]
# What settings may be read from besides their file.
_ELSEWHERE = (b"!ENV", b"INHERIT")
# By which days are told, and words.
_VARIABLES = ("SOURCE_DATE_EPOCH", "TZ", "LANG", "LANGUAGE", "LC_ALL")
_APART = {"__pycache__", ".git"}


@dataclass(frozen=True, slots=True)
class MadeFrom:
    """The file of the settings, the folder of the content, and other places: folders, or files."""

    settings: str
    content: str
    others: tuple[str, ...]

    @property
    def places(self) -> tuple[str, ...]:
        return (self.settings, self.content, *self.others)


@dataclass(frozen=True, slots=True)
class Inputs:
    """The digest of all that a site is made from, and of what is neither in its content nor of a day.

    `of` is where that is.
    """

    all: str
    program: str
    of: MadeFrom


def digested(of: MadeFrom) -> Inputs | None:
    """None on any doubt."""
    program, content = sha256(), sha256()
    try:
        settings = Path(of.settings)
        if any(mark in settings.read_bytes() for mark in _ELSEWHERE):
            return None
        for said in _surroundings(settings.parent):
            program.update(f"{said}\n".encode("utf-8", "surrogateescape"))
        for said in _today(settings.parent):
            content.update(f"{said}\n".encode("utf-8", "surrogateescape"))
        within = of.content.rstrip(os.sep) + os.sep
        for place in (str(_PACKAGE), str(schema_folder()), *of.places):
            for file in _below(place):
                with open(file, "rb", buffering=0) as opened:  # noqa: PTH123 - ten thousand files
                    data = opened.read()
                digest = content if file.startswith(within) else program
                digest.update(f"{file} {len(data)}\n".encode("utf-8", "surrogateescape") + data)
    except OSError:  # the build says what is wrong, where it needs what cannot be read
        return None
    rest = program.hexdigest()
    content.update(rest.encode())
    return Inputs(content.hexdigest(), rest, of)


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


def _below(place: str) -> Iterator[str]:
    """The files of a place. Raises OSError for what cannot be read as one, or leads out of it."""
    if os.path.isfile(place):  # noqa: PTH113 - as above
        yield place
        return
    with os.scandir(place) as entries:
        found = sorted((entry.name, entry.is_dir(), entry.is_symlink(), entry.is_file()) for entry in entries)
    for name, is_folder, leads_on, is_file in found:
        path = f"{place}{os.sep}{name}"
        if is_folder and leads_on and name not in _APART:
            raise OSError(_("{folder}/{name} leads elsewhere").format(folder=place, name=name))
        if is_folder and name not in _APART:
            yield from _below(path)
        elif is_file:
            yield path
        elif not is_folder:
            raise OSError(_("{} is no plain file").format(path))
