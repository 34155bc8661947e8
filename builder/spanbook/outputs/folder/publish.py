"""A site takes its place in one step: whenever a build is killed, the old site is whole, or the new one is.

The new site is made in a workshop beside the place it goes to, under a lock. What a killed run left there is
mended by the next: the old site is put back if it was taken down, the rest is removed.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from spanbook.ground.language import gettext as _
from spanbook.outputs.folder.changes import Settled, settle
from spanbook.outputs.folder.durable import write_names, write_through
from spanbook.outputs.folder.exchange import exchange
from spanbook.outputs.folder.refusal import NoPlace, Sources, allow, replaceable, settled
from spanbook.outputs.folder.removal import remove
from spanbook.outputs.folder.workshop import OLD, PART, WHOLE, Say, held
from spanbook.outputs.text.failure import about

PATIENCE = 120.0  # seconds to wait for another build into the same place


@contextmanager
def published(
    site: Path,
    sources: Sources,
    say: Say,
    patience: float = PATIENCE,
    *,
    as_left: bool = False,
    told: Callable[[Settled], object] = lambda made: None,
) -> Iterator[Path]:
    """An empty folder to make a site in, which takes the place of `site` at the end; what it is like by then
    is `told`. The old site may be known to be `as_left` by a build.

    If the body raises, the old site is as it was and nothing else is left. Raises NoPlace where a site may
    not go, and OSError.
    """
    place = settled(site)
    allow(place, sources, as_left=as_left)
    with _parents(place), held(place, say, patience) as workshop:
        _mend(workshop, place)
        try:
            part, whole = workshop / PART, workshop / WHOLE
            part.mkdir()
            yield part
            with about(part):
                told(settle(part, place))
            if place.exists():
                shutil.copymode(place, part)
            part.rename(whole)
            write_through(whole)
            _take_place(whole, place, workshop / OLD)
        except BaseException:
            _mend(workshop, place)
            raise
        try:
            _discard(workshop / WHOLE, workshop / PART)  # it was looked through when it was taken down
            _mend(workshop, place)
        except (OSError, NoPlace) as left:
            say(
                _("The new site is in its place; what was there before could not be removed: {}").format(left)
            )


@contextmanager
def _parents(place: Path) -> Iterator[None]:
    """The folder that the place is in; what of it was made here is gone again if nothing comes of it."""
    missing = [folder for folder in place.parents if not folder.exists()]
    place.parent.mkdir(parents=True, exist_ok=True)
    try:
        yield
    except BaseException:
        for folder in missing:
            with suppress(OSError):  # somebody else uses it by now
                folder.rmdir()
        raise


def _mend(workshop: Path, place: Path) -> None:
    """Put right what a run left: the old site goes back if it was taken down, the rest is removed."""
    old = workshop / OLD
    if old.exists() and (not place.exists() or not any(place.iterdir())):
        if place.exists():
            place.rmdir()
        old.rename(place)
    part = workshop / PART
    _remove(part)
    for site in (old, workshop / WHOLE):
        if site.exists():
            replaceable(site, site)
            _discard(site, part)


def _take_place(whole: Path, place: Path, old: Path) -> None:
    """Put a new site into its place, and what was there where the new one was."""
    if not os.path.lexists(place):
        whole.rename(place)
    else:
        _swap(whole, place, old)
        try:
            # Here nobody can put anything into it any more.
            replaceable(whole, place)
        except BaseException:
            _swap(whole, place, old)
            raise
    write_names(place.parent, whole.parent)


def _swap(whole: Path, place: Path, old: Path) -> None:
    if exchange(whole, place):
        return
    place.rename(old)
    whole.rename(place)  # if that fails, mending puts the old one back
    old.rename(whole)


def _discard(site: Path, part: Path) -> None:
    """Half removed it would have no mark: it goes by another name first."""
    if site.exists():
        site.rename(part)
        _remove(part)


def _remove(part: Path) -> None:
    if part.exists():
        remove(part)
