"""A part number: what it is, where it goes, what replaces it, and who has seen it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import count

from markupsafe import Markup

from spanbook.answers.listed import at_line
from spanbook.ground.language import gettext as _
from spanbook.reading.records import Mark, PartRecord, Size
from spanbook.register.model import Part
from spanbook.register.statements import Measurement, Supply, Use
from spanbook.site import addresses, markdown, scripts
from spanbook.site.acts_picture import Picture, picture
from spanbook.site.cautions import CautionsShown, cautions_of
from spanbook.site.common import Site, Trust, part_link
from spanbook.site.each import Each
from spanbook.site.figures.figure import FigureView, figures
from spanbook.site.numbers import NumbersView, numbers_of
from spanbook.site.ordering import Ordered, of_part
from spanbook.site.page import Link, SitePage
from spanbook.site.same_size import SameSize, same_size
from spanbook.site.signs import SignLine, sign_lines
from spanbook.site.thumbnails import Place, places
from spanbook.site.trust import telling, trust
from spanbook.site.which.tables import goes_by_machine, table_of
from spanbook.wording.lists import PARTS
from spanbook.wording.order_here import ASK, SERIAL, USE
from spanbook.wording.pages import part_number
from spanbook.wording.records import ONLY_IN_SET, SUPPLIED, size_ends, size_rest, size_title
from spanbook.wording.spans import span_words
from spanbook.wording.summaries import part_summary


@dataclass(frozen=True, slots=True)
class UseRow:
    assembly: Link
    position: Link
    quantity: int
    spans: tuple[str, ...]
    only: tuple[str, ...]
    instead: tuple[Link, ...]
    either: tuple[Link, ...]
    note: str | None
    for_number: Link | None


@dataclass(frozen=True, slots=True)
class SizeRow:
    """`ends` are the size, or the two it lies between, each with its UCUM code for programs."""

    what: str
    ends: tuple[tuple[str, str | None], ...]
    rest: str


@dataclass(frozen=True, slots=True)
class SizeSaid(SizeRow):
    """A size that a part's own record states."""

    anchor: str
    trust: Trust


@dataclass(frozen=True, slots=True)
class Which:
    """What is asked where the order goes by the machine, and the table that answers."""

    table: str
    ask: str
    serial: str
    use: str
    script: str = scripts.WHICH


@dataclass(frozen=True, slots=True)
class PartView:
    number: str
    name: str
    numbers: NumbersView
    other_names: tuple[str, ...]
    owner: str
    supplier: bool
    whole: tuple[Link, ...]
    uses: tuple[UseRow, ...]
    places: tuple[Place, ...]
    figures: tuple[FigureView, ...]
    ordered: Ordered
    which: Which | None
    picture: Picture | None
    replaces: tuple[Link, ...]
    needed_in: tuple[Link, ...]
    conversions: tuple[Link, ...]
    teardowns: tuple[Link, ...]
    mentioned: tuple[Link, ...]
    marks: tuple[Mark, ...]
    tell: tuple[str, ...]
    material: str | None
    sizes: tuple[SizeSaid, ...]
    same_size: SameSize | None
    supplied: str
    supplied_by: str | None
    supply_trust: Trust | None
    tell_trust: Trust | None
    signs: tuple[SignLine, ...]
    trust: Trust | None
    cautions: CautionsShown
    notes: Markup | None


def _pages(site: Site, part: Part) -> Iterator[SitePage]:
    # What a number means that has meant several things is told on a page of their own.
    if part.key not in site.register.numbering.senses:
        yield _page(site, part)


EACH = Each(lambda site: site.register.parts.values(), lambda part: addresses.of_part(part.key), _pages)


def _page(site: Site, part: Part) -> SitePage:
    address = addresses.of_part(part.key)
    owner = site.register.makers.get(part.key.by, part.key.by)
    return SitePage(
        address=address,
        title=f"{part.number} {part.name}".strip(),
        summary=part_summary(part, owner),
        sort=part_number(),
        crumbs=(Link(PARTS.told().title, "parts/"), Link(owner, addresses.of_owner(part.key.by))),
        template="views/part.html",
        view=_view(site, part, owner, "../" * address.count("/")),
        record=part.records[0],  # where the number is written of
        of_part=part.record,
    )


def _view(site: Site, part: Part, owner: str, root: str) -> PartView:
    record = part.record
    ordered = of_part(site, part)
    return PartView(
        number=part.number,
        name=part.name,
        numbers=numbers_of(site, part),
        other_names=part.names[1:],
        owner=owner,
        supplier=part.key.by not in site.register.makers,
        whole=tuple(site.record_link(r) for r in part.whole),
        uses=tuple(_uses(site, part)),
        places=places(site, part),
        figures=tuple(figures(site, ((one, record, None) for one in record.figures), count(1)))
        if record
        else (),
        ordered=ordered,
        which=Which(table_of(part), _(ASK), _(SERIAL), _(USE)) if goes_by_machine(site, part) else None,
        picture=picture(site.register, site.answers.ordering.following.years, part.key),
        replaces=tuple(site.record_link(act) for act in part.new_in),
        needed_in=tuple(site.record_link(act) for act in part.needed_in),
        conversions=tuple(site.record_link(c) for c in part.conversions),
        teardowns=tuple(site.record_link(t) for t in part.teardowns),
        mentioned=tuple(site.record_link(r) for r in part.mentioned),
        marks=record.marks if record else (),
        tell=record.tell if record else (),
        material=record.material if record else None,
        sizes=tuple(_sizes(site, record)) if record else (),
        same_size=same_size(site, record.sizes) if record else None,
        supplied=_supplied(record),
        supplied_by=record.supplier if record else None,
        supply_trust=_supply(site, record) if record else None,
        tell_trust=telling(site, record) if record else None,
        signs=sign_lines(site, record) if record else (),
        trust=trust(site, record) if record else None,
        cautions=cautions_of(site, record, root) if record else CautionsShown(),
        notes=markdown.to_html(record.notes, root) if record and record.notes else None,
    )


def _uses(site: Site, part: Part) -> Iterator[UseRow]:
    """Where the number goes, and where those go that it replaces."""
    waiting, seen = [part], {part}
    for at in waiting:
        for use in at.uses:
            yield _use(site, use, None if at is part else part_link(at))
        for old in site.replaced_by(at):
            if old not in seen:
                seen.add(old)
                waiting.append(old)


def _use(site: Site, use: Use, for_number: Link | None) -> UseRow:
    lists = site.answers.fits.lists
    one = at_line(lists, use)
    known = site.register.parts
    only = (span_words(limit.span, limit.series) for limit in one.line.limits)
    return UseRow(
        assembly=site.record_link(use.assembly),
        position=site.position_links(use.assembly.position)[-1],
        quantity=use.quantity,
        spans=site.spans_told(use.assembly),
        only=tuple(dict.fromkeys(only)),
        instead=tuple(part_link(known[key]) for other in one.instead for key in other.line.keys),
        either=tuple(part_link(known[key]) for key in one.either),
        note=use.said.note,
        for_number=for_number,
    )


def _sizes(site: Site, record: PartRecord) -> Iterator[SizeSaid]:
    for statement in site.register.statements_of[record]:
        if isinstance(subject := statement.subject, Measurement):
            row = size_row(subject.size)
            yield SizeSaid(row.what, row.ends, row.rest, statement.anchor, trust(site, subject))


def _supply(site: Site, record: PartRecord) -> Trust | None:
    said = (statement.subject for statement in site.register.statements_of[record])
    return next((trust(site, subject) for subject in said if isinstance(subject, Supply)), None)


def _supplied(record: PartRecord | None) -> str:
    if record and record.only_in:
        return _(ONLY_IN_SET)
    return _(SUPPLIED[record.supplied if record else "unknown"])


def size_row(size: Size) -> SizeRow:
    """A measurement in its own unit and in the other system's."""
    return SizeRow(size_title(size), size_ends(size), size_rest(size))
