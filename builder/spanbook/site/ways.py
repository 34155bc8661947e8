"""The ways through an assembly or a circuit as a page lists them."""

from __future__ import annotations

from dataclasses import dataclass

from spanbook.answers.flow.on_machine import circuits_of
from spanbook.answers.flow.pieces import positions_of
from spanbook.reading.records import Assembly, Circuit, Machine
from spanbook.register.statements import Passing
from spanbook.site.common import Site, Trust
from spanbook.site.page import Link
from spanbook.site.trust import trust
from spanbook.wording.flow_ways import way_words


@dataclass(frozen=True, slots=True)
class WayLine:
    """One way; `trust` where it rests on evidence of its own."""

    anchor: str
    words: str
    note: str | None
    trust: Trust | None


def way_lines(site: Site, record: Assembly | Circuit) -> tuple[WayLine, ...]:
    """Every way of a record, in its order."""
    said = (statement.subject for statement in site.register.statements_of.get(record, ()))
    trusted = {subject.way.id: trust(site, subject) for subject in said if isinstance(subject, Passing)}
    return tuple(
        WayLine(f"way-{way.id}", way_words(way), way.note, trusted.get(way.id)) for way in record.ways
    )


def circuits_at(site: Site, position: str) -> tuple[Circuit, ...]:
    """The circuits in which a position hangs."""
    return tuple(one for one in site.register.of(Circuit).values() if position in positions_of(one))


def circuits_of_machine(site: Site, machine: Machine) -> tuple[Link, ...]:
    """The circuits of a machine."""
    return tuple(site.record_link(one) for one in circuits_of(site.register.of(Circuit), machine.id))
