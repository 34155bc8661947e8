"""What may be at each position of a machine, for the report: a table a series that its script looks up in,
and one of all things by their position, which all series share.

What is recorded of a number stands by runs of numbers, as the places of things in the list of their position.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from operator import attrgetter
from typing import Any

from spanbook.answers.applicability import Fit, State
from spanbook.answers.readings import machine_of
from spanbook.ground.part_numbers import maker_id
from spanbook.reading.records import Assembly, Series
from spanbook.site.card.found import candidates
from spanbook.site.common import Site
from spanbook.site.each import EachTable, File
from spanbook.site.finder.tables import script
from spanbook.site.sheet.runs import Runs, alone, edge
from spanbook.site.thumbnails import small_of

FOLDER = "assets/report/"
THINGS = "things"
MOST_TOLD = 2  # of what a thing is told by


def _files(site: Site, series: Series) -> Iterator[File]:
    """The table of a series, by its address."""
    yield f"{FOLDER}{table_of(series)}.js", script(table_of(series), table(site, series))


def of_things(site: Site) -> Iterator[File]:
    """The table of all things, by its address."""
    yield f"{FOLDER}{THINGS}.js", script(THINGS, things(site))


EACH = EachTable(lambda site: site.register.series.values(), attrgetter("id"), _files)


def table_of(series: Series) -> str:
    """What the table of a series is called."""
    return f"report-{series.id}"


def table(site: Site, series: Series) -> dict[str, Any]:
    """A place is `[path, title, groups, key, runs, things of this series]`, and a run `[first, last, recorded
    from the works, recorded as later, why nothing is recorded from the works]`: all things by their places in
    the list of their position."""
    machine = site.machine_of(series)
    places = []
    for path in site.answers.fits.positions(machine):
        listed = {id_: i for i, id_ in enumerate(site.register.known_at.get(path, ()))}
        told = [(run, *run.said) for run in _runs(site, series, path).all]
        runs = [
            [run.first, run.last, [listed[one.id] for one in works], [listed[one.id] for one in later], why]
            for run, works, later, why in told
        ]
        key = site.keys.get((path, False), "")
        title = site.register.positions[path].title
        here = [listed[one.id] for one in candidates(site.answers, series, path)]
        places.append([path, title, site.groups_of(path), key, runs, here])
    return {"owner": maker_id(machine.maker), "places": places}


def things(site: Site) -> dict[str, list[list[Any]]]:
    """By position all that may be there: `[id, title, what it is told by, small picture]`."""
    return {path: [_thing(site, one) for one in held] for path, held in site.register.at_position.items()}


def _thing(site: Site, assembly: Assembly) -> list[Any]:
    told = list(assembly.tell[:MOST_TOLD])
    return [assembly.id, assembly.title, told, small_of(site, assembly)]


# From the works, later, and the word of `wording.report` for why nothing is from the works.
_Recorded = tuple[tuple[Assembly, ...], tuple[Assembly, ...], str]
_WHY = (State.NO_PLACE, State.OTHER_PLATE)


def _runs(site: Site, series: Series, path: str) -> Runs[_Recorded]:
    edges = [*map(edge, site.answers.fits.pieces(series, path)), *alone(site.register.units.shared(series))]
    return Runs(series, edges, partial(_recorded, site, series, path))


def _recorded(site: Site, series: Series, path: str, number: int) -> _Recorded:
    """What the records have there on the machine with a number."""
    place = site.answers.fits.at(machine_of(site.register, series, number), path)
    works = _once(place.segment.fits)
    why = str(place.state) if not works and place.state in _WHY else ""
    return works, tuple(one for one in _once(place.fits) if one not in works), why


def _once(fits: Sequence[Fit]) -> tuple[Assembly, ...]:
    return tuple(dict.fromkeys(fit.assembly for fit in fits))
