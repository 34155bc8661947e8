"""A source, and everything that rests on it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from spanbook.reading.records import Conversion, PartRecord, Series, Source, Supersession, Teardown
from spanbook.register.statements import Fitting, Measurement, Statement, StraySpan, Use
from spanbook.site import addresses, markdown
from spanbook.site.common import Site
from spanbook.site.page import Link, SitePage
from spanbook.wording.records import SOURCE_CLASSES, act_title
from spanbook.wording.spans import span_words


@dataclass(frozen=True, slots=True)
class CitedLine:
    """A statement that names this source or teardown, and where in it."""

    link: Link
    words: str
    at: str | None
    note: str | None


@dataclass(frozen=True, slots=True)
class SourceView:
    sort: str
    form: str | None
    edition: str | None
    year: int | None
    copy: str | None
    url: str | None
    licence: str | None
    cited: tuple[CitedLine, ...]
    notes: Markup | None


def pages(site: Site) -> Iterator[SitePage]:
    for source in site.register.sources.values():
        yield _page(site, source)


def _page(site: Site, source: Source) -> SitePage:
    address = addresses.of_record(source)
    root = "../" * address.count("/")
    cited = tuple(cited_lines(site, source))
    year = f", {source.year}" if source.year else ""
    return SitePage(
        address=address,
        title=source.title,
        summary=f"{SOURCE_CLASSES[source.sort].capitalize()}{year}. {len(cited)} statements rest on it.",
        sort="Source",
        crumbs=(Link("Sources", "sources/"),),
        template="views/source.html",
        view=SourceView(
            sort=SOURCE_CLASSES[source.sort],
            form=source.form,
            edition=source.edition,
            year=source.year,
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
                title, words = statement_words(statement)
                link = Link(title, addresses.of_statement(statement))
                yield CitedLine(link, words, evidence.at, evidence.note)


def statement_words(statement: Statement) -> tuple[str, str]:
    """Which record makes a statement, and what it says in short."""
    match subject := statement.subject:
        case Series():
            return statement.record.title, f"the series {subject.name}"
        case Fitting():
            return subject.assembly.title, span_words(subject.span, subject.series)
        case StraySpan():
            return subject.assembly.title, f"in {subject.span.series}"
        case Use(use=use):
            return subject.assembly.title, f"contains {use.number} {use.name or ''}".strip()
        case PartRecord():
            return subject.number, subject.title
        case Measurement():
            return subject.part.number, subject.size.what
        case Supersession():
            return act_title(subject), "supersession"
        case Conversion():
            return subject.title, "conversion"
