"""What is not known, and whose machine should be looked at next: questions that somebody can go and answer.

A question's worth is the number of machines that an answer would settle, times how unsure it is: 1 where
nothing is known, one less the probability of the likeliest place for a break, one half for what is
disputed or rests on nothing, one quarter for what is printed and was never seen, one tenth for part numbers
that nobody has told of reading on an assembly that was seen.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum

from spanbook.answers.applicability import Fits, Reading, State, reach_of
from spanbook.answers.breaks import Break
from spanbook.answers.standing import Judgement, Standing, Weight
from spanbook.ground.intervals import Run, SpanSet
from spanbook.reading.records import Assembly, Series
from spanbook.register.statements import Fitting, Statement, Use

OPEN_SERIES = 100  # how many machines a run without a known end is taken to have


class About(StrEnum):
    """What a question is about."""

    BREAK = "break"
    BLANK = "blank"
    DISPUTED = "disputed"
    UNSUPPORTED = "unsupported"
    NEVER_SEEN = "never seen"
    PARTS = "parts never read"


@dataclass(frozen=True, slots=True)
class Question:
    """Something that the owners of numbers first..last could settle; last None: and up."""

    about: About
    position: str
    series: Series
    first: int
    last: int | None
    machines: int
    unsure: float
    words: str
    assemblies: tuple[Assembly, ...]

    @property
    def worth(self) -> float:
        return self.machines * self.unsure

    def concerns(self, reading: Reading) -> bool:
        above = self.last is None or reading.number <= self.last
        return self.series is reading.series and self.first <= reading.number and above


def questions(
    fits: Fits,
    judged: Mapping[Statement, Judgement],
    breaks: Iterable[Break],
    only: Collection[str] | None = None,
) -> tuple[Question, ...]:
    """Every open question, the worthiest first, equals by series, position and number.

    `judged` and `breaks` decide which statements and breaks are asked about, and `only` the positions
    whose blanks are.
    """
    found = [*_breaks(fits, breaks), *_blanks(fits, only), *_spans(fits, judged), *_parts(fits, judged)]
    return tuple(sorted(found, key=lambda q: (-q.worth, q.series.id, q.position, q.first, q.about, q.words)))


def _breaks(fits: Fits, breaks: Iterable[Break]) -> Iterator[Question]:
    for one in breaks:
        found = one.report.posterior
        if found.contradiction:
            run, unsure = one.report.claim, 1.0
        else:
            run, unsure = found.interval(), 1 - float(max(even.each for even in found.runs))
        if unsure > 0:
            yield _question(fits, About.BREAK, one, run, unsure)


def _question(fits: Fits, about: About, one: Break, run: Run, unsure: float) -> Question:
    title = fits.register.positions[one.position].title.lower()
    words = (
        f"{owners(one.series, run.first, run.last)}: which of these two is your {title}, "
        f"the {one.earlier.title} or the {one.later.title}?"
    )
    machines = sum(issued.size for issued in one.series.issued.within(run)) or 1
    both = (one.earlier, one.later)
    return Question(about, one.position, one.series, run.first, run.last, machines, unsure, words, both)


def _blanks(fits: Fits, only: Collection[str] | None) -> Iterator[Question]:
    for machine in fits.register.machines.values():
        for series in machine.series:
            for position in (p for p in fits.positions(machine) if only is None or p in only):
                for segment in fits.segments(series, position):
                    if segment.state is State.BLANK:
                        title = fits.register.positions[position].title.lower()
                        words = f"{owners(series, segment.first, segment.last)}: what is your {title}?"
                        count = (SpanSet.run(segment.first, segment.last) & series.issued).count()
                        known = tuple(fits.register.at_position.get(position, ()))
                        machines = count or OPEN_SERIES
                        yield Question(
                            About.BLANK,
                            position,
                            series,
                            segment.first,
                            segment.last,
                            machines,
                            1.0,
                            words,
                            known,
                        )


def _spans(fits: Fits, judged: Mapping[Statement, Judgement]) -> Iterator[Question]:
    asks = {
        Standing.DISPUTED: (About.DISPUTED, 0.5, "is it really the {}?"),
        Standing.UNSUPPORTED: (About.UNSUPPORTED, 0.5, "is it the {}? Nothing is named that says so"),
        Standing.PRINTED: (About.NEVER_SEEN, 0.25, "is it the {}, as printed? Nobody has told of seeing one"),
    }
    for statement, judgement in judged.items():
        fitting = statement.subject
        if not isinstance(fitting, Fitting) or judgement.standing not in asks:
            continue
        series = fitting.series
        reach = reach_of(fitting.span, series).possibly
        about, unsure, ask = asks[judgement.standing]
        title = fits.register.positions[fitting.assembly.position].title.lower()
        first, last = reach.first, reach.last
        words = f"{owners(series, first, last)}: look at your {title}: {ask.format(fitting.assembly.title)}"
        machines = reach.count() or OPEN_SERIES
        yield Question(
            about,
            fitting.assembly.position,
            series,
            first,
            last,
            machines,
            unsure,
            words if words.endswith("?") else f"{words}.",
            (fitting.assembly,),
        )


def _parts(fits: Fits, judged: Mapping[Statement, Judgement]) -> Iterator[Question]:
    """Assemblies that were seen on machines, with the numbers that nobody has told of reading on them."""
    register = fits.register
    for assembly in dict.fromkeys(s.record for s in judged if isinstance(s.record, Assembly)):
        unread = [
            statement.subject.use.number
            for statement in register.statements_of[assembly]
            if isinstance(statement.subject, Use)
            and not {Weight.SEEN, Weight.SET_ASIDE} & {reason.weight for reason in judged[statement].reasons}
        ]
        fitting = next(register.fittings_of(assembly), None)
        if unread and fitting and register.found.get(assembly.id):
            series = fitting.series
            reach = reach_of(fitting.span, series).possibly
            first, last = reach.first, reach.last
            numbers = ", ".join(unread[:8]) + (" and more" if len(unread) > 8 else "")
            words = (
                f"{owners(series, first, last)}: can a number be read on any part of your {assembly.title}? "
                f"Nobody has told of reading {numbers}."
            )
            machines = reach.count() or OPEN_SERIES
            held = (assembly,)
            yield Question(About.PARTS, assembly.position, series, first, last, machines, 0.1, words, held)


def owners(series: Series, first: int, last: int | None) -> str:
    show = series.stamp.show
    if last is None:
        return f"Owners of {show(first)} and up"
    return f"Owner of {show(first)}" if first == last else f"Owners of {show(first)} to {show(last)}"


def anchor(question: Question) -> str:
    """Its place on the page of open questions."""
    held = "-".join(assembly.id for assembly in question.assemblies[:2])
    place = question.position.replace("/", "--")
    about = str(question.about).replace(" ", "-")
    return f"{about}-{question.series.id}-{place}-{question.first}-{held}".rstrip("-")
