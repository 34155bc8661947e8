"""I found something else: what may have happened to a machine that holds what it should not.

Each story has odds before the find and a likelihood, the probability of just this find if the story is
true; their product, divided by the sum over all stories, is its probability. Everything is exact. f and r
are the rates of machines that were converted and robbed, in the condition of the find; where it is altered
both are one half, which tells nothing. K assemblies are known of the position; shares are those of
`left_works`.

| story | odds beside one another | likelihood of the find |
| --- | --- | --- |
| works: it left the works with it, as recorded | 1 less those of record | its share, if recorded there |
| break: the break lies so that it had it | the same | its share, if not recorded there |
| record: the record is wrong | as often as one that stands so | one among those not recorded, or none |
| conversion | f | each start's share, by one of all it leads to |
| sold-later | f times the odds of that | one of all sold later for it |
| exchange: taken from another machine | r | its share among machines of the sort |
| unrecorded: what nobody has recorded | f times the odds of that | one among K and one unknown |

What only possibly applies to the machine counts half. That it bears another's number (swapped) is one story
for all that was found on it: the share of machines that have all of it, against the product of all others.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction
from math import prod

from spanbook.answers.applicability import AtPosition, Fit, Fits, Reading, Segment
from spanbook.answers.assumed import Assumed
from spanbook.answers.bounds import pieces
from spanbook.answers.breaks import Break
from spanbook.answers.changepoint.rates import HALF
from spanbook.answers.conversions import Step, applying, chain
from spanbook.answers.left_works import LeftWorks, left_works, recorded_shares
from spanbook.answers.questions import OPEN_SERIES
from spanbook.answers.reasons import Reason
from spanbook.answers.standing import Judge, Standing, standing_of
from spanbook.ground.intervals import Covers, Reach, SpanSet
from spanbook.reading.records import Assembly, Condition, Conversion, Series, Teardown

NONE, ONE = Fraction(0), Fraction(1)
BreaksAt = Callable[[tuple[Series, str]], Sequence[Break]]


class Kind(StrEnum):
    """What may have happened, in the order in which equals are told."""

    WORKS = "works"
    BREAK = "break"
    CONVERSION = "conversion"
    SOLD_LATER = "sold-later"
    EXCHANGE = "exchange"
    SWAPPED = "swapped"
    RECORD = "record"
    UNRECORDED = "unrecorded"


@dataclass(frozen=True, slots=True)
class Story:
    """What may have happened, and how probable it is now.

    `odds` are those before the find, beside those of the others; `likelihood` is that of the find. `through`
    are the conversions that lead there, `fits` the spans that say so, or that would be wrong, and `standing`
    how well these stand; `breaks` those that decide.
    """

    kind: Kind
    odds: Fraction
    likelihood: Fraction
    probability: Fraction = NONE
    through: tuple[Conversion, ...] = ()
    fits: tuple[Fit, ...] = ()
    standing: Standing | None = None
    breaks: tuple[Break, ...] = ()


@dataclass(frozen=True, slots=True)
class Explained:
    """What was found at a position, with every story, the likeliest first; what cannot be has nothing."""

    place: AtPosition
    found: Assembly
    stories: tuple[Story, ...]

    @property
    def possible(self) -> tuple[Story, ...]:
        return tuple(story for story in self.stories if story.probability)

    @property
    def impossible(self) -> tuple[Story, ...]:
        return tuple(story for story in self.stories if not story.probability)


@dataclass(frozen=True, slots=True)
class Explanation:
    """What was found on one machine, position by position, in the order in which it was told."""

    reading: Reading
    condition: Condition
    assumed: Assumed
    positions: tuple[Explained, ...]


class Explainer:
    """Explains what is found on the machines of one register."""

    def __init__(self, fits: Fits, judge: Judge, breaks_at: BreaksAt, assumed: Assumed) -> None:
        self.fits = fits
        self.judge = judge
        self.breaks_at = breaks_at
        self.assumed = assumed

    def explain(self, reading: Reading, found: Mapping[str, Assembly], condition: Condition) -> Explanation:
        """Assemblies, each of its position, that were found on the machine with an issued number."""
        places = [(self.fits.at(reading, position), found[position]) for position in found]
        local = [list(self._stories(reading, place, one, condition)) for place, one in places]
        weights = [[story.odds * story.likelihood for story in stories] for stories in local]
        totals = [sum((story.odds for story in stories), NONE) for stories in local]
        own = [sum(each, NONE) / total for each, total in zip(weights, totals, strict=True)]
        swapped = self.assumed.odds.swapped
        alike = self._alike(reading, found)
        other, this = swapped * alike, (1 - swapped) * prod(own, start=ONE)
        whole = other + this
        return Explanation(
            reading,
            condition,
            self.assumed,
            tuple(
                Explained(
                    place,
                    one,
                    _ranked(
                        stories,
                        this / whole / sum(each) if this else NONE,
                        Story(Kind.SWAPPED, swapped, alike, other / whole if other else NONE),
                    ),
                )
                for (place, one), stories, each in zip(places, local, weights, strict=True)
            ),
        )

    def _stories(
        self, reading: Reading, place: AtPosition, found: Assembly, condition: Condition
    ) -> Iterator[Story]:
        """All that may have happened at one position of the machine that its number says."""
        known = self.fits.register.at_position[place.position]
        breaks = self.breaks_at((reading.series, place.position))
        left = left_works(place.segment, breaks, reading.number, known)
        f, r = self._rates(condition)
        odds = self.assumed.odds
        wrong = self._wrong(reading, place, found, known)
        yield from self._from_works(place, found, left, wrong)
        yield wrong
        yield self._conversion(reading, place, found, left, f)
        yield _sold_later(place, found, f * odds.sold_later)
        yield Story(Kind.EXCHANGE, r, self._alike(reading, {place.position: found}))
        yield Story(Kind.UNRECORDED, f * odds.unrecorded, Fraction(1, len(known) + 1))

    def _rates(self, condition: Condition) -> tuple[Fraction, Fraction]:
        if condition == "altered":
            return HALF, HALF
        return self.assumed.rates.of(condition == "untouched")

    def _from_works(
        self, place: AtPosition, found: Assembly, left: LeftWorks, wrong: Story
    ) -> Iterator[Story]:
        fits = tuple(fit for fit in place.segment.fits if fit.assembly is found)
        blank = not place.segment.fits and not left.breaks
        breaks = tuple(one for one in left.breaks if found in (one.earlier, one.later))
        odds = 1 - wrong.odds
        share = left.of(found)
        if fits or blank or not share:
            yield Story(Kind.WORKS, odds, share, fits=fits, breaks=breaks)
            yield Story(Kind.BREAK, NONE, NONE)
        else:
            yield Story(Kind.WORKS, NONE, NONE)
            yield Story(Kind.BREAK, odds, share, breaks=breaks)

    def _wrong(
        self, reading: Reading, place: AtPosition, found: Assembly, known: Sequence[Assembly]
    ) -> Story:
        """That what is recorded there is wrong; nothing where that is what was found, or nothing is."""
        fits = place.segment.fits
        if not fits or any(fit.assembly is found for fit in fits):
            return Story(Kind.RECORD, NONE, NONE)
        best = min((self._standing(reading, fit) for fit in fits), key=lambda s: self.assumed.odds.wrong[s])
        others = len(set(known) - {fit.assembly for fit in fits})
        odds = self.assumed.odds.wrong[best]
        return Story(Kind.RECORD, odds, Fraction(1, others + 1), fits=fits, standing=best)

    def _standing(self, reading: Reading, fit: Fit) -> Standing:
        """How well a span stands without what was seen on the machine itself."""
        reasons = self.judge.of(self.fits.register.said[fit.fitting]).reasons
        return standing_of(reason for reason in reasons if not self._own(reason, reading))

    def _own(self, reason: Reason, reading: Reading) -> bool:
        own = self.fits.reading(reason.by) if isinstance(reason.by, Teardown) else None
        return bool(own and (own.series, own.number) == (reading.series, reading.number))

    def _conversion(
        self, reading: Reading, place: AtPosition, found: Assembly, left: LeftWorks, odds: Fraction
    ) -> Story:
        position = place.position
        steps = [s for s in applying(self.fits.register, reading) if s.conversion.position == position]
        field = [fit for fit in place.fits if fit.span.fitted == "field"]
        likelihood = NONE
        through: tuple[Step, ...] = ()
        for start, share in left.shares.items():
            led = {s.conversion.to for s in steps if chain(steps, [start.id], s.conversion.to)}
            reached = (led | {fit.assembly.id for fit in field}) - {start.id}
            if share and found.id in reached:
                way = chain(steps, [start.id], found.id)
                through = through or way
                sure = any(fit.assembly is found and fit.covers is Covers.YES for fit in field)
                doubt = not sure and not (way and not any(step.maybe for step in way))
                likelihood += share / len(reached) * (HALF if doubt else 1)
        fits = tuple(fit for fit in field if fit.assembly is found)
        return Story(
            Kind.CONVERSION,
            odds,
            likelihood,
            through=tuple(step.conversion for step in through),
            fits=fits if likelihood else (),
        )

    def _alike(self, reading: Reading, found: Mapping[str, Assembly]) -> Fraction:
        """The share of machines of the sort that are recorded to have left the works with all of these."""
        have, whole = NONE, 0
        for series in self.fits.register.machines[reading.series.machine].series:
            segments = [self.fits.segments(series, position) for position in found]
            for first, count in _cut(series, segments):
                whole += count
                held = (
                    recorded_shares(next(s for s in each if first in s)).get(one, NONE)
                    for each, one in zip(segments, found.values(), strict=True)
                )
                have += count * prod(held, start=ONE)
        return have / whole


def _sold_later(place: AtPosition, found: Assembly, odds: Fraction) -> Story:
    sold = [fit for fit in place.fits if fit.span.fitted == "service"]
    fits = tuple(fit for fit in sold if fit.assembly is found)
    if not fits:
        return Story(Kind.SOLD_LATER, odds, NONE)
    sure = any(fit.covers is Covers.YES for fit in fits)
    each = Fraction(1, len({fit.assembly for fit in sold}))
    return Story(Kind.SOLD_LATER, odds, each * (1 if sure else HALF), fits=fits)


def _ranked(stories: Sequence[Story], scale: Fraction, swapped: Story) -> tuple[Story, ...]:
    """The stories of a position with their probabilities, the likeliest first."""
    order = list(Kind)
    told = [replace(story, probability=story.odds * story.likelihood * scale) for story in stories]
    return tuple(sorted([*told, swapped], key=lambda s: (-s.probability, order.index(s.kind))))


def _cut(series: Series, segments: Sequence[Sequence[Segment]]) -> Iterator[tuple[int, int]]:
    """The numbers of a series cut wherever a segment of any position ends: the first of each and how many."""
    spans = [SpanSet.run(s.first, s.last) for each in segments for s in each]
    for piece in pieces(series.issued, [Reach(span, span) for span in spans]):
        count = (SpanSet.run(piece.first, piece.last) & series.issued).count()
        yield piece.first, OPEN_SERIES if count is None else count
