"""Every address that the site promises to keep, and the pages at addresses that records once had."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from markupsafe import Markup

from spanbook.reading.kinds import KINDS
from spanbook.reading.records import Gone, GonePage, StripDown
from spanbook.register.model import Register
from spanbook.site import addresses, markdown
from spanbook.site.common import Site
from spanbook.site.page import Link, SitePage
from spanbook.wording.pages import gone, moved

LIST = "addresses.txt"


@dataclass(frozen=True, slots=True)
class MovedView:
    to: Link


def moved_pages(site: Site) -> Iterator[SitePage]:
    """A page that leads on, for every former id of every record that has a page."""
    for record in site.register.records:
        if KINDS[record.kind].paged:
            link = site.record_link(record)
            words = moved(link.text)
            for former in record.formerly:
                yield SitePage(
                    address=addresses.of_former(record, former),
                    title=words.title,
                    summary=words.summary,
                    sort="List",
                    crumbs=(Link("Home", ""),),
                    template="views/moved.html",
                    view=MovedView(link),
                )


@dataclass(frozen=True, slots=True)
class GoneView:
    why: Markup


def gone_pages(site: Site) -> Iterator[SitePage]:
    """A page with the reason, for every page that is gone."""
    record = next((record for record in site.register.records if isinstance(record, Gone)), None)
    for entry in site.register.gone.values():
        if not entry.anchor:
            words = gone(entry.address)
            yield SitePage(
                address=entry.address,
                title=words.title,
                summary=words.summary,
                sort="List",
                crumbs=(Link("Home", ""),),
                template="views/gone.html",
                view=GoneView(_why(entry)),
                record=record,
            )


def with_reasons(site: Site, page: SitePage) -> SitePage:
    """A page with the statements that stood on it once, each with the reason why it is gone."""
    entries = site.gone_on.get(page.address, ())
    return replace(page, gone=tuple((one.anchor, _why(one)) for one in entries)) if entries else page


def _why(entry: GonePage) -> Markup:
    return markdown.to_html(entry.why, "../" * entry.page.count("/"))


def on_gone_pages(register: Register, addresses_: Iterable[str]) -> set[str]:
    """Those addresses whose whole page is gone for a reason: it is found from every place on the page."""
    return {address for address in addresses_ if address.partition("#")[0] in register.gone}


def public(register: Register) -> list[str]:
    """The addresses of pages and statements in order; a segment of a series may move and is not promised."""
    found = set(_pages(register))
    for record, statements in register.statements_of.items():
        if KINDS[record.kind].paged:
            found |= {addresses.of_statement(s) for s in statements}
            for former in record.formerly:
                page = addresses.of_former(record, former)
                found |= {f"{page}#{s.anchor}" for s in statements if s.anchor}
    for part in register.parts.values():
        said = register.statements_of[part.record] if part.record else ()
        found |= {addresses.of_statement(statement) for statement in said}
    found |= {addresses.of_caution(id_) for id_ in register.cautions}
    found |= {addresses.of_term(id_) for id_ in register.terms}
    found |= register.gone.keys()
    return sorted(found)


def _pages(register: Register) -> Iterator[str]:
    """Where every page is, without making it."""
    yield from addresses.LISTS
    yield from (addresses.of_position(position) for position in register.positions.values())
    yield from (addresses.of_series(series) for series in register.series.values())
    yield from (addresses.of_questions(series) for series in register.series.values())
    yield from (addresses.of_part(key) for key in register.parts)
    yield from (entry.address for entry in register.gone.values() if not entry.anchor)
    yield from {addresses.of_owner(key.by) for key in register.parts}
    taken_apart = {one.assembly for one in register.of(StripDown).values()} & register.assemblies.keys()
    yield from (addresses.of_sheet(register.assemblies[id_]) for id_ in sorted(taken_apart))
    for record in register.records:
        if KINDS[record.kind].paged:
            yield addresses.of_record(record)
            yield from (addresses.of_former(record, former) for former in record.formerly)
