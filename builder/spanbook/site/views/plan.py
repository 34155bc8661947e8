"""The page on which a conversion is planned: a place for one plan, and where to look without a script."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from spanbook.site import addresses, scripts
from spanbook.site.common import Site
from spanbook.site.page import Link, SitePage
from spanbook.wording.planning import ALL, COPY, HAVE, PLAN, SERIAL, UNREAD, USE, WANT, WITHOUT
from spanbook.wording.strip_down import LOCAL_RULES


@dataclass(frozen=True, slots=True)
class PlanView:
    every: Link
    unread: str = UNREAD
    without: str = WITHOUT
    want: str = WANT
    have: str = HAVE
    copy: str = COPY
    serial: str = SERIAL
    use: str = USE
    local_rules: str = LOCAL_RULES
    script: str = scripts.PLANNING


def pages(_: Site) -> Iterator[SitePage]:
    yield SitePage(
        address=addresses.PLAN,
        title=PLAN.title,
        summary=PLAN.summary,
        sort="List",
        crumbs=(),
        template="views/plan.html",
        view=PlanView(Link(ALL, "conversions/")),
    )
