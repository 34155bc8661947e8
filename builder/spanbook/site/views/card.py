"""The page of the machine card: a place for one answer, and where to find it without a script."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from spanbook.ground.language import gettext as _
from spanbook.site import addresses, scripts
from spanbook.site.common import Site
from spanbook.site.flowing.tables import with_circuits
from spanbook.site.page import Link, SitePage
from spanbook.wording.card import words
from spanbook.wording.flow_here import HERE
from spanbook.wording.pages import CARD
from spanbook.wording.planning import TO_CARD_PLAN
from spanbook.wording.renewing import EVERYTHING
from spanbook.wording.spans import run_words
from spanbook.wording.stories import LOOKED
from spanbook.wording.strip_down import LOCAL_RULES


@dataclass(frozen=True, slots=True)
class SeriesRow:
    link: Link
    machine: str
    run: str


@dataclass(frozen=True, slots=True)
class CardView:
    words: Mapping[str, str]
    looked: tuple[str, ...]
    series: tuple[SeriesRow, ...]
    add: str
    renew: str
    local_rules: str
    flow: str
    circuits: str
    plan: Link | None
    script: str = scripts.CARD


def pages(site: Site) -> Iterator[SitePage]:
    series = tuple(
        SeriesRow(site.series_link(s), site.machine_of(s).title, run_words(s))
        for s in site.register.series.values()
    )
    named = CARD.told()
    yield SitePage(
        address=addresses.CARD,
        title=named.title,
        summary=named.summary,
        sort="List",
        crumbs=(Link(_("Series"), addresses.SERIES),),
        template="views/card.html",
        view=CardView(
            words(),
            tuple(map(_, LOOKED.values())),
            series,
            addresses.REPORT,
            _(EVERYTHING),
            _(LOCAL_RULES),
            _(HERE),
            " ".join(one.id for one in with_circuits(site)),
            Link(_(TO_CARD_PLAN), addresses.PLAN) if site.register.conversions else None,
        ),
    )
