"""The machine cards of a series as tables: for every position, runs of numbers of which the same is said.

A run has how well it is known what was there, the shortest answer, and every sentence under its heading. What
was seen on single machines stands by their numbers, in tables of its own. Every sentence was made here, so
that the script in the page looks up and never reasons.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from itertools import pairwise
from operator import attrgetter
from typing import Any

from spanbook.answers.applicability import State
from spanbook.answers.breaks import Break
from spanbook.answers.question_anchor import anchor
from spanbook.answers.questions import Question
from spanbook.answers.readings import Reading, reading_of
from spanbook.answers.standing import Standing
from spanbook.answers.this_machine import MOST_QUESTIONS, odds_at
from spanbook.ground.intervals import Span, SpanSet
from spanbook.reading.records import Series, Unit
from spanbook.site import addresses
from spanbook.site.card import found, seen, units
from spanbook.site.card.lines import Lines, Once
from spanbook.site.card.units import told_by
from spanbook.site.common import Site
from spanbook.site.each import EachTable, File
from spanbook.site.finder.tables import script
from spanbook.wording.card import several_words, words
from spanbook.wording.fits import state_meaning, state_word
from spanbook.wording.odds import odds_words
from spanbook.wording.questions import question_words
from spanbook.wording.standings import standing_meaning, standing_word
from spanbook.wording.this_machine import recorded_sections, short_words
from spanbook.wording.which_machine import head_words

FOLDER = "assets/card/"


def _files(site: Site, series: Series) -> Iterator[File]:
    """The tables of a series by their addresses."""
    for name, table in _tables(site, series):
        yield f"{FOLDER}{name}.js", script(name, table)


def _tables(site: Site, series: Series) -> Iterator[tuple[str, Any]]:
    table, blocks = _Series(site, series).tables()
    yield series.id, table
    for i, block in enumerate(blocks):
        yield f"{series.id}-seen-{i}", block
    positions = site.answers.fits.positions(site.machine_of(series))
    yield f"{series.id}-pictures", _pictures(site, positions)
    yield found.index(site, series, positions)


def _found(site: Site, place: found.Place) -> Iterator[File]:
    table = found.table(site, place)
    if table:
        name = found.name_of(place)
        yield f"{FOLDER}{name}.js", script(name, table)


def _of_unit(site: Site, unit: Unit) -> Iterator[File]:
    reading = units.reading_of(site, unit)
    if reading:
        name = units.name_of(unit)
        yield f"{FOLDER}{name}.js", script(name, units.table(site, reading))


def several() -> Iterator[File]:
    """What is said of a machine where somebody gives several numbers together."""
    yield f"{FOLDER}several.js", script("several", several_words())


EACH = EachTable(lambda site: site.register.series.values(), attrgetter("id"), _files)
EACH_FOUND = EachTable(found.places, found.name_of, _found)
EACH_UNIT = EachTable(lambda site: site.register.unit_records.values(), attrgetter("id"), _of_unit)


def _pictures(site: Site, positions: Iterable[str]) -> dict[str, Mapping[str, str]]:
    """By the address of each position the small pictures of what may be there, by the addresses of pages."""
    shown = site.pictures_at
    return {addresses.of_position(path): shown[path] for path in positions if path in shown}


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


def changes(first: int, last: int, said: Callable[[int], object]) -> Iterator[int]:
    """The numbers after `first` at which what is said changes, where it never comes back to what it was."""
    if first >= last or said(first) == said(last):
        return
    middle = (first + last) // 2
    yield from changes(first, middle, said)
    if said(middle) != said(middle + 1):
        yield middle + 1
    yield from changes(middle + 1, last, said)


@dataclass
class _Series:
    """The tables of one series, with what its runs share."""

    site: Site
    series: Series
    lines: Lines = field(default_factory=Lines)
    shorts: Once = field(default_factory=Once)

    def tables(self) -> tuple[dict[str, Any], list[dict[int, Any]]]:
        """The table of the series, and those of the machines that somebody looked at."""
        site, series, answers = self.site, self.series, self.site.answers
        paths = answers.fits.positions(site.machine_of(series))
        positions = [self._position(path) for path in paths]
        questions, asked = self._questions()
        blocks = seen.blocks(answers, series, paths, asked)
        return {
            "heads": list(self._heads()),
            "series": [series.name, addresses.of_series(series)],
            "positions": positions,
            "shorts": self.shorts.held,
            "sections": self.lines.sections.held,
            "lines": self.lines.lines.held,
            "known": _known(),
            "seen": [min(block) for block in blocks],
            "worn": seen.worn(answers, series, paths),
            "questions": questions,
            "most-questions": MOST_QUESTIONS,
            "all-questions": addresses.of_questions(series),
            "words": words(),
        }, blocks

    def _heads(self) -> Iterator[list[Any]]:
        """From which number on the machine's first sentence is which."""
        for first in self.series.order.cuts():
            yield [first, head_words(self.site.register, self.series, first)]

    def _questions(self) -> tuple[list[Any], dict[int, list[int]]]:
        """The questions of the cards in their order, and those of each machine that was looked at.

        The first few of a machine that was looked at stand further back: some of them are answered.
        """
        answers = self.site.answers
        every = answers.machines.asked(self.series)
        of_seen = seen.questions_of(answers, self.series)
        wanted = {*first_few(every), *(question for held in of_seen.values() for question in held)}
        kept = [question for question in every if question in wanted]
        at = {question: i for i, question in enumerate(kept)}
        return (
            [
                [
                    [[run.first, run.last] for run in question.runs],
                    question_words(self.site.register, question),
                    anchor(question),
                ]
                for question in kept
            ],
            {number: [at[question] for question in held] for number, held in of_seen.items()},
        )

    def _position(self, path: str) -> list[Any]:
        runs: list[list[Any]] = []
        for piece in self._pieces(path):
            told = self._told(reading_of(self.series, piece.first), path)
            if runs and runs[-1][2:] == told:
                runs[-1][1] = piece.last
            else:
                runs.append([piece.first, piece.last, *told])
        key = self.site.keys.get((path, False), "")
        return [*self._head(path), runs, told_by(self.site, self.series, path), key]

    def _head(self, path: str) -> list[str]:
        """What a position is called, the groups that it stands in, and its address."""
        link = self.site.position_links(path)[-1]
        return [link.text, self.site.groups_of(path), link.address]

    def _told(self, reading: Reading, path: str) -> list[Any]:
        register = self.site.register
        place = self.site.answers.machines.at(reading, path)
        short = short_words(register, place)
        sections = [self.lines.section(*section) for section in recorded_sections(register, place)]
        return [str(place.known), self.shorts.place(short, short), sections]

    def _pieces(self, path: str) -> Iterator[Span]:
        """The numbers that the records tell alike, cut where the words about the odds change."""
        answers = self.site.answers
        cuts = {at for one in answers.breaks_at((self.series, path)) for at in _odds_change(one)}
        for piece in answers.fits.told_alike((self.series, path)):
            inside = sorted(at for at in cuts if at in piece and at != piece.first)
            edges = [piece.first, *inside]
            for first, following in pairwise(edges):
                yield Span(first, following - 1)
            yield Span(edges[-1], piece.last)


def _known() -> dict[str, list[str]]:
    """How well what was there is known: each in a word, and what the word means."""
    disputed = Standing.DISPUTED
    return {
        **{str(state): [state_word(state), state_meaning(state)] for state in State},
        str(disputed): [standing_word(disputed), standing_meaning(disputed)],
    }


def _odds_change(one: Break) -> Iterator[int]:
    runs = one.report.posterior.runs
    if not runs:
        return

    def said(number: int) -> object:
        odds = odds_at(one, number)
        return odds_words(odds) if odds else None

    first, last = runs[0].first, runs[-1].last
    yield first
    yield from changes(first, last - 1, said)
    yield last
