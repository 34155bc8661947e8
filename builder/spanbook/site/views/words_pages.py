"""The cautions and the glossary: one page each, an anchor for every entry."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from spanbook.reading.records import Cautions, Glossary, Publication
from spanbook.site import addresses, markdown
from spanbook.site.common import Site
from spanbook.site.page import SitePage


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
    lead = (
        "The usual dangers of this work and what to do about them. They are reminders, not instructions: "
        "local rules and people licensed for the work come first."
    )
    yield SitePage(
        address=addresses.CAUTIONS,
        title="Cautions",
        summary=lead,
        sort="List",
        crumbs=(),
        template="views/words_pages.html",
        view=EntriesView(lead, cautions),
        record=records.get(Cautions),
    )
    terms = tuple(
        Entry(t.id, t.term, markdown.to_html(t.meaning, "../"), ()) for t in site.register.terms.values()
    )
    lead = "The words of the trade as they are used here."
    yield SitePage(
        address=addresses.GLOSSARY,
        title="Glossary",
        summary=lead,
        sort="List",
        crumbs=(),
        template="views/words_pages.html",
        view=EntriesView(lead, terms),
        record=records.get(Glossary),
    )
