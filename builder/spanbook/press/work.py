"""All that the shares of a site are made from, and how a page becomes its files."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from urllib.parse import quote

from spanbook.answers.by_words import Document
from spanbook.ground.notes import Notes
from spanbook.outputs.folder.written import Place
from spanbook.press.data import Wanted
from spanbook.press.parts import Key, Make, Onto, Part, Printed
from spanbook.press.pictures import Pictured, tags
from spanbook.press.shells import Shell
from spanbook.site import linked, pictures
from spanbook.site.common import Site
from spanbook.site.each import File
from spanbook.site.page import Around, SitePage

ANCHOR = re.compile(r' id="([^"]+)"')
PAGE = "index.html"


@dataclass(frozen=True, slots=True)
class Noting:
    """Notes are taken of what parts are made from; `printed` tells what each is of from anything else."""

    notes: Notes
    printed: Callable[[object], bytes]


@dataclass(frozen=True, slots=True)
class Work:
    """`guides` are found by words beside the records, `shells` are by how deep in folders a page stands.

    `base` is the address of the site with a slash at its end, `edited` gives where the file of a record is
    edited, by its path in the content folder. `asked` are pages of which somebody wants to know the anchors.
    `before` are the parts that are as they were, if what they are of is the same.
    """

    site: Site
    guides: tuple[Document, ...]
    around: Around
    shells: Mapping[int, Shell]
    wanted: Wanted
    pictured: Pictured
    place: Place
    base: str | None = None
    edited: Callable[[str], str | None] = lambda path: None
    asked: frozenset[str] = frozenset()
    noting: Noting | None = None
    before: Mapping[Key, Part] = field(default_factory=dict)

    def part(self, onto: Onto, key: Key, of: object, make: Make) -> Part:
        """A part as it was, or made now, of some thing."""
        if self.noting is None:
            return Part(key, *make())
        found, of_now = self.before.get(key), self.noting.printed(of)
        if found and found.of == of_now and self._has_anchors(found):
            onto.keep(found.files)
            return found
        self.noting.notes.begin()
        try:
            made = make()
        finally:
            step = self.noting.notes.done()
        return Part(key, *made, of_now, step)

    def _has_anchors(self, part: Part) -> bool:
        return all(page.anchors is not None for page in part.pages if page.address in self.asked)


def own_path(page: SitePage) -> str | None:
    """Where in the content folder the record lies that a page is about, if it is about one."""
    record = page.own_record
    return record.origin.path.partition("/")[2] if record else None


def inside(page: SitePage, around: Around) -> str:
    return page.to_html(around) + linked.element(page, around)


def printed(work: Work, page: SitePage, around: Around) -> tuple[Printed, Iterator[File]]:
    """A page in what stands around it, and its files, with the picture that it is shared by."""
    canonical = f"{work.base}{quote(page.address)}" if work.base else None
    edited = work.edited(page.record.origin.path.partition("/")[2]) if page.record else None
    content = inside(page, replace(around, edit_url=edited, canonical=canonical))
    picture = work.pictured.of(work.site, page)
    own = {
        "title": page.title,
        "description": page.summary,
        "canonical": canonical or "",
        "shared": tags(page, work.base, picture is not None),
        "content": content,
    }
    anchors = frozenset(ANCHOR.findall(content)) if page.address in work.asked else None
    html = work.shells[page.address.count("/")].around(own)
    return Printed(page.address, page.title, own_path(page), anchors), _files(page, html, picture)


def _files(page: SitePage, html: str, picture: bytes | None) -> Iterator[File]:
    yield f"{page.address}{PAGE}", html.encode("utf-8", "xmlcharrefreplace")
    if picture is not None:
        yield pictures.address_of(page), picture
