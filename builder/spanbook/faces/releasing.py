"""A release of the records: its name, its day, and what it changed in the answers since the one before."""

from __future__ import annotations

import json
import re
from datetime import date
from pathlib import Path

from spanbook.faces.api import open_register
from spanbook.faces.citation import MARK, NAME, citation
from spanbook.faces.diff import NotComparable, compare
from spanbook.ground.language import gettext as _
from spanbook.mkdocs.export import described
from spanbook.outputs import whole_file
from spanbook.reading.releases import FOLDER, Changed, Release, read_releases
from spanbook.register.credits import credits_of
from spanbook.site.data import release_of
from spanbook.site.released import changed
from spanbook.site.tables import tables

_NAME = re.compile(r"[a-z0-9]+(?:[.-][a-z0-9]+)*")


class NotReleased(Exception):  # noqa: N818 - it says what happened
    """Nothing was written. The message says why."""


def release(project: str | Path, name: str, *, day: date | None = None, since: str | None = None) -> Release:
    """Write the release of the records as they stand, `content/releases/NAME.json`, to be tagged NAME.

    CITATION.cff beside it says how the release is cited, unless somebody has written one by hand.
    What it changed is worked out against the release before it, by the tag of its name, or against the
    revision `since`. Raises NotReleased for a name that is none or is taken, or where nothing changed,
    Problems for records with errors, NotComparable for a revision that is not there, BrokenRelease for a
    file among the releases that is none, BuildFailed for settings, and OSError.
    """
    project = Path(project)
    if not _NAME.fullmatch(name) or len(name) > 60:
        raise NotReleased(
            _("read the name {}; use small letters, digits, dots and hyphens, as 2026-11").format(name)
        )
    earlier = read_releases(project)
    if any(one.name == name for one in earlier):
        raise NotReleased(_("there is a release {} already; choose another name").format(name))
    register = open_register(project)
    every = tables(register.answers)
    state = release_of(every)
    before = earlier[0] if earlier else None
    if before and before.state == state:
        raise NotReleased(
            _("nothing is recorded or answered otherwise than in release {}").format(before.name)
        )
    revision = since or (before.name if before else None)
    found = _changed(project, revision, tagged=since is None) if revision else ()
    made = Release(name, day or date.today(), revision, state, len(register.records), found)
    text = json.dumps(made.as_object(), ensure_ascii=False, indent=1)
    about = described(project, every)
    whole_file.create(project / FOLDER / f"{name}.json", f"{text}\n")
    _cite(project, citation(made, about, [one.handle for one in credits_of(register)]))
    return made


def _changed(project: Path, revision: str, *, tagged: bool) -> tuple[Changed, ...]:
    """What a release changed since a revision; `tagged` tells that it is the tag of the release before."""
    try:
        return tuple(changed(compare(revision, str(project), project)))
    except NotComparable as why:
        if not tagged:
            raise
        told = _(
            "release {name}, with which this one is compared, cannot be read by its tag ({why}); "
            "tag its commit {name}, or say with --since what to compare with"
        )
        raise NotReleased(told.format(name=revision, why=why)) from None


def _cite(project: Path, text: str) -> None:
    """How it is cited; a file that somebody wrote by hand stays."""
    file = project / NAME
    if not file.exists() or file.read_bytes().startswith(MARK.encode()):
        whole_file.replace(file, text)
