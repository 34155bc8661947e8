"""Pages that somebody waits for, made before all others, in the frame that the build before has captured."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from threading import Lock

from jinja2 import Environment, TemplateNotFound
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import Files

from spanbook.mkdocs import shell
from spanbook.site import views
from spanbook.site.common import Site
from spanbook.site.page import Around

_MOST_KEPT = 50  # pages


@dataclass(frozen=True, slots=True)
class Frame:
    """What a build has made that stands around its pages."""

    config: MkDocsConfig
    env: Environment
    around: Around

    def page(self, site: Site, address: str) -> str | None:
        """The page at an address as a build makes it; None where it cannot be made alone."""
        made = views.page_at(site, address)
        if made is None:
            return None
        page = shell.RecordPage(made, shell.record_file(made, self.config), self.config, self.around)
        page.read_source(self.config)
        page.render(self.config, Files([]))
        try:
            template = self.env.get_template(page.meta["template"])
        except TemplateNotFound:  # no page stood so deep
            return None
        return template.render(page=page)


@dataclass(frozen=True, slots=True)
class ToCome:
    """Something newer than what is shown, of which nothing is there yet."""

    files: Mapping[str, Path] = field(default_factory=dict)
    unchecked: bool = False

    def page(self, address: str) -> str | None:
        return None


class Early:
    """What was saved since a site was built: its pages are made when they are asked for.

    `files` are the photographs that the site does not have, by their addresses; `save` counts what was saved.
    """

    def __init__(self, frame: Frame, site: Site, files: Mapping[str, Path], save: int) -> None:
        self.site = site
        self.files = files
        self.save = save
        self.unchecked = True
        self._frame = frame
        self._made: dict[str, str | None] = {}
        self._making = Lock()

    def page(self, address: str) -> str | None:
        """The page at an address; None for one that is made of many, or cannot be made of them."""
        with self._making:
            if address not in self._made:
                if len(self._made) >= _MOST_KEPT:
                    self._made.clear()
                self._made[address] = self._page(address)
            return self._made[address]

    def _page(self, address: str) -> str | None:
        try:
            return self._frame.page(self.site, address)
        except Exception:  # views trust what the rules have not looked at yet, and these will tell
            return None
