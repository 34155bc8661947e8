"""A conversion: what it makes of what, on which machines, and what it needs elsewhere."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from spanbook.answers.conversions import difference
from spanbook.ground.language import gettext as _
from spanbook.reading.records import Conversion
from spanbook.site import addresses, markdown
from spanbook.site.cautions import CautionsShown, cautions_of
from spanbook.site.common import Linked, PartLine, Site, Trust, part_link
from spanbook.site.each import Each
from spanbook.site.page import Link, SitePage
from spanbook.site.trust import trust
from spanbook.wording.conversions import change_words, from_words, must_words, offered_words
from spanbook.wording.lines import on_some
from spanbook.wording.planning import TO_PLAN
from spanbook.wording.spans import span_words
from spanbook.wording.summaries import conversion_summary


@dataclass(frozen=True, slots=True)
class NeedLine:
    position: Link
    must: str
    assemblies: tuple[Link, ...]
    why: str


@dataclass(frozen=True, slots=True)
class SideRow:
    """A part number before and after: how many there are of it, and whether it is added, removed or kept."""

    link: Link
    name: str
    before: int
    after: int
    change: str


@dataclass(frozen=True, slots=True)
class Side:
    """One assembly it may start from beside the one it makes."""

    start: Link
    rows: tuple[SideRow, ...]


@dataclass(frozen=True, slots=True)
class ConversionView:
    position: tuple[Link, ...]
    number: Link | None
    start: tuple[Link, ...]
    to: Link
    spans: tuple[tuple[Link, str], ...]
    coverage: tuple[Linked, ...]
    adds: tuple[PartLine, ...]
    removes: tuple[PartLine, ...]
    also: tuple[tuple[Link, str, Link], ...]
    takes: tuple[tuple[Link, PartLine], ...]
    sides: tuple[Side, ...]
    needs: tuple[NeedLine, ...]
    offered: str
    plan: Link
    cautions: CautionsShown
    trust: Trust
    notes: Markup | None


def _pages(site: Site, conversion: Conversion) -> Iterator[SitePage]:
    yield _page(site, conversion)


EACH = Each(lambda site: site.register.conversions.values(), addresses.of_record, _pages)


def _page(site: Site, conversion: Conversion) -> SitePage:
    address = addresses.of_record(conversion)
    position = site.position_links(conversion.position)
    return SitePage(
        address=address,
        title=conversion.title,
        summary=conversion_summary(site.register, conversion),
        sort=_("Conversion"),
        crumbs=(Link(_("Conversions"), "conversions/"), *position),
        template="views/conversion.html",
        view=_view(site, conversion, "../" * address.count("/")),
        record=conversion,
        position=conversion.position,
    )


def _spans(site: Site, conversion: Conversion) -> Iterator[tuple[Link, str]]:
    for span in conversion.serials:
        series = site.register.series[span.series]
        yield site.series_link(series), span_words(span, series)


def _view(site: Site, conversion: Conversion, root: str) -> ConversionView:
    register = site.register
    whole = register.key_of_whole(conversion)
    return ConversionView(
        position=site.position_links(conversion.position),
        number=part_link(register.parts[whole], conversion.number) if whole else None,
        start=tuple(site.record_link(register.assemblies[id_]) for id_ in conversion.start),
        to=site.record_link(register.assemblies[conversion.to]),
        spans=tuple(_spans(site, conversion)),
        coverage=(*site.shortfalls(conversion), *site.beyond(conversion)),
        adds=site.part_lines(conversion, conversion.adds),
        removes=site.part_lines(conversion, conversion.removes),
        also=tuple(
            (
                site.position_links(change.position)[-1],
                from_words(register, change),
                site.record_link(register.assemblies[change.to]),
            )
            for change in conversion.also
        ),
        takes=tuple(
            (site.position_links(taken.position)[-1], site.part_line(conversion, taken.use))
            for taken in conversion.takes
        ),
        sides=tuple(_side(site, id_, conversion.to) for id_ in conversion.start),
        needs=tuple(
            NeedLine(
                site.position_links(need.position)[-1],
                must_words(need),
                tuple(site.record_link(register.assemblies[id_]) for id_ in need.assemblies),
                need.why,
            )
            for need in conversion.needs
        ),
        offered=offered_words(conversion),
        plan=Link(_(TO_PLAN), addresses.to_plan(conversion)),
        cautions=cautions_of(site, conversion, root),
        trust=trust(site, conversion),
        notes=markdown.to_html(conversion.notes, root) if conversion.notes else None,
    )


def _side(site: Site, start: str, to: str) -> Side:
    """The parts lists of two assemblies side by side; what changes comes first."""
    register = site.register
    before, after = register.assemblies[start], register.assemblies[to]
    found = difference(register, before, after)
    added, removed, kept = dict(found.added), dict(found.removed), dict(found.kept)
    known = site.answers.fits.lists
    some = {
        key
        for one in (before, after)
        for place in known.places(one)
        for line in place.lines
        if line.limited
        for key in line.keys
    }
    rows = []
    for key in dict.fromkeys((*added, *removed, *kept)):
        part = register.parts[key]
        old = removed.get(key, 0) + kept.get(key, 0)
        new = added.get(key, 0) + kept.get(key, 0)
        name = on_some(part.name) if key in some else part.name
        rows.append(SideRow(part_link(part), name, old, new, change_words(old, new)))
    return Side(site.record_link(before), tuple(rows))
