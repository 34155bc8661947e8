"""Circuits and ways: places that are there, ways told apart, sizes that a way of its sort can have."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.flow.inputs import between
from spanbook.answers.flow.sized import MEASURES, WANTED
from spanbook.ground.language import gettext as _
from spanbook.ground.units import UNITS
from spanbook.reading.problems import Finding, Rule, Severity
from spanbook.reading.records import Assembly, Circuit
from spanbook.register.model import Register
from spanbook.rules.check import Check

_GOOD = (
    "# file: content/circuits/oil.yml\nkind: circuit\nid: oil\ntitle: Oil\nmachine: x-one\nmedium: oil\n"
    "places:\n- {id: sump, title: Sump, open: true}\n- {id: gallery, title: Gallery}\n"
    "ways:\n- id: pump\n  from: sump\n  to: gallery\n  through: pump\n"
    '  sizes: [{what: gives, value: "10", unit: litre/min}]\n'
    "- {id: bearings, from: gallery, to: sump, through: clearance, serves: true}\n"
)

PLACE_UNKNOWN = Rule(
    "circuit-place-unknown",
    Severity.ERROR,
    "A way of a circuit, and a port, lead to places of that circuit.",
    bad=_GOOD.replace("from: gallery", "from: galery"),
    good=_GOOD,
)
WAY_TWICE = Rule(
    "way-twice",
    Severity.ERROR,
    "Two ways of one name in a record cannot be told apart, nor what is measured of them.",
    bad=_GOOD.replace("id: bearings", "id: pump"),
    good=_GOOD,
)
WAY_SIZE = Rule(
    "way-size",
    Severity.ERROR,
    "Figures go by what a size is of: a pump gives, a valve opens, each in its own unit and above nothing.",
    bad=_GOOD.replace("unit: litre/min", "unit: psi"),
    good=_GOOD,
)


def _with_ways(register: Register) -> Iterator[Assembly | Circuit]:
    for record in register.records:
        if isinstance(record, Assembly | Circuit):
            yield record


def _places(register: Register) -> Iterator[Finding]:
    for circuit in register.of(Circuit).values():
        known = [place.id for place in circuit.places]
        named = [
            *((("ways", i, key), place) for i, way in enumerate(circuit.ways)
              for key, place in (("from", way.start), ("to", way.end))),
            *((("ports", i, "place"), port.place) for i, port in enumerate(circuit.ports)),
        ]  # fmt: skip
        for steps, place in named:
            if place not in known:
                yield Finding(
                    circuit.origin.place(*steps),
                    _("no place {}").format(place),
                    _("one of {}").format(", ".join(known)),
                )


def _twice(register: Register) -> Iterator[Finding]:
    for record in _with_ways(register):
        known: set[str] = set()
        for i, way in enumerate(record.ways):
            if way.id in known:
                place = record.origin.place("ways", i, "id")
                yield Finding(place, _("a second way {}").format(way.id), _("give it another word"))
            known.add(way.id)


def _sizes(register: Register) -> Iterator[Finding]:
    for record in _with_ways(register):
        for i, way in enumerate(record.ways):
            takes = [what for some in WANTED[way.through] for what in some]
            for k, size in enumerate(way.sizes):
                place = record.origin.place("ways", i, "sizes", k)
                measures = MEASURES[size.what]
                if size.what not in takes:
                    said = _("{what}, which a way through a {through} does not have").format(
                        what=size.what, through=way.through
                    )
                    yield Finding(
                        place, said, _("it may have {}").format(", ".join(takes)) if takes else _("drop it")
                    )
                elif UNITS[size.unit].of is not measures:
                    yield Finding(
                        place,
                        _("{what} in {unit}").format(what=size.what, unit=size.unit),
                        _("write it in {}, or the like").format(measures),
                    )
                elif not _rises(*between(size)) and size.unit != "°C":
                    said = _("{what} {value} to {to}").format(
                        what=size.what, value=size.value, to=size.to or size.value
                    )
                    yield Finding(place, said, _("write it above nothing, the lower end first"))


def _rises(low: float, high: float) -> bool:
    return 0 < low <= high


CHECKS = (Check(PLACE_UNKNOWN, _places), Check(WAY_TWICE, _twice), Check(WAY_SIZE, _sizes))
