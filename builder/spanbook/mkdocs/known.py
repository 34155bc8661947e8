"""MkDocs' files of a site of which it does not make the record pages: those are there when somebody asks.

A guide may link to any page and file, a navigation may name any page, and the sitemap has all of them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from pathlib import PurePath
from typing import cast
from urllib.parse import quote, urlsplit

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.pages import Page

from spanbook.mkdocs.shell import file_at
from spanbook.press.known import Known
from spanbook.press.parts import Printed
from spanbook.press.work import PAGE

_GUIDE, _INDEX = ".md", "index.md"


@dataclass(frozen=True, slots=True)
class ListedPage:
    """What a sitemap tells of a page."""

    canonical_url: str | None
    abs_url: str | None
    update_date: str
    is_link: bool = False


@dataclass(frozen=True, slots=True)
class Listed:
    """A page among all files."""

    url: str
    dest_uri: str
    page: ListedPage


class KnownFiles(Files):
    """The guides, and what is not ours; beside them whatever is asked for."""

    def __init__(self, files: Iterable[File], known: Known, config: MkDocsConfig) -> None:
        super().__init__(files)
        self._known, self._config = known, config
        self._asked: dict[str, File | None] = {}
        self._listed: tuple[Listed, ...] = ()
        # A navigation says what a page is called; a link has words of its own.
        self._named = True
        for file in super().documentation_pages():
            if known.has_page(_address(file)):  # the record has its place
                self.remove(file)
        for address in known.hubs:
            self.append(self._page(address))

    def forget_hubs(self) -> None:
        """Once the navigation has them they are links like all others, and none of MkDocs' pages."""
        self._named = False
        for address in self._known.hubs:
            file = self.get_file_from_path(f"{address}{_INDEX}")
            if file is not None:
                self._asked[file.src_uri] = file
                self.remove(file)

    def get_file_from_path(self, path: str) -> File | None:
        name = PurePath(path).as_posix()
        found = super().get_file_from_path(name)
        if found is not None:
            return found
        if name not in self._asked:
            self._asked[name] = self._find(name)
        return self._asked[name]

    def documentation_pages(
        self, *, inclusion: Callable[[InclusionLevel], bool] | None = None
    ) -> Sequence[File]:
        """Those that MkDocs makes itself are asked for by how they are included; all, without that."""
        if inclusion is not None:
            return super().documentation_pages(inclusion=inclusion)
        return [*super().documentation_pages(), *cast(Sequence[File], self._listed)]

    @property
    def asked(self) -> frozenset[str]:
        """The addresses of the pages that were asked for."""
        return frozenset(map(_address, filter(None, self._asked.values())))

    def are_made(self, pages: Iterable[Printed], base: str | None, day: Callable[[Printed], str]) -> None:
        """From here on every page is known by its own day, and its anchors where they were asked for."""
        made = {page.address: page for page in pages}
        for file in filter(None, self._asked.values()):
            found = made.get(_address(file))
            if found and found.anchors is not None and file.page is not None:
                file.page.present_anchor_ids = set(found.anchors)
        path = urlsplit(base).path if base else None
        self._listed = tuple(_listed(page, base, path, day(page)) for page in made.values())

    def _find(self, path: str) -> File | None:
        if path.endswith(_GUIDE):
            hub = path.endswith(f"/{_INDEX}")
            address = path.removesuffix(_INDEX) if hub else f"{path.removesuffix(_GUIDE)}/"
            there = address in self._known.hubs if hub else self._known.has_page(address)
            return self._page(address) if there and hub == (address in self._known.hubs) else None
        if self._known.has_file(path):
            return File.generated(self._config, path, content="", inclusion=InclusionLevel.NOT_IN_NAV)
        return None

    def _page(self, address: str) -> File:
        file = file_at(address, address in self._known.hubs, self._config)
        page = Page(self._known.title(address) if self._named else None, file, self._config)
        page.edit_url = None
        return file


def _address(file: File) -> str:
    return file.dest_uri.removesuffix(PAGE)


def _listed(page: Printed, base: str | None, path: str | None, day: str) -> Listed:
    """`base` is the address of the site, `path` where on its host that is."""
    url = quote(page.address)
    shown = ListedPage(base and f"{base}{url}", path and f"{path}{url}", day)
    return Listed(url, f"{page.address}{PAGE}", shown)
