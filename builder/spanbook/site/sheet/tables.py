"""Tables of sheets: of every assembly that somebody took apart the lines for each machine that may hold it,
and of every series what may be renewed on each of its machines. Scripts look up; all was said here.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import partial
from operator import attrgetter
from typing import Any

from spanbook.answers.order_edges import order_edges
from spanbook.answers.readings import Reading, machine_of
from spanbook.answers.renewing import holding, may_hold
from spanbook.answers.strip_down import Sheet
from spanbook.answers.this_machine import ThisPosition
from spanbook.ground.intervals import Reach
from spanbook.reading.records import Assembly, Series
from spanbook.site import addresses
from spanbook.site.card.found import candidates
from spanbook.site.card.lines import Once
from spanbook.site.common import Site
from spanbook.site.each import EachTable, File
from spanbook.site.finder.tables import script
from spanbook.site.page import Link
from spanbook.site.sheet.runs import Runs, alone, edge
from spanbook.site.sheet.words import SheetWords, sheet_words
from spanbook.wording.renewing import card_says, head_words, how_words, sheet_says, silences

FOLDER = "assets/sheet/"


def table_of(assembly: Assembly) -> str:
    """What the table of an assembly's sheet is called."""
    return f"sheet-{assembly.id}"


def _of_sheet(site: Site, sheet: Sheet) -> Iterator[File]:
    name = table_of(sheet.assembly)
    yield f"{FOLDER}{name}.js", script(name, _Tables(site).of_assembly(sheet))


def _of_series(site: Site, series: Series) -> Iterator[File]:
    name = f"renew-{series.id}"
    yield f"{FOLDER}{name}.js", script(name, _Tables(site).of_series(series))


EACH_SHEET = EachTable(lambda site: site.answers.sheets.values(), attrgetter("assembly.id"), _of_sheet)
EACH_SERIES = EachTable(lambda site: site.register.series.values(), attrgetter("id"), _of_series)


@dataclass(frozen=True, slots=True)
class _Held:
    """An assembly with the way to its sheet, whether and how a machine may hold it, and what is renewed."""

    sheet: Link
    how: str
    renew: tuple[Link, ...]


_Renewing = tuple[tuple[_Held, ...], tuple[tuple[str, str], ...]]


@dataclass(frozen=True)
class _Tables:
    site: Site

    def words_of(self, assembly: Assembly, series: Series) -> Runs[SheetWords]:
        """The lines of a sheet for the numbers of a series."""
        return self.site.once(_words_of, (assembly, series))

    def of_assembly(self, sheet: Sheet) -> dict[str, Any]:
        """A sheet's lines by series and number, and whether and how a machine may hold the assembly."""
        assembly, lines, links, sheets = sheet.assembly, Once(), Once(), Once()
        series: dict[str, Any] = {}
        for one in self._series_of(assembly):
            how = Runs(one, self._edges(one, assembly.position), partial(self._how, one, assembly))
            series[one.id] = [
                [[run.first, run.last, lines.place(run.said, run.said)] for run in how.all],
                [
                    [run.first, run.last, sheets.place(run.said, _sheet(run.said, lines, links))]
                    for run in self.words_of(assembly, one).all
                ],
            ]
        return {
            "words": sheet_says(),
            "series": series,
            "sheets": sheets.held,
            "lines": lines.held,
            "links": links.held,
        }

    def of_series(self, series: Series) -> dict[str, Any]:
        """For each position, by its place among those of the machine, what may be renewed by number."""
        answers, lines, told = self.site.answers, Once(), Once()
        places = []
        for position in answers.fits.positions(self.site.machine_of(series)):
            every = candidates(answers, series, position)
            of_sheets = (
                cut for one in every if answers.any_sheet(one) for cut in self.words_of(one, series).edges
            )
            edges = [*self._edges(series, position), *of_sheets]
            runs = Runs(series, edges, partial(self._renewing, series, position))
            places.append(
                [
                    self.site.position_links(position)[-1].text,
                    [
                        [run.first, run.last, told.place(run.said, _renewed(run.said, lines))]
                        for run in runs.all
                    ],
                ]
            )
        return {"words": card_says(), "places": places, "told": told.held, "lines": lines.held}

    def _series_of(self, assembly: Assembly) -> Iterator[Series]:
        """The series of which a machine may hold an assembly."""
        for series in self.site.register.series.values():
            if assembly in candidates(self.site.answers, series, assembly.position):
                yield series

    def _edges(self, series: Series, position: str) -> list[Reach]:
        """Where what a machine may hold changes: by the records, and by who looked at it."""
        fits = self.site.answers.fits
        looked = {teardown for teardown, _ in fits.finds(series, position)}
        seen = self.site.answers.machines.looks.seen(series).items()
        numbers = [number for number, teardowns in seen if looked.intersection(teardowns)]
        shared = self.site.register.units.shared(series)
        return [*map(edge, fits.told_alike((series, position))), *alone([*numbers, *shared])]

    def _machine(self, series: Series, number: int) -> Reading:
        return machine_of(self.site.register, series, number)

    def _place(self, series: Series, position: str, number: int) -> ThisPosition:
        return self.site.answers.machines.place(self._machine(series, number), position)

    def _how(self, series: Series, assembly: Assembly, number: int) -> str:
        return how_words(may_hold(self._place(series, assembly.position, number), assembly, None))

    def _renewing(self, series: Series, position: str, number: int) -> _Renewing:
        """Each assembly that a machine may hold with what is renewed of it, and what nobody has told."""
        register = self.site.register
        place = self._place(series, position, number)
        found = holding(place, register.assemblies, self.site.answers.any_sheet)
        told = (
            _Held(
                Link(held.assembly.title, addresses.of_sheet(held.assembly)),
                head_words(held),
                self._renew(series, held.assembly, number),
            )
            for held in found.held
            if held.sheet
        )
        return tuple(told), tuple(silences(register, found))

    def _renew(self, series: Series, assembly: Assembly, number: int) -> tuple[Link, ...]:
        if assembly in candidates(self.site.answers, series, assembly.position):
            return self.words_of(assembly, series).at(number).renew
        return _words(self.site, assembly, self._machine(series, number)).renew


def _words_of(site: Site, asked: tuple[Assembly, Series]) -> Runs[SheetWords]:
    (assembly, series), register = asked, site.register
    edges = [
        *site.answers.fits.lists.edges([assembly], series),
        *order_edges(register, site.renewed(assembly), series),
        *alone(register.units.shared(series)),
    ]
    return Runs(series, edges, lambda number: _words(site, assembly, machine_of(register, series, number)))


def _words(site: Site, assembly: Assembly, machine: Reading) -> SheetWords:
    sheet = site.answers.sheet(assembly, machine)
    assert sheet, "somebody took it apart"
    return sheet_words(site.register, sheet)


def _sheet(words: SheetWords, lines: Once, links: Once) -> list[Any]:
    """The lines of a sheet by their places: of each step, the rest, what is renewed, the tray."""

    def places(told: Iterable[str]) -> list[int]:
        return [lines.place(one, one) for one in told]

    renew = [links.place(one, [one.text, one.address]) for one in words.renew]
    return [[places(step.lines) for step in words.steps], places(words.rest), renew, places(words.tray)]


def _renewed(told: _Renewing, lines: Once) -> list[Any]:
    held, silent = told
    return [
        [
            [
                one.sheet.text,
                one.sheet.address,
                one.how,
                [lines.place(r, [r.text, r.address]) for r in one.renew],
            ]
            for one in held
        ],
        [list(one) for one in silent],
    ]
