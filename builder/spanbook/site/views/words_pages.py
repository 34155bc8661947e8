"""The cautions and the glossary: one page each, an anchor for every entry."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from spanbook.reading.records import Cautions, Glossary, Publication
from spanbook.site import addresses, markdown
from spanbook.site.common import Site
from spanbook.site.page import SitePage
from spanbook.wording.pages import CAUTIONS, GLOSSARY


@dataclass(frozen=True, slots=True)
class Entry:
    anchor: str
    title: str
    text: Markup
    follows: tuple[Publication, ...]


@dataclass(frozen=True, slots=True)
class EntriesView:
    lead: str
    entries: tuple[Entry, ...]


def pages(site: Site) -> Iterator[SitePage]:
    records = {type(record): record for record in site.register.records}
    cautions = tuple(
        Entry(c.id, c.title, markdown.to_html(c.text, "../"), c.follows)
        for c in site.register.cautions.values()
    )
    words = CAUTIONS.told()
    yield SitePage(
        address=addresses.CAUTIONS,
        title=words.title,
        summary=words.summary,
        sort="List",
        crumbs=(),
        template="views/words_pages.html",
        view=EntriesView(words.summary, cautions),
        record=records.get(Cautions),
    )
    terms = tuple(
        Entry(t.id, t.term, markdown.to_html(t.meaning, "../"), ()) for t in site.register.terms.values()
    )
    words = GLOSSARY.told()
    yield SitePage(
        address=addresses.GLOSSARY,
        title=words.title,
        summary=words.summary,
        sort="List",
        crumbs=(),
        template="views/words_pages.html",
        view=EntriesView(words.summary, terms),
        record=records.get(Glossary),
    )
