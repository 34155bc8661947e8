"""Which pages are about one machine: what a copy of it alone begins with. What they lead to comes along."""

from __future__ import annotations

import json
from collections.abc import Iterator
from operator import attrgetter

from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Machine
from spanbook.register.model import Register
from spanbook.site import addresses
from spanbook.site.along.files import FOLDER
from spanbook.site.common import Site
from spanbook.site.each import EachTable, File


def table_of(machine: Machine) -> str:
    return f"{FOLDER}machine-{machine.id}.json"


def _files(site: Site, machine: Machine) -> Iterator[File]:
    """The addresses of the pages of a machine."""
    every = list(dict.fromkeys(pages(site, machine)))
    yield table_of(machine), json.dumps(every, ensure_ascii=False, separators=(",", ":")).encode()


EACH = EachTable(lambda site: site.register.machines.values(), attrgetter("id"), _files)


def pages(site: Site, machine: Machine) -> Iterator[str]:
    """The machine and its series, all that may ever have been on it, its parts and what replaces them."""
    register = site.register
    yield addresses.of_record(machine)
    for series in machine.series:
        yield addresses.of_series(series)
        yield addresses.of_questions(series)
        yield from (addresses.of_place(series, path) for path in site.places_apart(series))
    held = dict.fromkeys(_held(site, machine))
    for path in dict.fromkeys(path for path, _ in held):
        yield addresses.of_position(path)
    listed: list[PartKey] = []
    for id_ in dict.fromkeys(id_ for _, id_ in held):
        yield addresses.of_record(register.named("assembly")[id_])
        yield from map(addresses.of_record, register.found.get(id_, ()))
        if id_ in register.assemblies:
            assembly = register.assemblies[id_]
            listed += [register.key_of(assembly, use.said) for use in register.uses_of(assembly)]
    yield from map(addresses.of_part, _onward(register, listed))


def _held(site: Site, machine: Machine) -> Iterator[tuple[str, str]]:
    """What may ever have been where on a machine: position, and what was there by its id."""
    for series in machine.series:
        for path in site.register.positions:
            held = site.answers.ever.held((series, path))
            yield from ((path, id_) for id_, numbers in held.items() if numbers)


def _onward(register: Register, keys: list[PartKey]) -> Iterator[PartKey]:
    """The parts, and all that acts put in their place."""
    waiting = list(dict.fromkeys(keys))
    seen = set(waiting)
    while waiting:
        key = waiting.pop()
        yield key
        part = register.parts.get(key)
        for act in part.old_in if part else ():
            for new in (register.key_of(act, use) for use in act.new):
                if new not in seen:
                    seen.add(new)
                    waiting.append(new)
