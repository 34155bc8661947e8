"""Pages that somebody waits for, made before all others, in the frame that a build has captured."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from threading import Lock

from jinja2 import Environment, TemplateNotFound
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files

from spanbook.mkdocs import shell
from spanbook.mkdocs.brief import Brief
from spanbook.mkdocs.guide_pages import GuidePages
from spanbook.mkdocs.pictured import Picture
from spanbook.site import assets, views
from spanbook.site.common import Site
from spanbook.site.page import Around

_MOST_KEPT = 50  # pages


@dataclass(frozen=True, slots=True)
class Frame:
    """What a build has made that stands around its pages, and the files beside them, by address.

    `site` has answers of its own: those of the build are being worked out meanwhile. `guides` is None where
    others have a say in them.
    """

    site: Site
    config: MkDocsConfig
    env: Environment
    around: Around
    guides: GuidePages | None
    beside: Mapping[str, Callable[[], bytes]]

    def page(self, site: Site, address: str) -> str | None:
        """The page at an address as a build makes it; None where it cannot be made alone."""
        made = views.page_at(site, address)
        if made is None:
            # The first page tells of all records.
            known = address or site.register is self.site.register
            return self.guides.page(address) if self.guides and known else None
        page = shell.RecordPage(made, shell.record_file(made, self.config), self.config, self.around)
        page.read_source(self.config)
        page.render(self.config, Files([]))
        try:
            template = self.env.get_template(page.meta["template"])
        except TemplateNotFound:  # no page stood so deep
            return None
        return template.render(page=page)


def beside(files: Files, brief: Brief) -> dict[str, Callable[[], bytes]]:
    """What reads the files of a site that are none of its pages and not made of all records."""
    given = {file.dest_uri: partial(_content, file) for file in files if not file.is_documentation_page()}
    made = {path: partial(bytes, data) for path, data in assets.scripts().items()}
    return {**given, **made, **dict(brief.beside)}


def _content(file: File) -> bytes:
    return file.content_bytes


@dataclass(frozen=True, slots=True)
class ToCome:
    """Something newer than what is shown, of which nothing is there yet."""

    unchecked: bool = False

    def page(self, address: str) -> str | None:
        return None

    def file(self, address: str) -> bytes | None:
        return None

    def beside(self, address: str) -> bytes | None:
        return None


class Early:
    """A site of which no pages are there yet: each is made when it is asked for.

    `files` are the pictures that were made since the frame, by their addresses; `save` counts what was saved.
    """

    def __init__(
        self, frame: Frame, site: Site, files: Mapping[str, Picture], save: int, *, unchecked: bool = True
    ) -> None:
        self.site = site
        self.files = files
        self.save = save
        self.unchecked = unchecked
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

    def file(self, address: str) -> bytes | None:
        """A file that is another one than that of the site; None for all others."""
        made = self.files.get(address)
        return made.read_bytes() if isinstance(made, Path) else made

    def beside(self, address: str) -> bytes | None:
        """A file that a site has which is not whole yet."""
        read = self._frame.beside.get(address)
        return read() if read else None

    def _page(self, address: str) -> str | None:
        try:
            return self._frame.page(self.site, address)
        except Exception:  # views trust what the rules have not looked at yet, and these will tell
            return None
