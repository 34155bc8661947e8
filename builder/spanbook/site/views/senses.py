"""A number that has meant several things: each of them with when, and what names it without telling which."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from spanbook.ground.part_numbers import PartKey
from spanbook.register.numbering import Sense
from spanbook.site import addresses
from spanbook.site.common import Site
from spanbook.site.page import Link, SitePage
from spanbook.wording.lists import PARTS
from spanbook.wording.numbers import reuse_words, senses_page
from spanbook.wording.pages import part_number


@dataclass(frozen=True, slots=True)
class SenseRow:
    part: Link
    when: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SensesView:
    senses: tuple[SenseRow, ...]
    unclear: tuple[Link, ...]


def pages(site: Site) -> Iterator[SitePage]:
    for key, senses in site.register.numbering.senses.items():
        yield _page(site, key, senses)


def _page(site: Site, key: PartKey, senses: tuple[Sense, ...]) -> SitePage:
    register = site.register
    unclear = register.parts.get(key)
    owner = register.makers.get(key.by, key.by)
    words = senses_page(senses[0].part.number, len(senses))
    return SitePage(
        address=addresses.of_part(key),
        title=words.title,
        summary=words.summary,
        sort=part_number(),
        crumbs=(Link(PARTS.told().title, "parts/"), Link(owner, addresses.of_owner(key.by))),
        template="views/senses.html",
        view=SensesView(
            tuple(_row(site, sense) for sense in senses),
            tuple(site.record_link(one) for one in unclear.records) if unclear else (),
        ),
        record=senses[0].part,
    )


def _row(site: Site, sense: Sense) -> SenseRow:
    link = Link(sense.part.title, site.record_link(sense.part).address)
    return SenseRow(link, tuple(reuse_words(site.register, one) for one in sense.part.reused))
