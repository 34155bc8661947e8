"""The machine cards of a series as one table: for every position, runs of numbers with one answer each.

A run has its state and lines; a line is an assembly with every sentence the card says of it, so that the
script in the page looks up and never reasons.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import Any

from spanbook.answers.applicability import Fit, State, covering
from spanbook.answers.bounds import pieces, reach_of
from spanbook.answers.questions import Question, anchor
from spanbook.ground.intervals import SpanSet
from spanbook.reading.records import Series
from spanbook.site import addresses
from spanbook.site.common import Site
from spanbook.site.finder.tables import script
from spanbook.wording.card import WORDS
from spanbook.wording.conversions import POSSIBLY, turns_words
from spanbook.wording.fits import STATE_MEANINGS, STATES, fit_on_whose_word
from spanbook.wording.questions import question_words
from spanbook.wording.years import years_words

FOLDER = "assets/card/"
MOST_QUESTIONS = 5  # on a card


def files(site: Site) -> dict[str, bytes]:
    """The table of every series by its address."""
    return {
        f"{FOLDER}{series.id}.js": script(series.id, _series(site, series))
        for series in site.register.series.values()
    }


@dataclass(slots=True)
class _Lines:
    """Lines by their number: each assembly and span in one certainty stands once."""

    site: Site
    lines: list[list[Any]] = field(default_factory=list)
    known: dict[Fit, int] = field(default_factory=dict)

    def number(self, fit: Fit) -> int:
        if fit not in self.known:
            self.known[fit] = len(self.lines)
            self.lines.append(self._line(fit))
        return self.known[fit]

    def _line(self, fit: Fit) -> list[Any]:
        assembly, words = fit.assembly, fit_on_whose_word(self.site.register, fit)
        return [assembly.id, assembly.title, addresses.of_record(assembly), words]


def first_few(questions: Iterable[Question], most: int = MOST_QUESTIONS) -> Iterator[Question]:
    """Those that are among the first few of at least one number, in their order."""
    # Layer k holds the numbers that have more than k of those given so far.
    layers = [SpanSet() for _ in range(most)]
    for question in questions:
        span = question.numbers
        if not span - layers[-1]:
            continue
        yield question
        for k in range(most - 1, 0, -1):
            layers[k] |= layers[k - 1] & span
        layers[0] |= span


def _series(site: Site, series: Series) -> dict[str, Any]:
    lines = _Lines(site)
    machine = site.machine_of(series)
    # First what the fewest other machines could settle: on the general questions anybody can be asked.
    questions = sorted(site.answers.questions_of(series), key=lambda question: question.machines)
    positions = [_position(site, series, path, lines) for path in site.answers.fits.positions(machine)]
    return {
        "machine": machine.title,
        "series": series.name,
        "address": addresses.of_series(series),
        "years": [[first, _year(series, first)] for first in series.years.firsts],
        "positions": positions,
        "lines": lines.lines,
        "conversions": list(_conversions(site, series)),
        "questions": [row for q in first_few(questions) for row in _question(site, q)],
        "most-questions": MOST_QUESTIONS,
        "all-questions": addresses.of_questions(series),
        "states": {str(state): [STATES[state], STATE_MEANINGS[state]] for state in State},
        "words": WORDS,
    }


def _question(site: Site, question: Question) -> Iterator[list[Any]]:
    """A question as a row a run of its numbers, so that it is asked of those alone."""
    words = question_words(site.register, question)
    for run in question.runs:
        yield [run.first, run.last, words, anchor(question)]


def _year(series: Series, first: int) -> str:
    years = series.years.year_of(first)
    return years_words(years) if years else ""


def _position(site: Site, series: Series, path: str, lines: _Lines) -> list[Any]:
    spans = site.answers.fits.placed(series, path)
    runs: list[list[Any]] = []
    found = site.segments(series, path)
    for piece in pieces(series.issued, [one.reach for one in spans]):
        first = piece.first
        segment = next(s for s in found if first in s)
        numbers = [lines.number(fit) for fit in covering(spans, first)]
        if runs and runs[-1][2:] == [str(segment.state), numbers]:
            runs[-1][1] = piece.last
        else:
            runs.append([first, piece.last, str(segment.state), numbers])
    line = site.position_links(path)
    group = ": ".join(link.text for link in line[:-1])
    return [path, line[-1].text, group, line[-1].address, runs]


def _conversions(site: Site, series: Series) -> Iterator[list[Any]]:
    """Each conversion that a machine of the series may take: a run of numbers, how sure, and which."""
    for conversion in site.register.conversions.values():
        for span in conversion.serials:
            if span.series == series.id:
                reach = reach_of(span, series)
                words = turns_words(site.register, conversion)
                line = [conversion.position, conversion.title, addresses.of_record(conversion), words]
                for run in reach.surely:
                    yield [run.first, run.last, "", *line]
                for run in reach.possibly - reach.surely:
                    yield [run.first, run.last, POSSIBLY, *line]
