"""What is not known of lines that go by the number: questions to the owners of exactly those machines.

Which of two lines that follow one another a machine has is asked where the break between them may lie, as
unsure as a break of assemblies; whether a line is there, where it only may be and no other follows it; and a
span of a line that is disputed, of the machines that it may cover. Only machines are asked that may have left
the works with the assembly, or been supplied with it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from spanbook.answers.applicability import Fits
from spanbook.answers.ever import union
from spanbook.answers.line_breaks import LineBreak
from spanbook.answers.lines import Line
from spanbook.answers.questions import About, Question
from spanbook.answers.standing import Judgement, Standing
from spanbook.ground.intervals import SpanSet
from spanbook.reading.records import Assembly, Series
from spanbook.register.statements import Limit, Statement

UNSURE = 0.5  # of what is disputed, or may be there or not


def lines_asked(
    fits: Fits, judged: Mapping[Statement, Judgement], breaks: Iterable[LineBreak]
) -> Iterator[Question]:
    """What is open of the lines of the assemblies whose statements were judged."""
    for one in breaks:
        yield from _break(fits, one)
    for statement, judgement in judged.items():
        limit = statement.subject
        if isinstance(limit, Limit):
            line = fits.lists.line_of(limit)
            reach = fits.lists.reach_of(limit)
            if judgement.standing is Standing.DISPUTED:
                yield from _asked(fits, limit.series, (line,), reach.possibly, UNSURE)
            elif not fits.lists.beside(line):
                yield from _asked(fits, limit.series, (line,), reach.possibly - reach.surely, UNSURE)


def _break(fits: Fits, one: LineBreak) -> Iterator[Question]:
    found = one.found.report.posterior
    if found.contradiction:
        run, unsure = one.found.report.claim, 1.0
    else:
        run, unsure = found.interval(), 1 - float(max(even.each for even in found.runs))
    if unsure > 0:
        numbers = SpanSet.run(run.first, run.last)
        yield from _asked(fits, one.series, (one.earlier, one.later), numbers, unsure)


def _asked(
    fits: Fits, series: Series, lines: tuple[Line, ...], numbers: SpanSet, unsure: float
) -> Iterator[Question]:
    assembly = lines[0].assembly
    asked = numbers & series.issued & _supplied(fits, series, assembly)
    if asked:
        yield Question(About.LINE, assembly.position, series, asked, unsure, (assembly,), lines=lines)


def _supplied(fits: Fits, series: Series, assembly: Assembly) -> SpanSet:
    """The numbers that possibly had an assembly, as it left the works or was supplied."""
    placed = fits.placed(series, assembly.position)
    return union(one.reach.possibly for one in placed if one.fitting.assembly is assembly)
