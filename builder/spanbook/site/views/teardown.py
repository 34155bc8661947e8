"""A teardown: what somebody saw on one machine, beside what the records say of that machine."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import count
from urllib.parse import urlencode

from markupsafe import Markup

from spanbook.answers.meaning import meaning
from spanbook.answers.readings import Reading
from spanbook.answers.signs_seen import SeenOn, seen_in
from spanbook.ground.language import gettext as _
from spanbook.reading.records import Find, Mark, Teardown
from spanbook.site import addresses, markdown
from spanbook.site.common import Linked, PartLine, Site, linked, part_link
from spanbook.site.each import Each
from spanbook.site.figures.figure import FigureView, figures
from spanbook.site.page import Link, SitePage
from spanbook.site.same_size import SameSize, same_sizes
from spanbook.site.views.part import SizeRow, size_row
from spanbook.site.views.source import CitedLine, cited_lines
from spanbook.wording.fits import segment_words, state_word
from spanbook.wording.pieces import plain
from spanbook.wording.records import CONDITIONS, date_words, seen_title
from spanbook.wording.signs import MAY_BE, seen_otherwise_words
from spanbook.wording.summaries import teardown_summary
from spanbook.wording.this_machine import found_refs, meaning_words


@dataclass(frozen=True, slots=True)
class SignSeenLine:
    """A sign and what was seen of it, on which part; `otherwise` is what is recorded, where that differs."""

    asks: str
    part: Link | None
    seen: str
    otherwise: str


@dataclass(frozen=True, slots=True)
class FindView:
    """`records` is what the records say is there, `agrees` whether that is what was found."""

    position: tuple[Link, ...]
    held: Linked
    condition: str
    note: str | None
    parts: tuple[PartLine, ...]
    marks: tuple[Mark, ...]
    measurements: tuple[SizeRow, ...]
    same_sizes: tuple[SameSize, ...]
    signs: tuple[SignSeenLine, ...]
    key: Link | None
    photographs: tuple[FigureView, ...]
    state: str | None
    records: str | None
    agrees: str


@dataclass(frozen=True, slots=True)
class TeardownView:
    serial: str
    machines: tuple[Link, ...]
    unit: Link | None
    date: str
    seen_by: str
    condition: str
    licence: str | None
    found: tuple[FindView, ...]
    cited: tuple[CitedLine, ...]
    notes: Markup | None


def _pages(site: Site, teardown: Teardown) -> Iterator[SitePage]:
    yield _page(site, teardown)


EACH = Each(lambda site: site.register.teardowns.values(), addresses.of_record, _pages)


def _page(site: Site, teardown: Teardown) -> SitePage:
    address = addresses.of_record(teardown)
    root = "../" * address.count("/")
    return SitePage(
        address=address,
        title=seen_title(teardown),
        summary=teardown_summary(site.register, teardown),
        sort=_("Teardown"),
        crumbs=(Link(_("Teardowns"), "teardowns/"),),
        template="views/teardown.html",
        view=_view(site, teardown, root),
        record=teardown,
    )


def _view(site: Site, teardown: Teardown, root: str) -> TeardownView:
    found = site.answers.fits.possible(teardown)
    reading = site.answers.fits.reading(teardown)
    numbers = count(1)
    return TeardownView(
        serial=teardown.serial,
        machines=tuple(site.series_link(may_be.series) for may_be in found),
        unit=site.record_link(reading.unit) if reading and reading.unit else None,
        date=date_words(teardown.date),
        seen_by=teardown.seen_by,
        condition=_(CONDITIONS[teardown.condition]),
        licence=teardown.licence,
        found=tuple(_find(site, teardown, find, reading, numbers) for find in teardown.found),
        cited=tuple(cited_lines(site, teardown)),
        notes=markdown.to_html(teardown.notes, root) if teardown.notes else None,
    )


def _find(
    site: Site, teardown: Teardown, find: Find, reading: Reading | None, numbers: Iterator[int]
) -> FindView:
    there = site.answers.fits.at(reading, find.position) if reading else None
    return FindView(
        position=site.position_links(find.position),
        held=linked(tuple(found_refs(site.register, find))),
        condition=_(CONDITIONS[find.condition]),
        note=find.note,
        parts=site.part_lines(teardown, find.parts),
        marks=find.marks,
        measurements=tuple(size_row(size) for size in find.measurements),
        same_sizes=tuple(same_sizes(site, find.measurements)),
        signs=tuple(_sign(site, one) for one in seen_in(site.register, teardown, find)),
        key=_key(site, teardown, find),
        photographs=tuple(figures(site, ((one, teardown, None) for one in find.photographs), numbers)),
        state=state_word(there.state) if there else None,
        records=segment_words(there.segment) if there else None,
        agrees=_agreement(site, reading, find),
    )


def _sign(site: Site, one: SeenOn) -> SignSeenLine:
    signs, seen = site.register.signs, one.seen
    asks = signs[seen.sign].asks if seen.sign in signs else seen.sign
    key = site.register.numbering.of(one.teardown, None, seen.number, seen.means) if seen.number else None
    part = part_link(site.register.parts[key]) if key else None
    return SignSeenLine(asks, part, seen.seen, seen_otherwise_words(one))


def _key(site: Site, teardown: Teardown, find: Find) -> Link | None:
    """What it may be by the signs that were seen, where nobody could name it."""
    signs = {seen.sign: seen.seen for seen in find.signs if not seen.number}
    key = site.keys.get((find.position, False))
    if not signs or find.assembly or not key:
        return None
    return Link(_(MAY_BE), f"{key}?{urlencode(signs | {'serial': teardown.serial})}")


def _agreement(site: Site, reading: Reading | None, find: Find) -> str:
    """How a find stands to the records; empty where the number cannot be read or nothing is named."""
    if reading is None or not find.named:
        return ""
    return plain(meaning_words(meaning(site.answers.judge, find, reading), find))
