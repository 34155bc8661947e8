"""Releases of the records, a file each in `content/releases/`, by `schema/release.json`.

What a release changed for readers was worked out when it was made, and stays as it was told then.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

from jsonschema import Draft202012Validator
from jsonschema.exceptions import best_match

from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.punctuation import labelled, parted
from spanbook.reading import schemas
from spanbook.reading.files import CONTENT, RELEASES

FOLDER = f"{CONTENT}{RELEASES}"
LARGEST = 4_000_000  # bytes
_AGAIN = marked("make it again with spanbook release")


class BrokenRelease(Exception):  # noqa: N818 - it says what it is
    """A file that is no release. The message says which, what was read and what to do."""


@dataclass(frozen=True, slots=True)
class Changed:
    """One thing that readers are answered otherwise: where (an address of the site), why and by whom."""

    words: str
    address: str | None
    why: tuple[str, ...]
    by: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Release:
    """`state` is the name of the state of the records, by their digest; `since` the release before it."""

    name: str
    day: date
    since: str | None
    state: str
    records: int
    changes: tuple[Changed, ...]

    def as_object(self) -> dict[str, Any]:
        return {
            "release": self.name,
            "date": self.day.isoformat(),
            "since": self.since,
            "state": self.state,
            "records": self.records,
            "changes": [
                {"words": one.words, "address": one.address, "why": list(one.why), "by": list(one.by)}
                for one in self.changes
            ],
        }


def read_releases(project: Path) -> tuple[Release, ...]:
    """Every release of a project, the newest first. Raises BrokenRelease and OSError."""
    folder = project / FOLDER
    files = sorted(folder.glob("*.json")) if folder.is_dir() else []
    return tuple(sorted(map(_read, files), key=lambda one: (one.day, one.name), reverse=True))


def _read(file: Path) -> Release:
    where = f"{FOLDER}{file.name}"
    if file.is_symlink() or not file.is_file() or file.stat().st_size > LARGEST:
        raise BrokenRelease(
            _("{where}: a link, no plain file, or more than {most} bytes; remove it").format(
                where=where, most=LARGEST
            )
        )
    try:
        values = json.loads(file.read_text(encoding="utf-8"))
    except (ValueError, RecursionError) as wrong:
        raise BrokenRelease(
            _("{where}: it is no JSON ({wrong}); {again}").format(where=where, wrong=wrong, again=_(_AGAIN))
        ) from None
    if broken := best_match(_law().iter_errors(values)):
        at = "/".join(map(str, broken.absolute_path)) or _("the file")
        raise BrokenRelease(labelled(where, parted(labelled(at, broken.message[:200]), _(_AGAIN))))
    if values["release"] != file.stem:
        raise BrokenRelease(
            _("{where}: it is called {name} inside; give both one name").format(
                where=where, name=values["release"]
            )
        )
    return _made(values, where)


def _made(values: Mapping[str, Any], where: str) -> Release:
    try:
        day = date.fromisoformat(values["date"])
    except ValueError:
        raise BrokenRelease(
            _("{where}: read the date {date}; write it as 2026-11-26").format(
                where=where, date=values["date"]
            )
        ) from None
    changes = (
        Changed(one["words"], one["address"], tuple(one["why"]), tuple(one["by"]))
        for one in values["changes"]
    )
    return Release(
        values["release"], day, values["since"], values["state"], values["records"], tuple(changes)
    )


@cache
def _law() -> Draft202012Validator:
    return Draft202012Validator(json.loads((schemas.folder() / "release.json").read_text(encoding="utf-8")))
