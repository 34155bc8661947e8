"""A supersession: the old numbers, the new ones, and on what terms."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from spanbook.ground.language import gettext as _
from spanbook.reading.records import ActNeed, Supersession
from spanbook.site import addresses, markdown
from spanbook.site.common import Linked, PartLine, Site, Trust
from spanbook.site.each import Each
from spanbook.site.page import Link, SitePage
from spanbook.site.trust import trust
from spanbook.wording.records import ALTERNATIVE, INTERCHANGE, act_title, ended_words
from spanbook.wording.spans import span_words
from spanbook.wording.summaries import act_summary
from spanbook.wording.years import year_words


@dataclass(frozen=True, slots=True)
class NeedLine:
    part: PartLine | None
    conversion: Link | None
    why: str | None


@dataclass(frozen=True, slots=True)
class SupersessionView:
    old: tuple[PartLine, ...]
    new: tuple[PartLine, ...]
    ended: str
    alternative: str
    interchange: str
    spans: tuple[str, ...]
    short: tuple[Linked, ...]
    needs: tuple[NeedLine, ...]
    year: str
    trust: Trust
    notes: Markup | None


def _pages(site: Site, act: Supersession) -> Iterator[SitePage]:
    yield _page(site, act)


EACH = Each(lambda site: site.register.supersessions.values(), addresses.of_record, _pages)


def _page(site: Site, act: Supersession) -> SitePage:
    address = addresses.of_record(act)
    root = "../" * address.count("/")
    title = act_title(act)
    series = site.register.series
    spans = tuple(span_words(span, series[span.series]) for span in act.serials)
    return SitePage(
        address=address,
        title=title,
        summary=act_summary(site.register, act),
        sort=_("Supersession"),
        crumbs=(Link(_("Supersessions"), "supersessions/"),),
        template="views/supersession.html",
        view=SupersessionView(
            old=site.part_lines(act, act.old),
            new=site.part_lines(act, act.new),
            ended=ended_words(act),
            alternative=_(ALTERNATIVE) if act.alternative else "",
            interchange=_(INTERCHANGE[act.interchange]),
            spans=spans,
            short=site.shortfalls(act),
            needs=tuple(_need(site, act, need) for need in act.needs),
            year=year_words(act.year),
            trust=trust(site, act),
            notes=markdown.to_html(act.notes, root) if act.notes else None,
        ),
        record=act,
    )


def _need(site: Site, act: Supersession, need: ActNeed) -> NeedLine:
    part = site.part_lines(act, [need.part])[0] if need.part else None
    conversion = site.register.conversions[need.conversion] if need.conversion else None
    return NeedLine(part, site.record_link(conversion) if conversion else None, need.why)
