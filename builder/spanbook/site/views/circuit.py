"""A circuit: which way it goes through each arrangement that left the works, and what a fault does."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from spanbook.answers.flow.routes import routes, served
from spanbook.ground.language import gettext as _
from spanbook.reading.records import Circuit
from spanbook.site import addresses, markdown
from spanbook.site.arrangements import StateView, Told, arrangements, states
from spanbook.site.common import Linked, Site, Trust, linked
from spanbook.site.page import Link, SitePage
from spanbook.site.trust import trust
from spanbook.site.ways import WayLine, way_lines
from spanbook.wording.flow import BANDS, circuit_summary, medium_words, run_of_words, worked_out_words
from spanbook.wording.flow_here import ONLY_AFTER, converted_words
from spanbook.wording.flow_ways import lacking_words, route_words, served_words


@dataclass(frozen=True, slots=True)
class ArrangementView:
    anchor: str
    title: str
    runs: tuple[str, ...]
    after: tuple[Linked, ...]
    fitted: tuple[Link, ...]
    lacking: tuple[str, ...]
    served: tuple[str, ...]
    routes: tuple[str, ...]
    states: tuple[StateView, ...]


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


def pages(site: Site) -> Iterator[SitePage]:
    for circuit in site.asked(site.register.of(Circuit).values(), addresses.of_record):
        address = addresses.of_record(circuit)
        yield SitePage(
            address=address,
            title=circuit.title,
            summary=circuit_summary(site.register, circuit),
            sort=_("Circuit"),
            crumbs=(Link(_("Circuits"), "circuits/"),),
            template="views/circuit.html",
            view=_view(site, circuit, "../" * address.count("/")),
            record=circuit,
        )


def _view(site: Site, circuit: Circuit, root: str) -> CircuitView:
    return CircuitView(
        machine=site.record_link(site.register.machines[circuit.machine]),
        medium=medium_words(circuit),
        arrangements=tuple(_arrangement(site, one) for one in arrangements(site, circuit)),
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
