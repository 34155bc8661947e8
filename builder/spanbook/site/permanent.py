"""Every address that the site promises to keep."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator

from spanbook.reading.kinds import KINDS
from spanbook.reading.records import PartRecord
from spanbook.register.led import owners_of
from spanbook.register.model import Register
from spanbook.register.statements import Statement
from spanbook.site import addresses
from spanbook.site.former import former_anchors, former_pages

LIST = "addresses.txt"


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
