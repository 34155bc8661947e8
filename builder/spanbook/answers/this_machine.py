"""One very machine, position by position: what it left the works with, what was seen on it, what it may have
been changed to. The three are kept apart, and what was seen comes first: nobody is asked what is known.

The odds are a break's posterior read at one number: how probable it is that the machine was made before the
change. They are given where more than the printed range speaks of the break.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import islice

from spanbook.answers.answered import answered
from spanbook.answers.applicability import AtPosition, Fit, Fits, Segment, State
from spanbook.answers.breaks import Break
from spanbook.answers.looks import Looks
from spanbook.answers.meaning import Meaning, meaning
from spanbook.answers.parts_here import PartsHere, parts_here
from spanbook.answers.questions import About, Question
from spanbook.answers.readings import Reading
from spanbook.answers.standing import Judge, Judgement, Standing
from spanbook.answers.steps import Step
from spanbook.ground.intervals import Covers
from spanbook.ground.memo import Memo
from spanbook.reading.records import Assembly, Find, Series, Teardown
from spanbook.register.units import Number

MOST_QUESTIONS = 5  # that one owner is asked


@dataclass(frozen=True, slots=True)
class Left:
    """An assembly that the machine surely or possibly left the works with, and its standing."""

    fit: Fit
    judgement: Judgement

    @property
    def disputed(self) -> bool:
        return self.judgement.standing is Standing.DISPUTED


@dataclass(frozen=True, slots=True)
class Odds:
    """How probable it is that a machine was made before a break, by all that bears on that break."""

    at: Break
    before: Fraction


@dataclass(frozen=True, slots=True)
class SeenHere:
    """What a teardown found at a position; `exact` is false where its worn number only may be this one."""

    teardown: Teardown
    find: Find
    exact: bool
    meaning: Meaning


@dataclass(frozen=True, slots=True)
class ChangedTo:
    """An assembly that may have been fitted later: by the spans, and the conversions, that say so."""

    assembly: Assembly
    fits: tuple[tuple[Fit, Judgement], ...]
    steps: tuple[tuple[Step, Judgement], ...]


@dataclass(frozen=True, slots=True)
class ThisPosition:
    """What is known of one position of one machine, by `reading`, the number of it that tells.

    `others` are those of its numbers under which something else is recorded.
    """

    position: str
    reading: Reading
    segment: Segment
    left: tuple[Left, ...]
    odds: tuple[Odds, ...]
    seen: tuple[SeenHere, ...]
    changed: tuple[ChangedTo, ...]
    parts: tuple[PartsHere, ...]
    others: tuple[tuple[Number, Segment], ...] = ()

    @property
    def state(self) -> State:
        return self.segment.state

    @property
    def known(self) -> State | Standing:
        """How well it is known what it left the works with: the state, or that somebody saw, or printed,
        otherwise than what the records surely have here."""
        disputed = any(left.disputed and left.fit.covers is Covers.YES for left in self.left)
        return Standing.DISPUTED if disputed and self.state is not State.CONFLICT else self.state


@dataclass(frozen=True, slots=True)
class ThisMachine:
    """One machine by its number; without positions where it was never issued.

    `teardowns` are those of this very machine, under any of its numbers, `perhaps` those of worn numbers that
    may be it. `questions` are the first few that its owner could settle, first what the fewest other machines
    could.
    """

    reading: Reading
    positions: tuple[ThisPosition, ...]
    teardowns: tuple[Teardown, ...]
    perhaps: tuple[Teardown, ...]
    questions: tuple[Question, ...]


class Machines:
    """Every machine of one register. What several of them share is looked up once."""

    def __init__(
        self,
        fits: Fits,
        judge: Judge,
        breaks_at: Callable[[tuple[Series, str]], Sequence[Break]],
        questions_of: Callable[[Series], Sequence[Question]],
    ) -> None:
        self.fits = fits
        self.judge = judge
        self.breaks_at = breaks_at
        self.looks = Looks(fits)
        self.asked: Memo[Series, list[Question]] = Memo(
            lambda series: sorted(questions_of(series), key=_rarest)
        )

    def of(self, reading: Reading) -> ThisMachine:
        """All that is known of the machine with a number."""
        if not reading.issued:
            return ThisMachine(reading, (), (), (), ())
        if reading.parts:
            return self._together(reading)
        machine = self.fits.register.machines[reading.series.machine]
        return ThisMachine(
            reading,
            tuple(self.place(reading, position) for position in self.fits.positions(machine)),
            self.looks.of(reading),
            self.looks.perhaps(reading),
            tuple(islice(self.open_to(reading), MOST_QUESTIONS)),
        )

    def _together(self, reading: Reading) -> ThisMachine:
        """What is known under each of several numbers, every position by the one that tells of it."""
        each = [self.of(part) for part in reading.parts]
        places = []
        for same in zip(*(one.positions for one in each), strict=True):
            told = self.fits.speaking.of(reading, same[0].position).own
            place = next(one for one in same if one.reading.own == told)
            seen = tuple(here for one in same for here in one.seen)
            places.append(replace(place, reading=place.reading.among(reading), seen=seen))
        return ThisMachine(
            reading,
            tuple(places),
            tuple(dict.fromkeys(teardown for one in each for teardown in one.teardowns)),
            tuple(dict.fromkeys(teardown for one in each for teardown in one.perhaps)),
            tuple(dict.fromkeys(question for one in each for question in one.questions))[:MOST_QUESTIONS],
        )

    def at(self, reading: Reading, position: str) -> ThisPosition:
        """One position of the machine with an issued number, as if nobody had looked at it."""
        place = self.fits.at(reading, position)
        changed = tuple(self._changed(place))
        held = (*(fit.assembly for fit in place.segment.fits), *(one.assembly for one in changed))
        return ThisPosition(
            position,
            place.reading,
            place.segment,
            tuple(Left(fit, self._judged(fit)) for fit in place.segment.fits),
            tuple(self._odds(place.reading, position)),
            (),
            changed,
            tuple(parts_here(self.fits.lists, self.judge, place.reading, held)),
            tuple(self._others(place)),
        )

    def place(self, reading: Reading, position: str) -> ThisPosition:
        """All that is known of one position of the machine with an issued number."""
        return replace(self.at(reading, position), seen=tuple(self.seen_at(reading, position)))

    def seen_at(self, reading: Reading, position: str) -> Iterator[SeenHere]:
        """What the teardowns of a machine found at one position, those that are surely of it first."""
        yield from self.found(self.looks.of(reading), reading, position, exact=True)
        yield from self.found(self.looks.perhaps(reading), reading, position, exact=False)

    def found(
        self, teardowns: Iterable[Teardown], reading: Reading, position: str, *, exact: bool
    ) -> Iterator[SeenHere]:
        """What some teardowns found at a position, if they are of the machine with a number."""
        for teardown in teardowns:
            for find in teardown.found:
                if find.position == position:
                    yield SeenHere(teardown, find, exact, meaning(self.judge, find, reading))

    def open_to(self, reading: Reading) -> Iterator[Question]:
        """The questions that the owner of a machine could settle and nobody's look at it has answered."""
        finds = [find for t in self.looks.of(reading) for find in t.found]
        open_ = (question for one in reading.built for question in self._asked_of(reading.by(one)))
        # Of one number they stand in this order already.
        for question in sorted(open_, key=_rarest):
            if not answered(question, finds):
                yield question

    def _asked_of(self, reading: Reading) -> Iterator[Question]:
        """The questions that a machine is asked by one of its numbers."""
        for question in self.asked(reading.series):
            if reading.number in question.numbers:
                position = question.tells
                told = self.fits.speaking.of(reading, position) if position else reading
                if told.own == reading.own:
                    yield question

    def _others(self, place: AtPosition) -> Iterator[tuple[Number, Segment]]:
        """The other numbers of a machine under which something else is recorded at a position."""
        told = place.reading
        for one in told.numbers:
            segment = self.fits.segment(one, place.position)
            if one != told.own and segment.fits and _held(segment) != _held(place.segment):
                yield one, segment

    def _judged(self, fit: Fit) -> Judgement:
        return self.judge.of(self.fits.register.said[fit.fitting])

    def _odds(self, reading: Reading, position: str) -> Iterator[Odds]:
        for one in self.breaks_at((reading.series, position)):
            if odds := odds_at(one, reading.number):
                yield odds

    def _changed(self, place: AtPosition) -> Iterator[ChangedTo]:
        """The assemblies that were supplied later or that a conversion leads to, each once."""
        said = self.fits.register.said
        later = [fit for fit in place.fits if fit.span.fitted != "factory"]
        steps = self.fits.applying.at(place.reading, place.position)
        made = (self.fits.register.assemblies[step.at[place.position].to] for step in steps)
        for assembly in dict.fromkeys((*(fit.assembly for fit in later), *made)):
            yield ChangedTo(
                assembly,
                tuple((fit, self._judged(fit)) for fit in later if fit.assembly is assembly),
                tuple(
                    (step, self.judge.of(said[step.conversion]))
                    for step in steps
                    if step.at[place.position].to == assembly.id
                ),
            )


def odds_at(one: Break, number: int) -> Odds | None:
    """The odds of a number at a break; None where it is beyond doubt on one side, or where nothing but the
    printed range speaks of the break: its numbers are all as likely then."""
    runs = one.report.posterior.runs
    if not runs or not runs[0].first <= number < runs[-1].last:
        return None
    if len({run.each for run in runs}) == 1:
        return None
    return Odds(one, 1 - one.report.posterior.mass(runs[0].first, number))


def _rarest(question: Question) -> tuple[bool, int]:
    """First what the fewest other machines could settle; last what says nothing of which machine has what."""
    return question.about in (About.MEASURE, About.ALIKE), question.machines


def _held(segment: Segment) -> set[tuple[Assembly, bool]]:
    """What a segment has, whichever spans say so."""
    return {(fit.assembly, fit.covers is Covers.YES) for fit in segment.fits}
