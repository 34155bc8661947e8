"""The page of changes: every release, the newest first, with what it changed in the answers."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from spanbook.reading.releases import Changed, Release
from spanbook.site import addresses
from spanbook.site.common import Site
from spanbook.site.page import SitePage
from spanbook.wording import releases as words

_FEW = 12  # what is shown of a release before anybody asks


@dataclass(frozen=True, slots=True)
class ReleaseShown:
    anchor: str
    title: str
    summary: str
    first: tuple[Changed, ...]
    more: tuple[Changed, ...]


@dataclass(frozen=True, slots=True)
class ChangesView:
    releases: tuple[ReleaseShown, ...]
    none: str


def pages(site: Site) -> Iterator[SitePage]:
    yield SitePage(
        address=addresses.CHANGES,
        title=words.CHANGES.told().title,
        summary=words.CHANGES.told().summary,
        sort="List",
        crumbs=(),
        template="views/changes.html",
        view=ChangesView(tuple(map(_shown, site.releases)), words.none_yet()),
    )


def _shown(release: Release) -> ReleaseShown:
    found = release.changes
    return ReleaseShown(
        anchor_of(release), words.title(release), words.summary(release), found[:_FEW], found[_FEW:]
    )


def anchor_of(release: Release) -> str:
    """The place of a release on the page; the feed leads there, too."""
    return f"release-{release.name.replace('.', '-')}"
