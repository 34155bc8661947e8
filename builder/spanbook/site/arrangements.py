"""The arrangements of a circuit as pages draw them: all on its own page, one where a thing hangs in it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from math import inf

from spanbook.answers.flow.converted import Converted
from spanbook.answers.flow.figures import Change, Worked
from spanbook.answers.flow.over_series import Run
from spanbook.answers.flow.pieces import Arranged
from spanbook.ground.language import gettext as _
from spanbook.ground.punctuation import parted
from spanbook.reading.records import Assembly, Circuit
from spanbook.site import addresses
from spanbook.site.common import Site
from spanbook.site.figures.circuit import CircuitPicture, circuit_picture
from spanbook.site.page import Link
from spanbook.site.ways import circuits_at
from spanbook.wording.flow import (
    BANDS,
    MOST_MEASURED,
    figure_lines,
    input_words,
    measure_words,
    none_words,
    picture_words,
    rests_words,
    run_of_words,
    state_words,
    worked_out_words,
)
from spanbook.wording.flow_faults import change_words, fault_words
from spanbook.wording.flow_here import COMMONEST, COMMONEST_WITH, ONLY_AFTER
from spanbook.wording.flow_ways import arrangement_words


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
class Told:
    """An arrangement with the numbers that left the works with it, and the conversions that lead to it."""

    arranged: Arranged
    title: str
    runs: tuple[Run, ...]
    after: tuple[Converted, ...]

    @property
    def drawn(self) -> bool:
        """Whether its ways of running are shown."""
        sure = any(run.sure for run in self.runs) or any(one.sure for one in self.after)
        return sure and self.arranged.whole and bool(self.arranged.circuit.states)

    @property
    def machines(self) -> tuple[float, float]:
        """How many machines surely, and how many at the most, left the works with it."""
        counts = [(run.sure, (run.numbers & run.series.issued).count()) for run in self.runs]
        numbers = [(sure, inf if count is None else count) for sure, count in counts]
        return sum(count for sure, count in numbers if sure), sum(count for sure, count in numbers)


@dataclass(frozen=True, slots=True)
class Drawing:
    """One arrangement of a circuit on the page of what hangs in it.

    `link` leads to all that is told of it, `chosen` says why it is this one of those that can be drawn, and
    `several` that the circuit has others.
    """

    circuit: Link
    link: Link
    runs: str
    chosen: str | None
    several: bool
    states: tuple[StateView, ...]
    bands: str
    worked_out: str


def arrangements(site: Site, circuit: Circuit) -> tuple[Told, ...]:
    """Those that left the works, then those that only conversions make."""
    left, converted = site.answers.arrangements(circuit), site.answers.converted(circuit)
    known = [one.arranged for one in left]
    for one in converted:
        if all(one.arranged.fitted != other.fitted for other in known):
            known.append(one.arranged)
    held = [set(arranged.fitted.values()) for arranged in known]
    # What every arrangement has goes without saying, unless there is but one.
    everywhere = set.intersection(*held) if len(held) > 1 else set[Assembly]()
    return tuple(
        Told(
            arranged,
            arrangement_words(arranged, everywhere),
            tuple(run for one in left if one.arranged is arranged for run in one.runs),
            tuple(one for one in converted if one.arranged.fitted == arranged.fitted),
        )
        for arranged in known
    )


def states(site: Site, arranged: Arranged) -> Iterator[StateView]:
    """Each way of running, what faults change in the first, and each of those that does harm."""
    first, *others = site.answers.running(arranged)
    yield _state(first, first.changes)
    yield from (_state(worked, ()) for worked in others)
    yield from (_faulty(change) for change in first.changes if change.harms)


def drawings(site: Site, position: str, assembly: Assembly | None = None) -> Iterator[Drawing]:
    """Of each circuit at a position the arrangement that most machines have, of those with an assembly.

    It is drawn in each way of running, and with the faults of that assembly that harm.
    """
    for circuit in circuits_at(site, position):
        every = arrangements(site, circuit)
        here = [one for one in every if assembly in (None, one.arranged.fitted.get(position))]
        found = [one for one in here if one.drawn]
        shown = max(found, key=lambda one: one.machines, default=None)
        views = tuple(_of_assembly(site, shown.arranged, assembly)) if shown else ()
        if shown and all(view.picture for view in views):
            yield Drawing(
                circuit=site.record_link(circuit),
                link=Link(shown.title, addresses.of(shown.arranged)),
                runs=parted(*map(run_of_words, shown.runs)) or _(ONLY_AFTER),
                chosen=_(COMMONEST_WITH if assembly else COMMONEST) if len(found) > 1 else None,
                several=len(every) > 1,
                states=views,
                bands=_(BANDS),
                worked_out=worked_out_words(circuit),
            )


def _of_assembly(site: Site, arranged: Arranged, assembly: Assembly | None) -> Iterator[StateView]:
    running = site.answers.running(arranged)
    yield from (_state(worked, ()) for worked in running)
    for change in running[0].changes if assembly else ():
        if change.harms and change.fault.piece.of is assembly:
            yield _faulty(change)


def _faulty(change: Change) -> StateView:
    return replace(_state(change.worked, ()), title=fault_words(change.fault, change.worked.arranged.circuit))


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
