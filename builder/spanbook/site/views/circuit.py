"""A circuit: which way it goes through each arrangement that left the works, and what a fault does."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from markupsafe import Markup

from spanbook.answers.flow.routes import routes, served
from spanbook.ground.language import gettext as _
from spanbook.ground.punctuation import labelled
from spanbook.reading.records import Circuit
from spanbook.site import addresses, cutting, markdown
from spanbook.site.arrangements import StateView, Told, arrangements, states
from spanbook.site.common import Linked, Site, Trust, linked
from spanbook.site.each import Each
from spanbook.site.page import Link, SitePage
from spanbook.site.rows import piece_address
from spanbook.site.trust import trust
from spanbook.site.ways import WayLine, way_lines
from spanbook.wording.flow import BANDS, circuit_summary, medium_words, run_of_words, worked_out_words
from spanbook.wording.flow_here import ONLY_AFTER, converted_words
from spanbook.wording.flow_ways import lacking_words, route_words, served_words


@dataclass(frozen=True, slots=True)
class ArrangementView:
    """`apart` leads to it, where the page of its circuit would be too long with all of them."""

    anchor: str
    title: str
    runs: tuple[str, ...]
    after: tuple[Linked, ...]
    fitted: tuple[Link, ...]
    lacking: tuple[str, ...]
    served: tuple[str, ...]
    routes: tuple[str, ...]
    states: tuple[StateView, ...]
    apart: Link | None = None


@dataclass(frozen=True, slots=True)
class CircuitView:
    machine: Link
    medium: str
    arrangements: tuple[ArrangementView, ...]
    ways: tuple[WayLine, ...]
    worked_out: str
    bands: str
    only_after: str
    trust: Trust
    notes: Markup | None


@dataclass(frozen=True, slots=True)
class ApartView:
    """One arrangement, on a page of its own."""

    arrangement: ArrangementView
    worked_out: str
    bands: str
    only_after: str


def _pages(site: Site, circuit: Circuit) -> Iterator[SitePage]:
    """A circuit; one too long for a telephone leads to its arrangements, each on a page of its own."""
    address = addresses.of_record(circuit)
    told = tuple(_arrangement(site, one) for one in arrangements(site, circuit))
    if sum(map(_size, told)) > cutting.BOUND:
        told = tuple(_apart(address, n, one) for n, one in enumerate(told, 1))
    page = SitePage(
        address=address,
        title=circuit.title,
        summary=circuit_summary(site.register, circuit),
        sort=_("Circuit"),
        crumbs=(Link(_("Circuits"), "circuits/"),),
        template="views/circuit.html",
        view=_view(site, circuit, told, "../" * address.count("/")),
        record=circuit,
    )
    yield page
    for one in told:
        if one.apart:
            yield replace(
                page,
                address=one.apart.address,
                title=labelled(page.title, one.title),
                crumbs=(*page.crumbs, Link(page.title, address)),
                template="views/arrangement.html",
                view=ApartView(one, page.view.worked_out, page.view.bands, page.view.only_after),
                piece_of=f"{address}#{one.anchor}",
            )


EACH = Each(lambda site: site.register.of(Circuit).values(), addresses.of_record, _pages)


def _apart(page: str, n: int, one: ArrangementView) -> ArrangementView:
    # By its number: what it is called by its parts is too long for a folder.
    return replace(one, apart=Link(one.title, piece_address(page, n)))


def _size(one: ArrangementView) -> int:
    """About how many bytes an arrangement takes."""
    return 900 + sum(map(_state_size, one.states))


def _state_size(state: StateView) -> int:
    texts = (*state.lines, *state.faults, *state.measure, *state.inputs, state.running, state.rests)
    drawn = 0
    if picture := state.picture:
        drawn = 500 + 120 * len(picture.bands) + 60 * len(picture.lines) + 50 * len(picture.places)
        drawn += sum(210 + len(one.outline) + len(one.strokes) for one in picture.signs)
    return 600 + drawn + sum(len(text) + 12 for text in texts)


def _view(site: Site, circuit: Circuit, told: tuple[ArrangementView, ...], root: str) -> CircuitView:
    return CircuitView(
        machine=site.record_link(site.register.machines[circuit.machine]),
        medium=medium_words(circuit),
        arrangements=told,
        ways=way_lines(site, circuit),
        worked_out=worked_out_words(circuit),
        bands=_(BANDS),
        only_after=_(ONLY_AFTER),
        trust=trust(site, circuit),
        notes=markdown.to_html(circuit.notes, root) if circuit.notes else None,
    )


def _arrangement(site: Site, one: Told) -> ArrangementView:
    arranged, whole = one.arranged, one.arranged.whole
    told = (served_words(each, arranged) for each in served(arranged))
    return ArrangementView(
        anchor=addresses.anchor_of(arranged),
        title=one.title,
        runs=tuple(run_of_words(run) for run in one.runs),
        after=tuple(linked(converted_words(each)) for each in one.after),
        fitted=tuple(site.record_link(assembly) for assembly in arranged.fitted.values()),
        lacking=tuple(lacking_words(site.register, arranged)),
        served=tuple(filter(None, told)) if whole else (),
        routes=tuple(route_words(route, arranged) for route in routes(arranged)) if whole else (),
        states=tuple(states(site, arranged)) if one.drawn else (),
    )
