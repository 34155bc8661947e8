"""What files of data say of themselves when they are made without a site."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from spanbook.ground.table import Table
from spanbook.mkdocs.data import about_of, licence_named, slug
from spanbook.mkdocs.failures import BuildFailed, failures_told
from spanbook.mkdocs.plugin import SpanbookPlugin
from spanbook.mkdocs.settings import load
from spanbook.outputs.data.about import About
from spanbook.press.data import name_of
from spanbook.reading.git import last_changed
from spanbook.reading.releases import BrokenRelease, Release, read_releases
from spanbook.site.data import release_of


def described(project: Path, tables: Sequence[Table]) -> About:
    """By the settings of a project, as its site says it; by its folder's name where there are none.

    Raises BuildFailed for settings that MkDocs or the plugin refuses.
    """
    day = last_changed(project / "content")
    if not (project / "mkdocs.yml").is_file():
        name = project.resolve().name
        return About(slug(name), name, None, None, None, release_of(tables), day)
    config = load(project)
    plugin = config.plugins.get("spanbook")
    with failures_told():
        own = plugin.config if isinstance(plugin, SpanbookPlugin) else None
        licence = licence_named(own.licence) if own else None
        release = (own.release if own else None) or name_of(release_of(tables), _releases(project))
        return about_of(config, licence, day, release)


def _releases(project: Path) -> tuple[Release, ...]:
    try:
        return read_releases(project)
    except BrokenRelease as broken:
        raise BuildFailed(str(broken)) from None
