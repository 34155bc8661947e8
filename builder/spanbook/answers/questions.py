"""What is not known, and whose machine should be looked at next: questions that somebody can go and answer.

A question's worth is the number of machines that an answer would settle, times how unsure it is: 1 where
nothing is known, one less the probability of the likeliest place for a break, one half for what is
disputed, rests on nothing or is given to two standards by different sources, one quarter for what is printed
and was never seen, one tenth for part numbers that nobody has told of reading on an assembly that was seen.
Where a conversion or supersession falls short it is one quarter if that is surely so, one tenth if it may be.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum

from spanbook.answers.applicability import Fits, State, claimed
from spanbook.answers.breaks import Break
from spanbook.answers.reasons import InPlace, Reason, SameNumbers, Says, Weight
from spanbook.answers.shortfalls import NeedUnmet, NeverHad, PastBase, Shortfall, Unreached
from spanbook.answers.standing import Judgement, Standing
from spanbook.ground.intervals import Span, SpanSet
from spanbook.reading.records import Assembly, Series
from spanbook.register.statements import Fitting, Statement, Use

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


@dataclass(frozen=True, slots=True)
class Question:
    """Something that the owners of exactly these issued numbers could settle.

    `assemblies` are those in question (of a break the earlier and the later), `unread` the part numbers
    that nobody has told of reading, `shortfall` what of a conversion or supersession is asked about.
    """

    about: About
    position: str
    series: Series
    numbers: SpanSet
    unsure: float
    assemblies: tuple[Assembly, ...]
    unread: tuple[str, ...] = ()
    shortfall: Shortfall | None = None

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
        count = self.numbers.count()
        return OPEN_SERIES if count is None else count

    @property
    def worth(self) -> float:
        return self.machines * self.unsure


def questions(
    fits: Fits,
    judged: Mapping[Statement, Judgement],
    breaks: Iterable[Break],
    only: Collection[str] | None = None,
    *,
    of: Collection[Series] | None = None,
    shortfalls: Iterable[Shortfall] = (),
) -> tuple[Question, ...]:
    """Every open question, the worthiest first, equals by series, position and number.

    `judged` and `breaks` decide which statements and breaks are asked about, `only` and `of` the positions
    and the series whose blanks and conflicts are.
    """
    found = (
        *_breaks(fits, breaks),
        *_places(fits, only, fits.register.series.values() if of is None else of),
        *_spans(fits, judged),
        *_parts(fits, judged),
        *_shortfalls(fits, shortfalls),
    )
    return in_order(found)


def in_order(found: Iterable[Question]) -> tuple[Question, ...]:
    """Questions by their worth, equals by series, position and number, each once."""
    return tuple(sorted(dict.fromkeys(found), key=_order))


def _order(question: Question) -> tuple[float, str, str, int, str, list[str]]:
    held = [assembly.id for assembly in question.assemblies]
    place = (question.series.id, question.position, question.first)
    return (-question.worth, *place, question.about, held)


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


def _spans(fits: Fits, judged: Mapping[Statement, Judgement]) -> Iterator[Question]:
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
        if about is About.DISPUTED and _by_claims_alone(judgement):
            numbers = _contested(fits, fitting)
        if numbers:
            yield Question(about, assembly.position, fitting.series, numbers, unsure, (assembly,))


def _by_claims_alone(judgement: Judgement) -> bool:
    against = (reason.shown for reason in judgement.reasons if reason.weight is Weight.AGAINST)
    return all(isinstance(shown, Says | SameNumbers) for shown in against)


def _contested(fits: Fits, fitting: Fitting) -> SpanSet:
    """The numbers that one claim on a run surely has and another has not; without those that are asked of
    because another standard is on them."""
    reaches = [fits.reach(claim) for claim in fits.claims(fitting)]
    agreed = reaches[0].possibly
    for reach in reaches:
        agreed &= reach.possibly
    asked = (s for s in fits.segments(fitting.series, fitting.assembly.position) if s.state is State.CONFLICT)
    given = SpanSet.of(Span(segment.first, segment.last) for segment in asked)
    return SpanSet.of(span for reach in reaches for span in reach.surely) - agreed - given


def _was_read(reason: Reason) -> bool:
    """Whether a reason says that the number was read, and not another in its place."""
    return reason.weight in (Weight.SEEN, Weight.SET_ASIDE) and not isinstance(reason.shown, InPlace)


def _parts(fits: Fits, judged: Mapping[Statement, Judgement]) -> Iterator[Question]:
    """Assemblies that were seen on machines, with the numbers that nobody has told of reading on them."""
    register = fits.register
    for assembly in dict.fromkeys(s.record for s in judged if isinstance(s.record, Assembly)):
        unread = tuple(
            statement.subject.use.number
            for statement in register.statements_of[assembly]
            if isinstance(statement.subject, Use) and not any(map(_was_read, judged[statement].reasons))
        )
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


def _shortfalls(fits: Fits, found: Iterable[Shortfall]) -> Iterator[Question]:
    """What falls short surely, and apart from it what may; where nothing is recorded is asked already."""
    for one in found:
        if one.position is None:
            continue
        segments = fits.segments(one.series, one.position)
        blank = SpanSet.of(Span(s.first, s.last) for s in segments if s.state is State.BLANK)
        sure = one.numbers.surely
        for numbers, unsure in ((sure, 0.25), (one.numbers.possibly - sure - blank, 0.1)):
            if numbers:
                about = _SHORT[type(one)]
                yield Question(about, one.position, one.series, numbers, unsure, one.assemblies, (), one)


def anchor(question: Question) -> str:
    """Its place on the page of open questions."""
    held = "-".join(known_by(question)[:2])
    place = question.position.replace("/", "--")
    return f"{question.about}-{question.series.id}-{place}-{question.first}-{held}".rstrip("-")


def known_by(question: Question) -> tuple[str, ...]:
    """The ids of what is asked about: of a shortfall first the record it is known by."""
    held = question.assemblies
    short = question.shortfall.told_on[:1] if question.shortfall else ()
    return tuple(dict.fromkeys(record.id for record in (*short, *held)))
