"""Building the site with MkDocs, beside the old one, which is whole until the new one takes its place."""

from __future__ import annotations

import time
from dataclasses import dataclass
from pathlib import Path

from mkdocs.commands import build as mkdocs_build

from spanbook.ground.hosts import Size
from spanbook.mkdocs import settings
from spanbook.mkdocs.plugin import SpanbookPlugin, Step, sources_of
from spanbook.mkdocs.settings import BuildFailed, Say
from spanbook.outputs.folder import NoPlace, published
from spanbook.outputs.folder.held import size_of
from spanbook.outputs.text.failure import about


@dataclass(frozen=True, slots=True)
class Built:
    """Where the site is, how many pages it has, how long that took, and how large it is."""

    folder: Path
    pages: int
    seconds: float
    size: Size


def build(project: Path, site: Path | None, strict: bool, say: Say, step: Step | None = None) -> Built:
    """Build the site of a project folder, telling the steps through `say`, and through `step` how many pages
    are made, of how many. Raises BuildFailed."""
    started = time.monotonic()
    target = site or project / "site"
    with settings.messages(say), settings.failures_told():
        config = settings.load(project, strict)
        plugin = config.plugins.get("spanbook")
        if isinstance(plugin, SpanbookPlugin):
            plugin.step = step
        try:
            with published(target, sources_of(config), say) as fresh, about(fresh):
                config.site_dir = str(fresh)
                mkdocs_build.build(config)
                pages = sum(1 for _ in fresh.rglob("*.html"))
                size = size_of(fresh)
        except NoPlace as refused:
            raise BuildFailed(str(refused)) from None
    return Built(target.resolve(), pages, time.monotonic() - started, size)
