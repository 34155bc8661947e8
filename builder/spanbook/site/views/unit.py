"""A unit: one individual machine, all its numbers, and everything that is known of it on one page."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from markupsafe import Markup

from spanbook.answers.question_anchor import anchor
from spanbook.answers.this_machine import ThisMachine, ThisPosition
from spanbook.ground.language import gettext as _
from spanbook.reading.fields import title_of
from spanbook.reading.records import Unit
from spanbook.register.statements import Bears, Statement
from spanbook.site import addresses, markdown
from spanbook.site.card.units import reading_of
from spanbook.site.common import Linked, Site, Trust, linked
from spanbook.site.each import Each
from spanbook.site.finder.results import card_address
from spanbook.site.page import Link, SitePage
from spanbook.site.trust import trust
from spanbook.wording.questions import question_words
from spanbook.wording.this_machine import badge_words, looks, sections, short_words
from spanbook.wording.units import CARD, borne_words, unit_summary


@dataclass(frozen=True, slots=True)
class NumberRow:
    """A number with its series and its card; `words` say on which plate it is and since when."""

    anchor: str
    words: str
    series: Link | None
    card: Link | None
    note: str | None
    trust: Trust


@dataclass(frozen=True, slots=True)
class PlaceRow:
    """A position: the shortest answer and how well it is known; then everything, under its headings."""

    link: Link
    short: str
    known: str
    word: str
    meaning: str
    sections: tuple[tuple[str, tuple[Linked, ...]], ...]


@dataclass(frozen=True, slots=True)
class UnitView:
    machine: Link
    numbers: tuple[NumberRow, ...]
    looks: tuple[Linked, ...]
    groups: tuple[tuple[str, tuple[PlaceRow, ...]], ...]
    questions: tuple[Link, ...]
    notes: Markup | None


def _pages(site: Site, unit: Unit) -> Iterator[SitePage]:
    reading = reading_of(site, unit)
    known = site.answers.machines.of(reading) if reading else None
    yield SitePage(
        address=addresses.of_record(unit),
        title=unit.title,
        summary=unit_summary(reading, site.register) if reading else unit.title,
        sort=title_of("unit"),
        crumbs=(Link(_("Units"), "units/"),),
        template="views/unit.html",
        view=_view(site, unit, known),
        record=unit,
    )


EACH = Each(lambda site: site.register.unit_records.values(), addresses.of_record, _pages)


def _view(site: Site, unit: Unit, known: ThisMachine | None) -> UnitView:
    return UnitView(
        machine=site.record_link(site.register.machines[unit.machine]),
        numbers=tuple(_number(site, unit, statement) for statement in site.register.statements_of[unit]),
        looks=tuple(linked(words) for words in looks(site.register, known)) if known else (),
        groups=tuple(_groups(site, known)) if known else (),
        questions=tuple(
            Link(question_words(site.register, one), f"{addresses.of_questions(one.series)}#{anchor(one)}")
            for one in (known.questions if known else ())
        ),
        notes=markdown.to_html(unit.notes, "../" * addresses.of_record(unit).count("/"))
        if unit.notes
        else None,
    )


def _number(site: Site, unit: Unit, statement: Statement) -> NumberRow:
    assert isinstance(statement.subject, Bears), "a unit says nothing else"
    typed = statement.subject.number
    borne = next((one for one in site.register.units.numbers[unit] if one.typed is typed), None)
    return NumberRow(
        anchor=statement.anchor,
        words=borne_words(borne) if borne else typed.serial,
        series=site.series_link(borne.number.series) if borne else None,
        card=Link(_(CARD), card_address(borne.number.shown)) if borne else None,
        note=typed.note,
        trust=trust(site, statement.subject),
    )


def _groups(site: Site, known: ThisMachine) -> Iterator[tuple[str, tuple[PlaceRow, ...]]]:
    for name, places in groupby(known.positions, key=lambda place: site.groups_of(place.position)):
        yield name, tuple(_place(site, place) for place in places)


def _place(site: Site, place: ThisPosition) -> PlaceRow:
    word, meaning = badge_words(place)
    return PlaceRow(
        link=site.position_links(place.position)[-1],
        short=short_words(site.register, place),
        known=str(place.known),
        word=word,
        meaning=meaning,
        sections=tuple(
            (heading, tuple(linked(line) for line in lines))
            for heading, lines in sections(site.register, place)
        ),
    )
