"""What grows without end comes in pieces of about so many bytes, which a telephone loads one at a time.

A place, which is a position in a series, has a page of its own where the page of either would be too long
with all of them. What is counted here is what they have most of; how many bytes each takes was measured.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from itertools import pairwise
from typing import TypeVar

from spanbook.answers.answers import Answers
from spanbook.ground.cuts import ends
from spanbook.reading.records import Machine, Series

BOUND = 145_000  # of the inside of a page, in bytes: with our own frame around it 150,000
_BAR, _CHART, _DOT = 430, 900, 270
_SEGMENT, _TABLE, _BREAK = 650, 500, 1_700
_ASSEMBLY = 600

T = TypeVar("T")


def runs(rows: Iterable[T], size: Callable[[T], int], taken: int = 0) -> list[tuple[T, ...]]:
    """The rows in their order, cut into runs that stay within the bound where no row alone is beyond it.

    `taken` are the bytes that the first of them has no more room for.
    """
    made: list[list[T]] = []
    total = taken
    for row in rows:
        total += size(row)
        if not made:
            made.append([])
        elif total > BOUND:
            made.append([])
            total = size(row)
        made[-1].append(row)
    return [tuple(run) for run in made]


def lasting_runs(rows: Sequence[T], size: Callable[[T], int], key: Callable[[T], str]) -> list[tuple[T, ...]]:
    """The rows in their order, cut by what their keys are: another row moves the cuts beside it alone."""
    cuts = ends([key(row) for row in rows], [size(row) for row in rows], BOUND * 3 // 4)
    return [tuple(rows[begin:end]) for begin, end in pairwise((0, *cuts, len(rows)))]


def chart_of(answers: Answers, series: Series, positions: Iterable[str]) -> int:
    """About how many bytes the chart of positions over a series takes."""
    return _CHART + _BAR * sum(len(answers.fits.segments(series, path)) for path in positions)


def of_series(answers: Answers, series: Series) -> int:
    """About how many bytes the page of a series takes in one piece."""
    positions = answers.fits.positions(answers.register.machines[series.machine])
    segments = sum(len(answers.fits.segments(series, path)) for path in positions)
    tables = _SEGMENT * segments + _TABLE * len(positions)
    return chart_of(answers, series, positions) + tables + _BREAK * len(answers.breaks_of(series))


def of_machine(answers: Answers, machine: Machine) -> int:
    """About how many bytes the charts of all series take on the page of their machine."""
    positions = answers.fits.positions(machine)
    return sum(chart_of(answers, series, positions) for series in machine.series)


def of_position(answers: Answers, path: str) -> int:
    """About how many bytes the page of a position takes in one piece."""
    machines = answers.register.machines.values()
    having = (machine for machine in machines if path in answers.fits.positions(machine))
    charts = sum(chart_of(answers, series, [path]) for machine in having for series in machine.series)
    looked = answers.register.found_at.get(path, ())
    seen = _DOT * sum(find.position == path for teardown in looked for find in teardown.found)
    return charts + seen + _ASSEMBLY * len(answers.register.at_position.get(path, ()))
