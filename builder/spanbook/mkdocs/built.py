"""What a build gives; and a site that needs none, which is known without MkDocs and without the settings."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from spanbook.ground.changes import Changes
from spanbook.ground.hosts import Size
from spanbook.mkdocs.digested import MadeFrom, digested
from spanbook.outputs.folder import NoPlace, ledger, settled
from spanbook.outputs.folder.ledger import Made
from spanbook.outputs.folder.workshop import Say

Step = Callable[[int, int], None]  # is told how many pages are made, of how many


@dataclass(frozen=True, slots=True)
class Built:
    """Where the site is, how many pages it has, how long that took, and how large it is.

    `changes` are its files that are others than before; None where nothing had to be built, because all that
    the site is made from is as it was.
    """

    folder: Path
    pages: int
    seconds: float
    size: Size
    changes: Changes | None


def unchanged(project: Path, site: Path | None, strict: bool, say: Say) -> Built | None:
    """The site of a project as it is, where a build would make the very same; None on any doubt.

    Settings that are as they were lead to the same places, and forbid warnings as much as they did. What
    there was to warn of is told once more through `say`.
    """
    started = time.monotonic()
    settings = str(project.absolute() / "mkdocs.yml")

    def same(made: Made) -> bool:
        if (strict and made.warnings) or made.made_from[:1] != (settings,):
            return False
        inputs = digested(MadeFrom(settings, made.made_from[1], made.made_from[2:]))
        return inputs is not None and inputs.all == made.inputs

    try:
        place = settled(site or project / "site")
        left = ledger.left(place, same)
    except (NoPlace, OSError):  # a build says what is wrong
        return None
    if left is None:
        return None
    for warning in left.warnings:
        say(warning)
    return Built(place, left.pages, time.monotonic() - started, left.size, None)
