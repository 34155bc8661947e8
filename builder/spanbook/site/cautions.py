"""What a reader is told before the work, as pages show it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from markupsafe import Markup

from spanbook.reading.records import Assembly, Conversion, PartRecord, Publication
from spanbook.site import addresses, markdown
from spanbook.site.common import Site
from spanbook.site.page import Link


@dataclass(frozen=True, slots=True)
class CautionBox:
    title: str
    text: Markup
    follows: tuple[Publication, ...]
    address: str


@dataclass(frozen=True, slots=True)
class DeclinedLine:
    link: Link
    why: str


@dataclass(frozen=True, slots=True)
class CautionsShown:
    """What a reader is told before the work, and what the record says does not apply."""

    boxes: tuple[CautionBox, ...] = ()
    declined: tuple[DeclinedLine, ...] = ()


def cautions_of(site: Site, record: Assembly | PartRecord | Conversion, root: str) -> CautionsShown:
    """The cautions of a record, and those that it says do not apply."""
    declined = (DeclinedLine(_link(site, one.caution), one.why) for one in record.declined)
    return CautionsShown(cautions_by(site, record.cautions, root).boxes, tuple(declined))


def cautions_by(site: Site, ids: Iterable[str], root: str) -> CautionsShown:
    """Cautions by their ids, those that are known."""
    known = site.register.cautions
    return CautionsShown(tuple(site.once(_box, (id_, root)) for id_ in ids if id_ in known))


def _box(site: Site, told: tuple[str, str]) -> CautionBox:
    """A caution on pages as deep as each other, from which the same leads to the site's root."""
    id_, root = told
    caution, link = site.register.cautions[id_], _link(site, id_)
    return CautionBox(link.text, markdown.to_html(caution.text, root), caution.follows, link.address)


def _link(site: Site, id_: str) -> Link:
    return Link(site.register.cautions[id_].title, addresses.of_caution(id_))
