"""What stands at addresses that records once had, and on their pages of what stood there once."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from markupsafe import Markup

from spanbook.ground.language import gettext as _
from spanbook.reading.records import Gone, GonePage
from spanbook.register.led import led_numbers
from spanbook.site import addresses, markdown
from spanbook.site.common import Site
from spanbook.site.page import Link, SitePage
from spanbook.wording.numbers import led_page
from spanbook.wording.pages import gone, moved


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
