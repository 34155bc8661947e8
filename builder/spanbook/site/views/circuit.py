"""A circuit: which way it goes through each arrangement that left the works, and what a fault does."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass, replace

from markupsafe import Markup

from spanbook.answers.flow.converted import Converted
from spanbook.answers.flow.figures import Change, Worked
from spanbook.answers.flow.over_series import Run
from spanbook.answers.flow.pieces import Arranged
from spanbook.answers.flow.routes import routes, served
from spanbook.reading.records import Assembly, Circuit
from spanbook.site import addresses, markdown
from spanbook.site.common import Linked, Site, Trust, linked
from spanbook.site.figures.circuit import CircuitPicture, circuit_picture
from spanbook.site.page import Link, SitePage
from spanbook.site.trust import trust
from spanbook.site.ways import WayLine, way_lines
from spanbook.wording.flow import (
    BANDS,
    MOST_MEASURED,
    circuit_summary,
    figure_lines,
    input_words,
    measure_words,
    medium_words,
    none_words,
    picture_words,
    rests_words,
    run_of_words,
    state_words,
    worked_out_words,
)
from spanbook.wording.flow_faults import change_words, fault_words
from spanbook.wording.flow_here import ONLY_AFTER, converted_words
from spanbook.wording.flow_ways import arrangement_words, lacking_words, route_words, served_words


@dataclass(frozen=True, slots=True)
class StateView:
    """One way of running, or one fault; `lines` are its figures, or `missing` says why there are none."""

    title: str
    running: str
    picture: CircuitPicture | None
    missing: str | None
    lines: tuple[str, ...]
    faults: tuple[str, ...]
    measure: tuple[str, ...]
    rests: str
    inputs: tuple[str, ...]


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
    for circuit in site.register.of(Circuit).values():
        address = addresses.of_record(circuit)
        yield SitePage(
            address=address,
            title=circuit.title,
            summary=circuit_summary(site.register, circuit),
            sort="Circuit",
            crumbs=(Link("Circuits", "circuits/"),),
            template="views/circuit.html",
            view=_view(site, circuit, "../" * address.count("/")),
            record=circuit,
        )


def _view(site: Site, circuit: Circuit, root: str) -> CircuitView:
    found = tuple(_arrangements(site, circuit))
    held = [set(one.arranged.fitted.values()) for one in found]
    # What every arrangement has goes without saying, unless there is but one.
    everywhere = set.intersection(*held) if len(held) > 1 else set[Assembly]()
    return CircuitView(
        machine=site.record_link(site.register.machines[circuit.machine]),
        medium=medium_words(circuit),
        arrangements=tuple(_arrangement(site, one, everywhere) for one in found),
        ways=way_lines(site, circuit),
        worked_out=worked_out_words(circuit),
        bands=BANDS,
        only_after=ONLY_AFTER,
        trust=trust(site, circuit),
        notes=markdown.to_html(circuit.notes, root) if circuit.notes else None,
    )


@dataclass(frozen=True, slots=True)
class _Told:
    """An arrangement with the numbers that left the works with it, and the conversions that lead to it."""

    arranged: Arranged
    runs: tuple[Run, ...]
    after: tuple[Converted, ...]

    @property
    def sure(self) -> bool:
        return any(run.sure for run in self.runs) or any(one.sure for one in self.after)


def _arrangements(site: Site, circuit: Circuit) -> Iterator[_Told]:
    """Those that left the works, then those that only conversions make."""
    left, converted = site.answers.arrangements(circuit), site.answers.converted(circuit)
    known = [one.arranged for one in left]
    for one in converted:
        if all(one.arranged.fitted != other.fitted for other in known):
            known.append(one.arranged)
    for arranged in known:
        runs = (run for one in left if one.arranged is arranged for run in one.runs)
        after = (one for one in converted if one.arranged.fitted == arranged.fitted)
        yield _Told(arranged, tuple(runs), tuple(after))


def _arrangement(site: Site, one: _Told, everywhere: Collection[Assembly]) -> ArrangementView:
    arranged, whole = one.arranged, one.arranged.whole
    told = (served_words(each, arranged) for each in served(arranged))
    return ArrangementView(
        anchor=addresses.anchor_of(arranged),
        title=arrangement_words(arranged, everywhere),
        runs=tuple(run_of_words(run) for run in one.runs),
        after=tuple(linked(converted_words(each)) for each in one.after),
        fitted=tuple(site.record_link(assembly) for assembly in arranged.fitted.values()),
        lacking=tuple(lacking_words(site.register, arranged)),
        served=tuple(filter(None, told)) if whole else (),
        routes=tuple(route_words(route, arranged) for route in routes(arranged)) if whole else (),
        states=tuple(_states(site, arranged)) if one.sure and whole and arranged.circuit.states else (),
    )


def _states(site: Site, arranged: Arranged) -> Iterator[StateView]:
    """Each way of running, what faults change in the first, and each of those that does harm."""
    first, *others = [site.answers.worked(arranged, state) for state in arranged.circuit.states]
    yield _state(first, first.changes)
    yield from (_state(worked, ()) for worked in others)
    for change in first.changes:
        if change.harms:
            yield replace(_state(change.worked, ()), title=fault_words(change.fault, arranged.circuit))


def _state(worked: Worked, faults: Iterable[Change]) -> StateView:
    figures = worked.figures
    title, running = worked.state.title, state_words(worked.state)
    picture = circuit_picture(worked, picture_words(worked))
    if figures is None:
        return StateView(title, running, picture, none_words(worked), (), (), (), "", ())
    return StateView(
        title=title,
        running=running,
        picture=picture,
        missing=None,
        lines=tuple(figure_lines(worked, figures)),
        faults=tuple(change_words(change, worked.arranged) for change in faults),
        measure=() if worked.fault else tuple(measure_words(one) for one in worked.widest[:MOST_MEASURED]),
        rests=rests_words(figures.inputs),
        inputs=tuple(input_words(one) for one in figures.inputs),
    )
