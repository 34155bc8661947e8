"""Where a site may not go, because building it there would remove or change what no build made."""

from __future__ import annotations

import os
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from spanbook.ground.language import gettext as _
from spanbook.outputs.folder import mark
from spanbook.wording.grammar import first_of


class NoPlace(Exception):  # noqa: N818 - it says what happened
    """A site must not go there; nothing was touched. The message says where, why and what to do."""


@dataclass(frozen=True, slots=True)
class Sources:
    """What a site is made from: it may lie in its project, and neither in nor around any of the others."""

    project: Path
    others: tuple[Path, ...]


def settled(site: Path) -> Path:
    """The folder that is meant, with no link on the way to it. Raises NoPlace if it is one itself."""
    _not_a_link(site, site)
    return site.resolve()


def allow(site: Path, sources: Sources, *, as_left: bool = False) -> None:
    """Raise NoPlace unless a site may be put into this settled folder, which need not be there.

    Where it is `as_left` by a build nothing else can be in it.
    """
    elsewhere = _("name a folder of its own for the site, such as {}").format(sources.project / "site")
    for source in (sources.project, *sources.others):
        if _is_among(site, (source, *source.parents)):
            raise NoPlace(
                _("{site}: {source} would be removed with all that it holds; {elsewhere}").format(
                    site=site, source=source, elsewhere=elsewhere
                )
            )
    ours = (site, *site.parents)
    for source in sources.others:
        if _is_among(source, ours):
            raise NoPlace(
                _("{site}: it lies in {source}, which the site is made from; {elsewhere}").format(
                    site=site, source=source, elsewhere=elsewhere
                )
            )
    for folder in ours:
        if _keeps_git(folder):
            raise NoPlace(
                _("{site}: {folder} is where git keeps a repository; {elsewhere}").format(
                    site=site, folder=folder, elsewhere=elsewhere
                )
            )
    if not next(folder for folder in site.parents if folder.exists()).is_dir():
        raise NoPlace(
            _("{site}: a file stands where a folder on the way to it is expected; {elsewhere}").format(
                site=site, elsewhere=elsewhere
            )
        )
    if site.exists():
        if not site.is_dir():
            raise NoPlace(
                _("{site}: it is a file, and a site is a folder; {elsewhere}").format(
                    site=site, elsewhere=elsewhere
                )
            )
        if os.path.ismount(site):
            raise NoPlace(
                _("{}: it is a disk of its own, whose place nothing can take; name a folder in it").format(
                    site
                )
            )
        if not as_left:
            replaceable(site, site)


def replaceable(folder: Path, shown_as: Path) -> None:
    """Raise NoPlace if a folder holds anything that no build made."""
    _not_a_link(folder, shown_as)
    if (folder / ".git").exists():
        raise NoPlace(
            _("{}: it is a git repository, which would be removed; name a folder in it").format(shown_as)
        )
    if not any(folder.iterdir()):
        return
    if not mark.is_on(folder):
        raise NoPlace(
            _(
                "{}: it is not empty, and nothing in it says that spanbook made it; name a new or an "
                "empty folder. If it is a site that an earlier spanbook built, remove it and build again"
            ).format(shown_as)
        )
    if strangers := mark.strangers(folder):
        named = first_of(strangers, 3)
        raise NoPlace(
            _(
                "{shown_as}: {named} did not come from a build and would be removed; move it away "
                "(what is to be published belongs in the content folder) and build again"
            ).format(shown_as=shown_as, named=named)
        )


def _not_a_link(folder: Path, shown_as: Path) -> None:
    if folder.is_symlink():
        raise NoPlace(_("{}: it is a link; name the folder itself that the site goes into").format(shown_as))


def _is_among(one: Path, others: Iterable[Path]) -> bool:
    """Some disks hold two spellings to be one folder, and one folder may hang in two places."""
    return any(one == other or (one.exists() and other.exists() and one.samefile(other)) for other in others)


def _keeps_git(folder: Path) -> bool:
    if folder.name == ".git":
        return True
    return all(os.path.lexists(folder / name) for name in ("HEAD", "objects", "refs"))
