"""Every address that the site promises to keep, and the pages at addresses that records once had."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from markupsafe import Markup

from spanbook.ground.language import gettext as _
from spanbook.reading.kinds import KINDS
from spanbook.reading.records import Gone, GonePage, PartRecord
from spanbook.register.led import led_numbers, owners_of
from spanbook.register.model import Register
from spanbook.register.statements import Statement
from spanbook.site import addresses, markdown
from spanbook.site.common import Site
from spanbook.site.former import former_anchors, former_pages
from spanbook.site.page import Link, SitePage
from spanbook.wording.numbers import led_page
from spanbook.wording.pages import gone, moved

LIST = "addresses.txt"


@dataclass(frozen=True, slots=True)
class MovedView:
    to: Link


def moved_pages(site: Site, titles: Mapping[str, str]) -> Iterator[SitePage]:
    """A page that leads on, for every address that a page had before, and for every number of a part that is
    not the one its page goes by; `titles` are today's pages'."""
    led = {addresses.of_number(path): one for path, one in led_numbers(site.register).items()}
    for before, now in site.former_pages.items():
        words = led_page(led[before]) if before in led else moved(titles[now])
        yield SitePage(
            address=before,
            title=words.title,
            summary=words.summary,
            sort="List",
            crumbs=(Link(_("Home"), ""),),
            template="views/moved.html",
            view=MovedView(Link(titles[now], now)),
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
                crumbs=(Link(_("Home"), ""),),
                template="views/gone.html",
                view=GoneView(_why(entry, entry.page)),
                record=record,
            )


def with_the_past(site: Site, page: SitePage) -> SitePage:
    """A page with the anchors that its statements had before, and with the statements that stood on it once,
    each with the reason why it is gone."""
    formerly = site.former_anchors.get(page.address)
    entries = site.gone_on.get(page.address)
    if not formerly and not entries:
        return page
    gone = tuple((one.anchor, _why(one, page.address)) for one in entries or ())
    return replace(page, formerly=formerly or {}, gone=gone)


def _why(entry: GonePage, page: str) -> Markup:
    return markdown.to_html(entry.why, "../" * page.count("/"))


def on_gone_pages(register: Register, addresses_: Iterable[str]) -> set[str]:
    """Those addresses whose whole page is gone for a reason: it is found from every place on the page."""
    return {address for address in addresses_ if address.partition("#")[0] in register.gone}


def public(register: Register) -> list[str]:
    """The addresses of pages and statements in order; a segment of a series may move and is not promised."""
    statements = register.statements
    stand = {addresses.of_statement(s) for s in statements if _has_page(register, s)}
    for page, anchors in former_anchors(register).items():
        stand |= {f"{page}#{before}" for formerly in anchors.values() for before in formerly}
    stand |= register.gone.keys()
    pages = former_pages(register)
    before = defaultdict[str, list[str]](list)
    for former, now in pages.items():
        before[now].append(former)
    led_on = {
        f"{former}#{anchor}"
        for page, _, anchor in (one.partition("#") for one in stand)
        for former in before.get(page, ())
        if anchor
    }
    words = {addresses.of_caution(id_) for id_ in register.cautions}
    words |= {addresses.of_term(id_) for id_ in register.terms}
    return sorted({*of_today(register), *pages, *stand, *led_on, *words})


def _has_page(register: Register, statement: Statement) -> bool:
    record = statement.record
    if isinstance(record, PartRecord):
        part = register.parts.get(statement.number) if statement.number else None
        return part is not None and part.record is record
    return KINDS[record.kind].paged


def of_today(register: Register) -> Iterator[str]:
    """Where every page of today is, without making it."""
    yield from addresses.LISTS
    yield from (addresses.of_position(position) for position in register.positions.values())
    yield from map(addresses.of_series, (*register.series.values(), *register.retired_series.values()))
    yield from (addresses.of_questions(series) for series in register.series.values())
    yield from (addresses.of_part(key) for key in (*register.parts, *register.numbering.senses))
    yield from (entry.address for entry in register.gone.values() if not entry.anchor)
    yield from map(addresses.of_owner, owners_of(register))
    yield from addresses.sheets(register)
    for parts in (False, True):
        paths = addresses.with_keys(register, parts=parts)
        yield from (addresses.of_key(path, parts=parts) for path in paths)
    yield from (addresses.of_record(record) for record in register.records if KINDS[record.kind].paged)
