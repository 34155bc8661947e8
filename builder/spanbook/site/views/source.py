"""A source, and everything that rests on it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from spanbook.ground.language import gettext as _
from spanbook.reading.records import Source, Teardown
from spanbook.site import addresses, markdown
from spanbook.site.common import Linked, Site, linked
from spanbook.site.each import Each
from spanbook.site.page import Link, SitePage
from spanbook.wording.records import SOURCE_CLASSES
from spanbook.wording.statements import statement_words
from spanbook.wording.summaries import source_summary
from spanbook.wording.years import year_words


@dataclass(frozen=True, slots=True)
class CitedLine:
    """A statement that names this source or teardown, for it or against, and where in it."""

    words: Linked
    against: bool
    at: str | None
    note: str | None


@dataclass(frozen=True, slots=True)
class SourceView:
    sort: str
    form: str | None
    edition: str | None
    year: str
    copy: str | None
    url: str | None
    licence: str | None
    cited: tuple[CitedLine, ...]
    notes: Markup | None


def _pages(site: Site, source: Source) -> Iterator[SitePage]:
    yield _page(site, source)


EACH = Each(lambda site: site.register.sources.values(), addresses.of_record, _pages)


def _page(site: Site, source: Source) -> SitePage:
    address = addresses.of_record(source)
    root = "../" * address.count("/")
    cited = tuple(cited_lines(site, source))
    against = sum(line.against for line in cited)
    return SitePage(
        address=address,
        title=source.title,
        summary=source_summary(source, len(cited) - against, against),
        sort=_("Source"),
        crumbs=(Link(_("Sources"), "sources/"),),
        template="views/source.html",
        view=SourceView(
            sort=_(SOURCE_CLASSES[source.sort]),
            form=source.form,
            edition=source.edition,
            year=year_words(source.year),
            copy=source.copy,
            url=source.url,
            licence=source.licence,
            cited=cited,
            notes=markdown.to_html(source.notes, root) if source.notes else None,
        ),
        record=source,
    )


def cited_lines(site: Site, by: Source | Teardown) -> Iterator[CitedLine]:
    """Every statement that names a source or a teardown, as a line each."""
    for statement in site.register.cited.get(by, ()):
        for evidence in statement.evidence:
            if by.id == (evidence.source if isinstance(by, Source) else evidence.teardown):
                words = linked(statement_words(statement))
                yield CitedLine(words, evidence.against, evidence.at, evidence.note)
