"""Which sizes are worth measuring, as questions to the owners of the machines that surely have them.

A size that one arrangement asks for may be in others as well: then all their machines are asked, and how
unsure it is is the mean over them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from spanbook.answers.flow.over_series import OverSeries
from spanbook.answers.flow.to_measure import Measure
from spanbook.answers.questions import About, Question, machines_in
from spanbook.ground.intervals import SpanSet
from spanbook.reading.records import Assembly, Series

# Of a figure that nobody can work out, or that moves over its whole range: a size is no matter of which part.
UNSURE = 0.1


def measures_asked(
    series: Series, found: Iterable[tuple[OverSeries, Iterable[tuple[Measure, float]]]]
) -> Iterator[Question]:
    """What is worth measuring in each arrangement, with the share that it moves, asked of one series."""
    numbers: dict[Measure, SpanSet] = {}
    worth: dict[Measure, float] = {}
    for over, measures in found:
        runs = [run.numbers for run in over.runs if run.sure and run.series is series]
        here = SpanSet.of(span for run in runs for span in run) & series.issued
        for measure, share in measures if here else ():
            numbers[measure] = numbers.get(measure, SpanSet()) | here
            worth[measure] = worth.get(measure, 0.0) + share * machines_in(here)
    for measure, asked in numbers.items():
        unsure = UNSURE * min(1.0, worth[measure] / machines_in(asked))
        of = measure.of
        held = (of,) if isinstance(of, Assembly) else ()
        position = of.position if isinstance(of, Assembly) else None
        yield Question(About.MEASURE, position, series, asked, unsure, held, measure=measure)
