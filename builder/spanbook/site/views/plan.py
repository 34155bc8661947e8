"""The page on which a conversion is planned: a place for one plan, and where to look without a script."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from spanbook.ground.language import gettext as _
from spanbook.site import addresses, scripts
from spanbook.site.common import Site
from spanbook.site.page import Link, SitePage
from spanbook.wording.planning import ALL, COPY, HAVE, PLAN, SERIAL, UNREAD, USE, WANT, WITHOUT
from spanbook.wording.strip_down import LOCAL_RULES


@dataclass(frozen=True, slots=True)
class PlanView:
    every: Link
    unread: str
    without: str
    want: str
    have: str
    copy: str
    serial: str
    use: str
    local_rules: str
    script: str = scripts.PLANNING


def pages(_site: Site) -> Iterator[SitePage]:
    yield SitePage(
        address=addresses.PLAN,
        title=PLAN.told().title,
        summary=PLAN.told().summary,
        sort="List",
        crumbs=(),
        template="views/plan.html",
        view=PlanView(
            every=Link(_(ALL), "conversions/"),
            unread=_(UNREAD),
            without=_(WITHOUT),
            want=_(WANT),
            have=_(HAVE),
            copy=_(COPY),
            serial=_(SERIAL),
            use=_(USE),
            local_rules=_(LOCAL_RULES),
        ),
    )
