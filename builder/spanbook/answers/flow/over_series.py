"""Which arrangements of a circuit left the works, and in which runs of numbers, by the spans alone."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from math import prod

from spanbook.answers.applicability import Fits, Segment, State
from spanbook.answers.flow.pieces import Arranged, arranged, positions_of
from spanbook.ground.intervals import Span, SpanSet
from spanbook.reading.records import Assembly, Circuit, Series

# Of a run of numbers in which more is possible nothing is told.
MOST_AT_ONCE = 16


@dataclass(frozen=True, slots=True, eq=False)
class Run:
    """Numbers of one series; `sure` where every position is settled."""

    series: Series
    numbers: SpanSet
    sure: bool


@dataclass(frozen=True, slots=True, eq=False)
class OverSeries:
    """One arrangement, and the numbers that surely or possibly left the works with it."""

    arranged: Arranged
    runs: tuple[Run, ...]

    @property
    def sure(self) -> bool:
        return any(run.sure for run in self.runs)


def over_series(fits: Fits, circuit: Circuit) -> tuple[OverSeries, ...]:
    """Every arrangement that left the works, those that surely did first, then as the numbers run."""
    positions = positions_of(circuit)
    found: dict[tuple[Assembly | None, ...], dict[tuple[Series, bool], list[Span]]] = {}
    for series in fits.register.machines[circuit.machine].series:
        for run, choices in _runs(fits, series, positions):
            sure = all(state in (State.SETTLED, None) for state, _ in choices)
            options = [held or (None,) for _, held in choices]
            if prod(map(len, options)) > MOST_AT_ONCE:
                continue
            for fitted in product(*options):
                found.setdefault(fitted, {}).setdefault((series, sure), []).append(run)
    made = (_over(circuit, positions, fitted, runs) for fitted, runs in found.items())
    return tuple(sorted(made, key=lambda one: not one.sure))


def _over(
    circuit: Circuit,
    positions: Sequence[str],
    fitted: Sequence[Assembly | None],
    runs: Mapping[tuple[Series, bool], list[Span]],
) -> OverSeries:
    here = {position: one for position, one in zip(positions, fitted, strict=True) if one}
    told = (Run(series, SpanSet.of(spans), sure) for (series, sure), spans in runs.items())
    return OverSeries(arranged(circuit, here), tuple(sorted(told, key=lambda run: not run.sure)))


def _runs(
    fits: Fits, series: Series, positions: Sequence[str]
) -> Iterator[tuple[Span, list[tuple[State | None, tuple[Assembly, ...]]]]]:
    """The numbers of a series cut wherever a position changes, with what each position has there."""
    has = fits.positions(fits.register.machines[series.machine])
    at = {position: fits.segments(series, position) for position in positions if position in has}
    begins = sorted({series.first, *(one.first for segments in at.values() for one in segments)})
    for first, after in zip(begins, [*begins[1:], None], strict=True):
        last = after - 1 if after is not None else series.last
        here = [_at(at.get(position, ()), first) for position in positions]
        yield Span(first, last), here


def _at(segments: Sequence[Segment], number: int) -> tuple[State | None, tuple[Assembly, ...]]:
    """What a position has at a number; a position that the machine lacks has nothing, surely."""
    segment = next((one for one in segments if number in one), None)
    if segment is None:
        return None, ()
    return segment.state, tuple(dict.fromkeys(fit.assembly for fit in segment.fits))
