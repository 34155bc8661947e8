"""A position: what may occupy it, series by series; a group: the positions inside it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from spanbook.ground.language import gettext as _
from spanbook.reading.records import Positions
from spanbook.register.model import Position
from spanbook.site import addresses
from spanbook.site.arrangements import Drawing, drawings
from spanbook.site.common import Linked, Site, linked
from spanbook.site.each import Each
from spanbook.site.page import Link, SitePage
from spanbook.site.rows import RowsView, table_in_pieces
from spanbook.site.signs import PaperKey, paper_key
from spanbook.site.thumbnails import Apart, told_apart
from spanbook.site.views.at_position import AssemblyRow, SeriesChart, assembly_row, series_chart
from spanbook.site.views.place import of_series
from spanbook.site.ways import circuits_at
from spanbook.wording.fits import follows_words
from spanbook.wording.holding import HOLDING, WHICH_PART
from spanbook.wording.places import INSIDE, within_words
from spanbook.wording.summaries import position_summary


@dataclass(frozen=True, slots=True)
class PositionView:
    """Where charts would be too long there is what leads to places instead, and assemblies of no series."""

    where: str | None
    keys: tuple[Link, ...]
    follows: str | None
    within: Linked
    inside: str
    below: tuple[Link, ...]
    assemblies: tuple[AssemblyRow, ...]
    apart: tuple[Apart, ...]
    charts: tuple[SeriesChart, ...]
    places: RowsView | None
    conversions: tuple[Link, ...]
    circuits: tuple[Link, ...]
    drawings: tuple[Drawing, ...]
    paper: PaperKey | None


def _pages(site: Site, position: Position) -> Iterator[SitePage]:
    """A position, with pieces of the list of its series where that is too long."""
    page = _page(site, position)
    if page.view.places:
        places, pieces = table_in_pieces(page, page.view.places)
        yield from pieces
        page = replace(page, view=replace(page.view, places=places))
    yield page


EACH = Each(lambda site: site.register.positions.values(), addresses.of_position, _pages)


def _page(site: Site, position: Position) -> SitePage:
    line = site.position_links(position.path)
    assemblies = site.register.at_position.get(position.path, ())
    fitted = [(one, site.register.fittings_of(one)) for one in assemblies]
    cut = site.position_cut(position.path)
    return SitePage(
        address=addresses.of_position(position),
        title=position.title,
        summary=position_summary(site.register, position),
        sort=_("Position"),
        crumbs=(Link(_("Positions"), "positions/"), *line[:-1]),
        template="views/position.html",
        view=PositionView(
            where=position.where,
            keys=tuple(_keys(site, position)),
            follows=follows_words(position.follows) if position.follows else None,
            within=linked(within_words(site.register, position)),
            inside=_(INSIDE) if position.holds and position.below else "",
            below=tuple(site.position_links(path)[-1] for path in position.below),
            assemblies=tuple(assembly_row(site, one, spans) for one, spans in fitted if not (cut and spans)),
            apart=told_apart(site, assemblies),
            charts=tuple(_charts(site, position)) if position.holds and not cut else (),
            places=of_series(site, position.path) if cut else None,
            conversions=tuple(
                site.record_link(c) for c in site.register.conversions_at.get(position.path, ())
            ),
            circuits=tuple(site.record_link(one) for one in circuits_at(site, position.path)),
            drawings=tuple(drawings(site, position.path)),
            paper=paper_key(site, position.path),
        ),
        record=next(iter(site.register.of(Positions).values()), None),
        position=position.path,
        other_titles=position.also_called,
    )


def _keys(site: Site, position: Position) -> Iterator[Link]:
    """Where somebody is helped to find which of them he holds, or which of their parts."""
    for parts, words in ((False, HOLDING), (True, WHICH_PART)):
        if key := site.keys.get((position.path, parts)):
            yield Link(words.told().title, key)


def _charts(site: Site, position: Position) -> Iterator[SeriesChart]:
    for machine in site.register.machines.values():
        if position.path in site.answers.fits.positions(machine):
            for series in machine.series:
                yield series_chart(site, position, series)
