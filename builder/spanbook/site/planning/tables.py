"""What plans of conversions are made from, a table a series: what its machines left the works with, the
conversions that they may take, and every sentence that a plan says.

The scripts beside this file plan as `answers/plans.py` does: the tests hold the two to each other.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from operator import attrgetter
from typing import Any

from spanbook.answers.bounds import reach_of
from spanbook.answers.conversions import surely_left_with
from spanbook.answers.offered import earliest
from spanbook.answers.order_edges import order_edges
from spanbook.answers.orders import Ordering
from spanbook.answers.plan_search import MOST_STATES
from spanbook.answers.plan_ways import MOST_WAYS
from spanbook.answers.readings import Reading, machine_of
from spanbook.answers.steps import of_conversions, step_of
from spanbook.ground.intervals import Reach
from spanbook.ground.memo import Memo, kept
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Assembly, Conversion, OtherNumber, PartUse, PositionNeed, Series
from spanbook.register.model import Position
from spanbook.site import addresses
from spanbook.site.common import Site
from spanbook.site.each import EachTable, File
from spanbook.site.finder.tables import script
from spanbook.site.sheet.runs import Runs, alone, edge
from spanbook.wording.conversions import (
    PartSaid,
    advice_words,
    also_words,
    assemblies_words,
    get_words,
    in_the_way_words,
    keep_words,
    named_words,
    need_words,
    step_words,
    take_words,
    to_order_words,
    word_words,
)
from spanbook.wording.planning import words
from spanbook.wording.records import the_title

FOLDER = "assets/planning/"
# What a step is called for a machine, and of every part of it: the line, the address, what is ordered.
_Told = tuple[str, tuple[tuple[PartSaid, str, str], ...]]


def table_of(series: Series) -> str:
    """What the table of a series is called."""
    return f"plan-{series.id}"


def _files(site: Site, series: Series) -> Iterator[File]:
    """The table of a series by its address."""
    yield f"{FOLDER}{table_of(series)}.js", script(table_of(series), table(site, series))


EACH = EachTable(lambda site: site.register.series.values(), attrgetter("id"), _files)


def table(site: Site, series: Series) -> dict[str, Any]:
    return _Table(site, series).made()


@dataclass(frozen=True)
class _Table:
    site: Site
    series: Series

    def made(self) -> dict[str, Any]:
        """Where no machine of the series may take a conversion there is nothing to plan with."""
        inside = self.site.register.inside
        if not self.conversions:
            return {"conversions": [], "words": words()}
        return {
            "positions": {one.path: self._position(one) for one in self.positions},
            "inside": {
                one.path: [inner.path for inner in inside[one.path]]
                for one in self.positions
                if one.path in inside
            },
            "assemblies": {one.id: self._assembly(one) for one in self.assemblies},
            "lists": {one.id: self._list(one) for one in self.assemblies},
            "parts": [[named_words(self.site.register, key), addresses.of_part(key)] for key in self.parts],
            "conversions": [self._conversion(one) for one in self.conversions],
            "most-states": MOST_STATES,
            "most-ways": MOST_WAYS,
            "words": words(),
        }

    @kept
    def conversions(self) -> tuple[Conversion, ...]:
        """Those that machines of the series may take, in the order of their ids."""
        register = self.site.register
        by_numbers = (register.conversions_in.get(one.id, ()) for one in register.units.together(self.series))
        every = sorted({kit for each in by_numbers for kit in each}, key=lambda one: one.id)
        return tuple(one for one in every if any(run.said is not None for run in self._covers(one).all))

    @kept
    def positions(self) -> tuple[Position, ...]:
        """Where machines of the series have something, where their conversions name something, and what these
        are inside of or have inside."""
        known, inside = self.site.register.positions, self.site.register.inside
        waiting = list(self.site.answers.fits.positions(self.site.machine_of(self.series)))
        for one in self.conversions:
            waiting += [change.position for change in one.changes]
            waiting += [need.position for need in one.needs]
            waiting += [taken.position for taken in one.takes]
        found: dict[str, Position] = {}
        for path in waiting:
            if path in known and path not in found:
                found[path] = known[path]
                waiting += [inner.path for inner in inside.get(path, ())]
                if housing := known[path].housing:
                    waiting.append(housing.position)
        return tuple(found.values())

    @kept
    def assemblies(self) -> tuple[Assembly, ...]:
        every = (self.site.register.at_position.get(one.path, ()) for one in self.positions)
        return tuple(one for each in every for one in each)

    @kept
    def parts(self) -> dict[PartKey, int]:
        """Every part number that is named, with its place in the table."""
        register = self.site.register
        named: set[PartKey] = set()
        for assembly in self.assemblies:
            named |= {register.key_of(assembly, said) for line in assembly.parts for said in line.numbers}
        for one in self.conversions:
            used = (*one.adds, *(taken.use for taken in one.takes))
            named |= {register.key_of(one, use) for use in used}
        return {key: at for at, key in enumerate(sorted(named))}

    def _position(self, position: Position) -> list[Any]:
        """Its title and address, what it is inside of, whether something goes there, whether these machines
        have it, and what they surely left with by runs of numbers."""
        housing = position.housing
        link = self.site.position_links(position.path)[-1]
        return [
            link.text,
            link.address,
            [housing.position, list(housing.assemblies)] if housing else None,
            position.holds,
            position.path in self._own,
            _rows(self._left(position.path)) if position.path in self._own else [],
        ]

    @kept
    def _own(self) -> frozenset[str]:
        return frozenset(self.site.answers.fits.positions(self.site.machine_of(self.series)))

    def _left(self, path: str) -> Runs[str | None]:
        fits = self.site.answers.fits

        def said(number: int) -> str | None:
            held = surely_left_with(fits.at(self._machine(number), path))
            return held.id if held else None

        return Runs(self.series, [*map(edge, fits.pieces(self.series, path)), *self._shared], said)

    def _assembly(self, assembly: Assembly) -> list[Any]:
        """Its title and address, what it is called in a sentence, its position, and every part of it."""
        keys = (self._key(assembly, said) for line in assembly.parts for said in line.numbers)
        named = [assembly.title, addresses.of_record(assembly), the_title(assembly)]
        return [*named, assembly.position, sorted(set(keys))]

    def _list(self, assembly: Assembly) -> list[Any]:
        """Its parts list by runs of numbers: each line with the numbers that serve, and how many."""
        lists = self.site.answers.fits.lists

        def said(number: int) -> tuple[tuple[tuple[int, ...], int], ...]:
            held = lists.on(assembly, self._machine(number))
            lines = (one.line.part for place in held for one in place.lines)
            return tuple(
                (tuple(self._key(assembly, said) for said in line.numbers), line.quantity) for line in lines
            )

        return _rows(Runs(self.series, [*lists.edges([assembly], self.series), *self._shared], said))

    def _conversion(self, conversion: Conversion) -> list[Any]:
        register = self.site.register
        step = step_of(register, conversion)
        keys = [self._key(conversion, use) for use in conversion.adds]
        return [
            conversion.id,
            conversion.title,
            addresses.of_record(conversion),
            step.parts,
            [[one.position, list(one.start), one.to] for one in conversion.changes],
            [self._need(conversion, need) for need in conversion.needs],
            [self._need(conversion, need) for need in step.inside],
            [[each.position, self.parts[each.part], each.quantity, each.assemblies] for each in step.taking],
            keys,
            earliest(conversion),
            self._lines(conversion),
            _rows(self._covers(conversion)),
        ]

    def _need(self, conversion: Conversion, need: PositionNeed) -> list[Any]:
        """Where something must be, one of these, whether that is only advice, and what is said of it: before
        the step, where it is in the way at first and at the end, and where advice is not followed."""
        register, at = self.site.register, self._title(need.position)
        held = assemblies_words(register, need)
        return [
            need.position,
            list(need.assemblies),
            need.advice,
            need_words(register, need, at),
            in_the_way_words(conversion.title, held, at, need, at_end=False),
            in_the_way_words(conversion.title, held, at, need, at_end=True),
            advice_words(register, conversion, need, at) if need.advice else "",
        ]

    def _lines(self, conversion: Conversion) -> list[Any]:
        """What is said of a step on any machine: on whose word it is, what comes off, what is taken off
        elsewhere, what else it changes, and the cautions."""
        register = self.site.register
        known = register.cautions
        return [
            word_words(self.site.answers.standing(conversion)),
            [
                [keep_words(register, conversion, use), addresses.of_part(register.key_of(conversion, use))]
                for use in conversion.removes
            ],
            [take_words(register, conversion, one, self._title(one.position)) for one in conversion.takes],
            [also_words(register, change, self._title(change.position)) for change in conversion.also],
            [[known[id_].title, addresses.of_caution(id_)] for id_ in conversion.cautions if id_ in known],
        ]

    def _covers(self, conversion: Conversion) -> Runs[_Told | None]:
        """Whether machines may take a conversion, and what is said of it and of its parts for them."""
        return self._runs_of(conversion)

    @kept
    def _runs_of(self) -> Memo[Conversion, Runs[_Told | None]]:
        return Memo(self._told_by_number)

    def _told_by_number(self, conversion: Conversion) -> Runs[_Told | None]:
        register = self.site.register
        mine = (span for span in conversion.serials if span.series == self.series.id)
        reaches = [reach_of(span, self.series) for span in mine]
        keys = [register.key_of(conversion, use) for use in conversion.adds]
        edges = [*reaches, *order_edges(register, keys, self.series), *self._shared]
        return Runs(self.series, edges, partial(self._told, conversion))

    def _told(self, conversion: Conversion, number: int) -> _Told | None:
        register, machine = self.site.register, self._machine(number)
        step = next(iter(of_conversions(register, [conversion], machine)), None)
        if step is None:
            return None
        ordering = Ordering(register, machine)
        gets = []
        for use in conversion.adds:
            key = register.key_of(conversion, use)
            found = ordering.of(key, use.quantity)
            get = get_words(register, conversion, use, found)
            order = to_order_words(register, key, use.quantity, found)
            gets.append((get, addresses.of_part(key), order))
        return step_words(step), tuple(gets)

    @kept
    def _shared(self) -> list[Reach]:
        """The numbers of machines that are known by several."""
        return alone(self.site.register.units.shared(self.series))

    def _machine(self, number: int) -> Reading:
        return machine_of(self.site.register, self.series, number)

    def _key(self, record: Assembly | Conversion, use: PartUse | OtherNumber) -> int:
        return self.parts[self.site.register.key_of(record, use)]

    def _title(self, path: str) -> str:
        return self.site.position_links(path)[-1].text


def _rows(runs: Runs[Any]) -> list[list[Any]]:
    return [[run.first, run.last, run.said] for run in runs.all]
