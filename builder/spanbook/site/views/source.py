"""A source, and everything that rests on it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from markupsafe import Markup

from spanbook.reading.records import Assembly, Conversion, Machine, PartRecord, Source, Supersession
from spanbook.register.model import Sort, Statement
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
    cited = tuple(cited_lines(site, source, site.register.cited.get(source, ())))
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


def cited_lines(site: Site, by: object, statements: Iterable[Statement]) -> Iterator[CitedLine]:
    """Every statement that names a source or a teardown, as a line each."""
    named = {"source": by.id} if isinstance(by, Source) else {"teardown": getattr(by, "id", "")}
    for statement in statements:
        for evidence in statement.evidence:
            if all(getattr(evidence, key) == value for key, value in named.items()):
                link, words = statement_words(site, statement)
                yield CitedLine(link, words, evidence.at, evidence.note)


def statement_words(site: Site, statement: Statement) -> tuple[Link, str]:
    """A statement as a link to where it stands and what it says in short."""
    record, series = statement.record, site.register.series
    index = int(statement.steps[1]) if statement.steps else 0
    if isinstance(record, Machine):
        run = record.series[index]
        return Link(record.title, addresses.of_statement(statement)), f"the series {run.name}"
    if isinstance(record, Assembly) and statement.sort is Sort.SPAN:
        span = record.serials[index]
        return Link(record.title, addresses.of_statement(statement)), span_words(span, series[span.series])
    if isinstance(record, Assembly):
        use = record.parts[index]
        words = f"contains {use.number} {use.name or ''}".strip()
        return Link(record.title, addresses.of_statement(statement)), words
    if isinstance(record, PartRecord):
        key = site.register.key_of_record(record)
        words = record.sizes[index].what if statement.sort is Sort.MEASUREMENT else record.title
        return Link(record.number, addresses.of_statement(statement, key)), words
    if isinstance(record, Supersession):
        return Link(act_title(record), addresses.of_record(record)), "supersession"
    assert isinstance(record, Conversion)
    return Link(record.title, addresses.of_record(record)), "conversion"
