"""What may have happened at one position of one machine, and how likely each story makes what was found.

The table of them stands at the head of `stories.py`, which weighs them.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import zip_longest
from math import prod

from spanbook.answers.applicability import AtPosition, Fit, Fits, State
from spanbook.answers.assumed import Assumed
from spanbook.answers.breaks import Break
from spanbook.answers.changepoint.rates import HALF
from spanbook.answers.left_works import LeftWorks, Shares, left_works, recorded_shares
from spanbook.answers.questions import OPEN_SERIES
from spanbook.answers.readings import Reading
from spanbook.answers.reasons import Reason
from spanbook.answers.standing import Judge, Standing, standing_of
from spanbook.answers.steps import Step, chain
from spanbook.answers.story import NEVER, NONE, ONE, Kind, Story
from spanbook.ground.intervals import Covers, SpanSet
from spanbook.ground.memo import Memo, kept
from spanbook.reading.records import Absence, Assembly, Condition, Series, Teardown

BreaksAt = Callable[[tuple[Series, str]], Sequence[Break]]


class Likelihoods:
    """The stories of one register. `odds` are those that depend on the condition, `alike` is the share of
    machines of a sort that left the works with some assemblies."""

    def __init__(self, fits: Fits, judge: Judge, breaks_at: BreaksAt, assumed: Assumed) -> None:
        self.fits = fits
        self.judge = judge
        self.breaks_at = breaks_at
        self.assumed = assumed
        self.alike = Memo(self._alike_of)
        self.odds = Memo(self._odds_in)
        self.told_wrong = Memo(self._told_wrong)
        self.exchanged = Memo(self._exchanged)
        self.unrecorded = Memo(self._unrecorded)
        self.right = Memo(self._right)
        self.not_from_works = Memo(self._not_from_works)
        self._read: Memo[Teardown, Reading | None] = Memo(fits.reading)
        self._shares = Memo(self._shares_at)

    def at(self, reading: Reading, position: str) -> Here:
        """What is asked of every find at one position of the machine with an issued number."""
        register, place = self.fits.register, self.fits.at(reading, position)
        reading = place.reading
        known, breaks = register.known_at[position], self.breaks_at((reading.series, position))
        every = (register.assemblies[one] for one in known)
        left = left_works(place.segment, breaks, reading.number, every)
        steps = self.fits.applying.at(reading, position)
        recorded = self._recorded(reading, place)
        stand = (self._standing(reading, fit) for fit in recorded)
        best = min(stand, key=self.wrong, default=None)
        return Here(self, reading, place, known, left, steps, recorded, best)

    def _recorded(self, reading: Reading, place: AtPosition) -> tuple[Fit, ...]:
        """What is recorded there; where there is no place, what is around it."""
        housing = self.fits.register.positions[place.position].housing
        if place.state is State.NO_PLACE and housing:
            return self._recorded(reading, self.fits.at(reading, housing.position))
        return place.segment.fits

    def wrong(self, standing: Standing) -> Fraction:
        """How often a record is wrong that stands so well."""
        return self.assumed.odds.wrong[standing]

    def _odds_in(self, condition: Condition) -> Mapping[Kind, Fraction]:
        """The odds of what machines in a condition were changed by."""
        f, r = (HALF, HALF) if condition == "altered" else self.assumed.rates.of(condition == "untouched")
        odds = self.assumed.odds
        return {
            Kind.CONVERSION: f,
            Kind.SOLD_LATER: f * odds.sold_later,
            Kind.EXCHANGE: r,
            Kind.TAKEN_OFF: r,
            Kind.UNRECORDED: f * odds.unrecorded,
        }

    def _standing(self, reading: Reading, fit: Fit) -> Standing:
        """How well a span stands without what was seen on the machine itself."""
        judged = self.judge.of(self.fits.register.said[fit.fitting])
        others = [reason for reason in judged.reasons if not self._own(reason, reading)]
        return judged.standing if len(others) == len(judged.reasons) else standing_of(others)

    def _own(self, reason: Reason, reading: Reading) -> bool:
        read = self._read(reason.by) if isinstance(reason.by, Teardown) else None
        return read is not None and read.same_as(reading)

    def _told_wrong(self, asked: tuple[tuple[Fit, ...], Standing, int]) -> Story:
        """That what is recorded, which stands at the best so well, is wrong, among so many that are known."""
        fits, standing, known = asked
        return Story(Kind.RECORD, self.wrong(standing), Fraction(1, known + 1), fits=fits, standing=standing)

    def _right(self, standing: Standing | None) -> Fraction:
        """How often what is recorded is right, where that may be wrong."""
        return 1 - self.wrong(standing) if standing else ONE

    def _not_from_works(self, standing: Standing | None) -> Story:
        """That it left the works with what no record has there."""
        return Story(Kind.WORKS, self.right(standing), NONE)

    def _exchanged(self, asked: tuple[str, Assembly]) -> Story:
        """That an assembly came from another machine of the sort."""
        machine, found = asked
        return Story(Kind.EXCHANGE, NONE, self.alike((machine, (found,))))

    def _unrecorded(self, known: int) -> Story:
        """That something happened that nobody has recorded, where so many assemblies are known."""
        return Story(Kind.UNRECORDED, NONE, Fraction(1, known + 1))

    def _alike_of(self, asked: tuple[str, tuple[Assembly, ...]]) -> Fraction:
        """The share of machines of a sort that are recorded to have left the works with all of these.

        Where no number tells of all of them no record says which go together, and each counts by itself.
        """
        machine, found = asked
        have, whole = NONE, 0
        positions = tuple(one.position for one in found)
        # Numbers of another plate are the same machines once more.
        telling = [
            series
            for series in self.fits.register.machines[machine].series
            if not any(self.fits.speaking.plate_to_ask(series, position) for position in positions)
        ]
        if not telling:
            return prod((self.alike((machine, (one,))) for one in found), start=ONE)
        for series in telling:
            for count, shares in self._shares((series, positions)):
                whole += count
                held = [each[one] for each, one in zip(shares, found, strict=True) if one in each]
                if len(held) == len(found):
                    have += count * prod(held, start=ONE)
        return have / whole if whole else NONE

    def _shares_at(
        self, places: tuple[Series, tuple[str, ...]]
    ) -> tuple[tuple[int, tuple[Shares, ...]], ...]:
        """The numbers of a series cut wherever a segment of any position begins: how many each time, and what
        they are recorded to have left the works with at each."""
        series, positions = places
        segments = [self.fits.segments(series, position) for position in positions]
        firsts = sorted({segment.first for each in segments for segment in each})
        shares = [{one.first: recorded_shares(one) for one in each} for each in segments]
        held: list[Shares] = [{}] * len(positions)
        found = []
        for first, after in zip_longest(firsts, firsts[1:]):
            held = [each.get(first, before) for each, before in zip(shares, held, strict=True)]
            count = (SpanSet.run(first, None if after is None else after - 1) & series.issued).count()
            found.append((OPEN_SERIES if count is None else count, tuple(held)))
        return tuple(found)


@dataclass(frozen=True)
class Here:
    """One position of one machine: what it left the works with, what converts it, what is recorded there or,
    where there is no place, around it, and how well the best of that stands without what was seen on the
    machine itself."""

    of: Likelihoods
    reading: Reading
    place: AtPosition
    known: Sequence[str]
    left: LeftWorks
    steps: Sequence[Step]
    recorded: tuple[Fit, ...]
    best: Standing | None

    def stories(self, found: Assembly) -> tuple[Story, ...]:
        """All that may have happened, on the machine that the number says, in the order of `STORIES`; odds
        that depend on the condition are still to come."""
        wrong = self._wrong(found)
        return (
            *self._from_works(found, wrong.standing),
            wrong,
            self._conversion(found),
            self._sold_later(found),
            self._robbed(found),
            self.of.unrecorded(len(self.known)),
        )

    def _robbed(self, found: Assembly) -> Story:
        """That it came from another machine; of nothing fitted, that what was there went to one."""
        if isinstance(found, Absence):
            return Story(Kind.TAKEN_OFF, NONE, 1 - self.left.of(found))
        return self.of.exchanged((self.reading.series.machine, found))

    def _wrong(self, found: Assembly) -> Story:
        """That what is recorded there is wrong; nothing where that is what was found, or nothing is."""
        if self._wrong_of is None or any(fit.assembly is found for fit in self.recorded):
            return NEVER[Kind.RECORD]
        return self._wrong_of

    @kept
    def _wrong_of(self) -> Story | None:
        if self.best is None:
            return None
        others = set(self.known) - {fit.assembly.id for fit in self.recorded}
        return self.of.told_wrong((self.recorded, self.best, len(others)))

    def _conversion(self, found: Assembly) -> Story:
        steps, position = self.steps, self.place.position
        field = self._later["field"]
        if not steps and not field:
            return NEVER[Kind.CONVERSION]
        likelihood = NONE
        through: tuple[Step, ...] = ()
        # Where there was no place for anything, nothing is what it starts from.
        none = self.place.state is State.NO_PLACE
        starts = {None: ONE} if none else {start.id: share for start, share in self.left.shares.items()}
        for start, share in starts.items():
            begun = [start] if start else []
            made = dict.fromkeys(step.at[position].to for step in steps)
            led = {to for to in made if chain(steps, begun, to)}
            reached = (led | {fit.assembly.id for fit in field}) - {start}
            if share and found.id in reached:
                way = chain(steps, begun, found.id)
                through = through or way
                sure = any(fit.assembly is found and fit.covers is Covers.YES for fit in field)
                doubt = not sure and not (way and not any(step.maybe for step in way))
                likelihood += share / len(reached) * (HALF if doubt else 1)
        fits = tuple(fit for fit in field if fit.assembly is found)
        return Story(
            Kind.CONVERSION,
            NONE,
            likelihood,
            through=tuple(step.conversion for step in through),
            fits=fits if likelihood else (),
        )

    def _from_works(self, found: Assembly, wrong: Standing | None) -> tuple[Story, Story]:
        """That it left the works with it, as recorded, and that a break lies so; of these only one can be.
        What is recorded otherwise and may be wrong stands so well."""
        segment, left = self.place.segment, self.left
        share = left.of(found)
        fits = tuple(fit for fit in segment.fits if fit.fitting.assembly is found)
        breaks = tuple(one for one in left.breaks if found in (one.earlier, one.later))
        if not (share or fits or breaks):
            return self.of.not_from_works(wrong), NEVER[Kind.BREAK]
        odds = self.of.right(wrong)
        if fits or not breaks:
            return Story(Kind.WORKS, odds, share, fits=fits, breaks=breaks), NEVER[Kind.BREAK]
        return NEVER[Kind.WORKS], Story(Kind.BREAK, odds, share, breaks=breaks)

    def _sold_later(self, found: Assembly) -> Story:
        sold = self._later["service"]
        fits = tuple(fit for fit in sold if fit.assembly is found)
        if not fits:
            return NEVER[Kind.SOLD_LATER]
        sure = any(fit.covers is Covers.YES for fit in fits)
        each = Fraction(1, len({fit.assembly for fit in sold}))
        return Story(Kind.SOLD_LATER, NONE, each * (1 if sure else HALF), fits=fits)

    @kept
    def _later(self) -> Mapping[str, list[Fit]]:
        """What was supplied or installed later, by how."""
        found: dict[str, list[Fit]] = {"service": [], "field": []}
        for fit in self.place.fits:
            if fit.span.fitted != "factory":
                found[fit.span.fitted].append(fit)
        return found
