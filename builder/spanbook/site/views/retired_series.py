"""A series that is retired: its page, and what stands of it on the page of its machine."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from spanbook.ground.language import gettext as _
from spanbook.ground.language import pgettext
from spanbook.reading.records import Machine, Series
from spanbook.register.statements import BuiltAt, Dating
from spanbook.site import addresses, markdown
from spanbook.site.common import Linked, Site, Trust, linked
from spanbook.site.page import Link, SitePage
from spanbook.site.trust import trust
from spanbook.wording.retired import retired_series_words, retired_summary
from spanbook.wording.spans import run_words


@dataclass(frozen=True, slots=True)
class RetiredView:
    """A series from which nothing is answered any more, and what it leads on to.

    `below` are the anchors of what was said of its years and its plants.
    """

    anchor: str
    below: tuple[str, ...]
    link: Link
    machine: Link
    told: Linked
    stamp: str
    run: str
    plate: str
    where: str | None
    trust: Trust
    notes: Markup | None


def pages(site: Site) -> Iterator[SitePage]:
    for machine in site.register.machines.values():
        for series in machine.retired_series:
            yield _page(site, machine, series)


def _page(site: Site, machine: Machine, series: Series) -> SitePage:
    address = addresses.of_series(series)
    view = retired_view(site, machine, series, "../" * address.count("/"))
    return SitePage(
        address=address,
        title=f"{machine.title}, {series.name}",
        summary=retired_summary(machine, series),
        sort=pgettext("one", "Series"),
        crumbs=(Link(_("Machines"), "machines/"), site.record_link(machine)),
        template="views/retired_series.html",
        view=view,
        record=machine,
    )


def retired_view(site: Site, machine: Machine, series: Series, root: str) -> RetiredView:
    said = ((one.subject, one.anchor) for one in site.register.statements_of[machine])
    return RetiredView(
        anchor=site.register.said[series].anchor,
        below=tuple(
            anchor
            for subject, anchor in said
            if isinstance(subject, Dating | BuiltAt) and subject.series is series
        ),
        link=site.series_link(series),
        machine=site.record_link(machine),
        told=linked(retired_series_words(site.register, series)),
        stamp=series.stamp.show(series.first),
        run=run_words(series),
        plate=series.plate,
        where=series.where,
        trust=trust(site, series),
        notes=markdown.to_html(series.notes, root) if series.notes else None,
    )
