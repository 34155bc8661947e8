"""What a site will have that somebody may link to, told before any of it is made."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from spanbook.press.data import Wanted, lay
from spanbook.press.rows import Gathered
from spanbook.site import addresses, assets, feed, hubs, opensearch, permanent, record_files, views
from spanbook.site.common import Site

_PIECE = "/~/"
_FOR_PROGRAMS = {permanent.LIST, addresses.STATE, feed.FEED, opensearch.FILE, opensearch.ROBOTS}


@dataclass(frozen=True)
class Known:
    """`beside` are paths of files that are given, and not made from records."""

    site: Site
    wanted: Wanted
    beside: frozenset[str]

    @cached_property
    def hubs(self) -> Mapping[str, str]:
        """The titles of the pages that are under no other, by their addresses."""
        return hubs.titles()

    @cached_property
    def pages(self) -> frozenset[str]:
        """Where pages are promised to be; pieces of them come besides."""
        return frozenset((*permanent.of_today(self.site.register), *self.site.former_pages))

    def has_page(self, address: str) -> bool:
        """Of a piece only making the pages can tell."""
        return address in self.pages or (_PIECE in address and address in self._titles)

    def title(self, address: str) -> str:
        if address in self.hubs:
            return self.hubs[address]
        made = views.page_at(self.site, address)
        return made.title if made else self._titles[address]

    def has_file(self, path: str) -> bool:
        """Whether there is such a file for readers and programs; what only scripts look up is not asked for.

        What there is of data only making it can tell.
        """
        if path in self.beside or path in _FOR_PROGRAMS or path in assets.schemas():
            return True
        if path.startswith(addresses.DATA):
            return path in self._data
        page = path.removesuffix(record_files.NAME)
        beside = self.wanted.records and path.endswith(f"/{record_files.NAME}")
        return beside and any(page == one for _, one in record_files.pages_of_records(self.site.register))

    @cached_property
    def _titles(self) -> Mapping[str, str]:
        return {page.address: page.title for page in views.all_pages(self.site)}

    @cached_property
    def _data(self) -> frozenset[str]:
        found: list[str] = []
        lay(self.site, self.wanted, Gathered.here(self.site), lambda path, data: found.append(path))
        return frozenset(found)
