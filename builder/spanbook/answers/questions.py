"""What is not known, and whose machine should be looked at next: questions that somebody can go and answer.

A question's worth is the number of machines that an answer would settle, times how unsure it is: 1 where
nothing is known, one less the probability of the likeliest place for a break, one half for what is
disputed, rests on nothing or is given to two standards by different sources, one quarter for what is printed
and was never seen, one tenth for part numbers that nobody has told of reading on an assembly that was seen.
Where a conversion or supersession falls short it is one quarter if that is surely so, one tenth if it may be,
and one half where machines were seen that speak of it, as where an assembly was seen past its numbers; of a
size in a circuit a tenth of how far figures move with it, and one tenth for what tells two things apart.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from spanbook.answers.applicability import Fits, State, claimed
from spanbook.answers.beyond import Beyond
from spanbook.answers.breaks import Break
from spanbook.answers.disputed import in_doubt, inside
from spanbook.answers.flow.to_measure import Measure
from spanbook.answers.lines import Line
from spanbook.answers.named import GOOD
from spanbook.answers.reasons import InPlace, Reason, Weight
from spanbook.answers.shortfalls import NeedUnmet, NeverHad, PastBase, Shortfall, Unreached
from spanbook.answers.standing import Judgement, Standing
from spanbook.ground.intervals import Span, SpanSet
from spanbook.reading.records import Assembly, Series, Teardown
from spanbook.register.statements import Fitting, Statement

OPEN_SERIES = 100  # how many machines a run without a known end is taken to have


class About(StrEnum):
    """What a question is about."""

    BREAK = "break"
    CONFLICT = "conflict"
    BLANK = "blank"
    DISPUTED = "disputed"
    UNSUPPORTED = "unsupported"
    NEVER_SEEN = "never-seen"
    PARTS = "parts-never-read"
    UNREACHED = "no-conversion-reaches"
    PAST_BASE = "conversion-past-base"
    NEED_UNMET = "need-unmet"
    NEVER_HAD = "part-never-had"
    BEYOND = "seen-beyond"
    LINE = "which-line"
    MEASURE = "size-to-measure"
    ALIKE = "nothing-parts-them"


@dataclass(frozen=True, slots=True)
class Question:
    """Something that the owners of exactly these issued numbers could settle.

    `assemblies` are those in question (of a break the earlier and the later), `unread` the part numbers
    that nobody has told of reading, `shortfall` what of a conversion or supersession is asked about,
    `beyond` what was seen past the numbers that are recorded, `lines` the lines of a list in question,
    `measure` sizes of a way in a circuit (its `position` is None between positions), `again` how many of the
    numbers are of machines that are asked by another.
    """

    about: About
    position: str | None
    series: Series
    numbers: SpanSet
    unsure: float
    assemblies: tuple[Assembly, ...]
    unread: tuple[str, ...] = ()
    shortfall: Shortfall | None = None
    beyond: tuple[Beyond, ...] = ()
    lines: tuple[Line, ...] = ()
    measure: Measure | None = None
    again: int = 0

    @property
    def tells(self) -> str | None:
        """The position whose plate tells whom it asks; None of a circuit that hangs between none."""
        if self.position or not self.measure or not self.measure.circuit.ports:
            return self.position
        return self.measure.circuit.ports[0].position

    @property
    def sure(self) -> bool:
        """Whether a shortfall surely is one on these numbers."""
        return self.shortfall is not None and self.numbers <= self.shortfall.numbers.surely

    @property
    def runs(self) -> SpanSet:
        """Its numbers as they are told: runs go on over numbers that were never issued."""
        return self.numbers.over(self.series.issued)

    @property
    def first(self) -> int:
        return self.numbers.first

    @property
    def last(self) -> int | None:
        """The highest number; None: and up."""
        return self.numbers.last

    @property
    def machines(self) -> int:
        """How many an answer would settle."""
        return machines_in(self.numbers) - self.again

    @property
    def worth(self) -> float:
        return self.machines * self.unsure

    @property
    def order(self) -> tuple[float, str, str, int, str, list[str]]:
        """What tells which of two stands first."""
        held = [assembly.id for assembly in self.assemblies]
        return (-self.worth, self.series.id, self.position or "", self.first, self.about, held)


def machines_in(numbers: SpanSet) -> int:
    """How many machines numbers are taken to be."""
    count = numbers.count()
    return OPEN_SERIES if count is None else count


def questions(
    fits: Fits,
    judged: Mapping[Statement, Judgement],
    breaks: Iterable[Break],
    only: Collection[str] | None = None,
    *,
    of: Collection[Series] | None = None,
    shortfalls: Iterable[Shortfall] = (),
    beyond: Sequence[Beyond] = (),
) -> tuple[Question, ...]:
    """Every open question, the worthiest first, equals by series, position and number.

    `judged` and `breaks` decide which statements and breaks are asked about, `only` and `of` the positions
    and the series whose blanks and conflicts are.
    """
    found = (
        *_breaks(fits, breaks),
        *_places(fits, only, fits.register.series.values() if of is None else of),
        *_spans(fits, judged, beyond),
        *_beyond(judged, beyond, only),
        *_parts(fits, judged),
        *_shortfalls(fits, shortfalls, beyond),
    )
    return in_order(found)


def in_order(found: Iterable[Question]) -> tuple[Question, ...]:
    """Questions by their worth, equals by series, position and number, each once."""
    return tuple(sorted(dict.fromkeys(found), key=lambda one: one.order))


def _breaks(fits: Fits, breaks: Iterable[Break]) -> Iterator[Question]:
    for one in breaks:
        found = one.report.posterior
        if found.contradiction:
            run, unsure = one.report.claim, 1.0
        else:
            run, unsure = found.interval(), 1 - float(max(even.each for even in found.runs))
        if unsure > 0:
            numbers = SpanSet.run(run.first, run.last) & one.series.issued
            both = (one.earlier, one.later)
            yield Question(About.BREAK, one.position, one.series, numbers, unsure, both)


def _places(fits: Fits, only: Collection[str] | None, of: Iterable[Series]) -> Iterator[Question]:
    """Numbers of which nothing is known, and those that sources give to two standards."""
    for series in of:
        machine = fits.register.machines[series.machine]
        for position in (p for p in fits.positions(machine) if only is None or p in only):
            for segment in fits.segments(series, position):
                numbers = SpanSet.run(segment.first, segment.last) & series.issued
                if segment.state is State.BLANK:
                    known = tuple(fits.register.at_position.get(position, ()))
                    yield Question(About.BLANK, position, series, numbers, 1.0, known)
                elif segment.state is State.CONFLICT:
                    both = tuple(dict.fromkeys(fit.assembly for fit in claimed(segment.fits)))
                    yield Question(About.CONFLICT, position, series, numbers, 0.5, both)


def _spans(fits: Fits, judged: Mapping[Statement, Judgement], beyond: Sequence[Beyond]) -> Iterator[Question]:
    asks = {
        Standing.DISPUTED: (About.DISPUTED, 0.5),
        Standing.UNSUPPORTED: (About.UNSUPPORTED, 0.5),
        Standing.PRINTED: (About.NEVER_SEEN, 0.25),
    }
    for statement, judgement in judged.items():
        fitting = statement.subject
        if not isinstance(fitting, Fitting) or judgement.standing not in asks:
            continue
        about, unsure = asks[judgement.standing]
        assembly, numbers = fitting.assembly, fits.reach(fitting).possibly
        if fitting.span.fitted == "factory":
            numbers &= fits.there(fitting.series, assembly.position).possibly
        seen: tuple[Beyond, ...] = ()
        if about is About.DISPUTED:
            numbers = in_doubt(fits, fitting, judgement)
            seen = _seen_by(beyond, fitting, inside(fitting, judgement.reasons))
        if numbers:
            position, series = assembly.position, fitting.series
            yield Question(about, position, series, numbers, unsure, (assembly,), beyond=seen)


def _seen_by(
    beyond: Iterable[Beyond], fitting: Fitting, teardowns: Collection[Teardown]
) -> tuple[Beyond, ...]:
    """What some teardowns saw in a span's place, past the numbers of what they saw."""
    place = fitting.series, fitting.assembly.position
    mine = (one for one in beyond if one.of is one.assembly and (one.series, one.assembly.position) == place)
    return tuple(
        replace(one, seen=seen)
        for one in mine
        if (seen := tuple(s for s in one.seen if s.teardown in teardowns))
    )


def _beyond(
    judged: Mapping[Statement, Judgement], beyond: Iterable[Beyond], only: Collection[str] | None
) -> Iterator[Question]:
    """What was seen past the numbers of an assembly, and puts no other assembly in doubt."""
    told = {
        (fitting.assembly.position, teardown)
        for statement, judgement in judged.items()
        if isinstance(fitting := statement.subject, Fitting)
        for teardown in inside(fitting, judgement.reasons)
    }
    for one in beyond:
        position, series = one.assembly.position, one.series
        seen = tuple(
            s
            for s in one.seen
            if s.find.condition in GOOD and not s.through and (position, s.teardown) not in told
        )
        if one.of is one.assembly and seen and (only is None or position in only):
            numbers = (
                SpanSet.run(one.edge + 1, seen[-1].number)
                if one.past
                else SpanSet.run(seen[0].number, one.edge - 1)
            )
            asked = (numbers & series.issued) - SpanSet.of(Span(s.number, s.number) for s in one.seen)
            if asked:
                about = (replace(one, seen=seen),)
                yield Question(About.BEYOND, position, series, asked, 0.5, (one.assembly,), beyond=about)


def _was_read(reason: Reason) -> bool:
    """Whether a reason says that the number was read, and not another in its place."""
    return reason.weight in (Weight.SEEN, Weight.SET_ASIDE) and not isinstance(reason.shown, InPlace)


def _parts(fits: Fits, judged: Mapping[Statement, Judgement]) -> Iterator[Question]:
    """Assemblies that were seen on machines, with the numbers that nobody has told of reading on them."""
    register = fits.register
    for assembly in dict.fromkeys(s.record for s in judged if isinstance(s.record, Assembly)):
        said = register.said
        uses = tuple(register.uses_of(assembly))
        read = {id(use.line) for use in uses if any(map(_was_read, judged[said[use]].reasons))}
        # Of a line on which several serve one that was read is enough.
        unread = tuple(use.number for use in uses if id(use.line) not in read)
        fitting = next(register.fittings_of(assembly), None)
        if unread and fitting and register.found.get(assembly.id):
            position, numbers = assembly.position, fits.reach(fitting).possibly
            yield Question(About.PARTS, position, fitting.series, numbers, 0.1, (assembly,), unread)


_SHORT: Mapping[type[Shortfall], About] = {
    Unreached: About.UNREACHED,
    PastBase: About.PAST_BASE,
    NeedUnmet: About.NEED_UNMET,
    NeverHad: About.NEVER_HAD,
}


def _shortfalls(fits: Fits, found: Iterable[Shortfall], beyond: Sequence[Beyond]) -> Iterator[Question]:
    """What falls short surely, and apart from it what may; where nothing is recorded is asked already."""
    for one in found:
        if one.position is None:
            continue
        segments = fits.segments(one.series, one.position)
        blank = SpanSet.of(Span(s.first, s.last) for s in segments if s.state is State.BLANK)
        sure = one.numbers.surely
        for numbers, unsure in ((sure, 0.25), (one.numbers.possibly - sure - blank, 0.1)):
            if numbers:
                about, place, held = _SHORT[type(one)], one.position, one.assemblies
                seen = tuple(_converted(one, numbers, beyond)) if isinstance(one, Unreached) else ()
                unsure = 0.5 if seen else unsure
                yield Question(about, place, one.series, numbers, unsure, held, (), one, seen)


def _converted(one: Unreached, numbers: SpanSet, beyond: Iterable[Beyond]) -> Iterator[Beyond]:
    """What conversions make, seen on numbers that none of them reaches."""
    for each in beyond:
        seen = tuple(s for s in each.seen if s.number in numbers)
        if each.of in one.conversions and each.series is one.series and seen:
            yield replace(each, seen=seen)
