"""Which way it goes through each machine of a series: runs of numbers with a line for each arrangement."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from operator import attrgetter
from typing import Any

from spanbook.answers.flow.on_machine import circuits_of
from spanbook.answers.flow.pieces import positions_of
from spanbook.answers.readings import machine_of
from spanbook.ground.intervals import Reach
from spanbook.ground.language import gettext as _
from spanbook.reading.records import Circuit, Series
from spanbook.register.reach import reach_of
from spanbook.site import addresses
from spanbook.site.card.lines import Once, said
from spanbook.site.common import Site
from spanbook.site.each import EachTable, File
from spanbook.site.finder.tables import script
from spanbook.site.sheet.runs import Runs, alone, edge
from spanbook.wording.flow_here import TOGETHER, here_lines
from spanbook.wording.pieces import Pieces

FOLDER = "assets/flow/"
_Line = tuple[str | tuple[str, str], ...]


def with_circuits(site: Site) -> tuple[Series, ...]:
    """The series that have a table of this."""
    machines = {circuit.machine for circuit in site.register.of(Circuit).values()}
    return tuple(one for one in site.register.series.values() if one.machine in machines)


def _files(site: Site, series: Series) -> Iterator[File]:
    """The table of a series, by its address."""
    name = f"flow-{series.id}"
    yield f"{FOLDER}{name}.js", script(name, table(site, series))


EACH = EachTable(with_circuits, attrgetter("id"), _files)


def table(site: Site, series: Series) -> dict[str, Any]:
    """Each circuit with its address, and runs of numbers by the places of their lines."""
    lines, circuits = Once(), []
    for circuit in circuits_of(site.register.of(Circuit), series.machine):
        runs = Runs(series, _edges(site, series, circuit), partial(_lines, site, series, circuit))
        told = [[run.first, run.last, [lines.place(one, one) for one in run.said]] for run in runs.all]
        circuits.append([circuit.title, addresses.of_record(circuit), told])
    return {"circuits": circuits, "lines": lines.held, "words": {"together": _(TOGETHER)}}


def _lines(site: Site, series: Series, circuit: Circuit, number: int) -> tuple[_Line, ...]:
    reading = machine_of(site.register, series, number)
    (told,) = (one for one in site.answers.flows_here(reading) if one.circuit is circuit)
    return tuple(_line(pieces) for pieces in here_lines(told))


def _line(pieces: Pieces) -> _Line:
    """A sentence by what a script takes, so that the same about two numbers is one."""
    return tuple(one if isinstance(one, str) else (one[0], one[1]) for one in said(pieces))


def _edges(site: Site, series: Series, circuit: Circuit) -> list[Reach]:
    """Where what is told may change."""
    fits, register = site.answers.fits, site.register
    has = fits.positions(register.machines[series.machine])
    runs = [run for at in positions_of(circuit) if at in has for run in fits.pieces(series, at)]
    here = register.conversions_in.get(series.id, ())
    spans = (span for one in here for span in one.serials if span.series == series.id)
    return [
        *map(edge, runs),
        *(reach_of(span, series) for span in spans),
        *alone(register.units.shared(series)),
    ]
