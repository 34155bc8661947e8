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
| taken-off: nothing is fitted where something was | r | the share of all else that it left the works with |
| unrecorded: what nobody has recorded | f times the odds of that | one among K and one unknown |

What only possibly applies to the machine counts half. That it bears another's number (swapped) is one story
for all that was found on it: the share of machines that have all of it, against the product of all others.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import prod

from spanbook.answers.applicability import AtPosition, Fits
from spanbook.answers.assumed import Assumed
from spanbook.answers.likelihoods import BreaksAt, Likelihoods
from spanbook.answers.readings import Reading
from spanbook.answers.standing import Judge
from spanbook.answers.story import NONE, ONE, ORDER, STORIES, Kind, Story
from spanbook.ground.memo import Memo
from spanbook.reading.records import Assembly, Condition

Weights = tuple[tuple[float, ...], tuple[float, ...]]  # the odds and the likelihoods of some stories


def weights_of(stories: Sequence[Story]) -> Weights:
    return tuple([one.weight[0] for one in stories]), tuple([one.weight[1] for one in stories])


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


class _Local:
    """The stories of one position that are not about the whole machine, weighed in a condition."""

    def __init__(self, stories: Sequence[Story], odds: Mapping[Kind, Fraction]) -> None:
        self.stories = stories
        self.odds = [odds.get(story.kind, story.odds) for story in stories]
        # Most stories cannot be: nothing is multiplied for them.
        self.weights = [
            odd * story.likelihood if odd and story.likelihood else NONE
            for story, odd in zip(stories, self.odds, strict=True)
        ]
        self.whole = sum(filter(None, self.weights), NONE)

    @property
    def likelihood(self) -> Fraction:
        """The probability of the find if the number is the machine's own."""
        return self.whole / sum(filter(None, self.odds), NONE) if self.whole else NONE

    def ranked(self, own: Fraction, plate: Story) -> tuple[Story, ...]:
        """The stories with their probabilities, the likeliest first, where the number is the machine's own
        with the probability `own`."""
        scale = own / self.whole if own else NONE
        told = [
            replace(story, odds=odd, probability=weight * scale if weight and scale else NONE)
            for story, odd, weight in zip(self.stories, self.odds, self.weights, strict=True)
        ]
        return tuple(sorted([*told, plate], key=lambda story: (-story.probability, ORDER[story.kind])))


class Explainer:
    """Explains what is found on the machines of one register."""

    def __init__(self, fits: Fits, judge: Judge, breaks_at: BreaksAt, assumed: Assumed) -> None:
        self.assumed = assumed
        self.likelihoods = Likelihoods(fits, judge, breaks_at, assumed)
        self._plate = Memo(self._plate_of)
        self._usual = Memo(self._usual_in)
        self._beside = Memo(self._odds_beside)

    def explain(self, reading: Reading, found: Mapping[str, Assembly], condition: Condition) -> Explanation:
        """Assemblies, each of its position, that were found on the machine with an issued number."""
        here = [self.likelihoods.at(reading, position) for position in found]
        odds = self.likelihoods.odds(condition)
        local = [_Local(at.stories(one), odds) for at, one in zip(here, found.values(), strict=True)]
        swapped = self.assumed.odds.swapped
        alike = self.likelihoods.alike((reading.series.machine, tuple(found.values())))
        other = swapped * alike
        this = (1 - swapped) * prod((each.likelihood for each in local), start=ONE)
        plate = Story(Kind.SWAPPED, swapped, alike, other / (other + this) if other else NONE)
        return Explanation(
            reading,
            condition,
            self.assumed,
            tuple(
                Explained(at.place, one, each.ranked(this / (other + this) if this else NONE, plate))
                for at, one, each in zip(here, found.values(), local, strict=True)
            ),
        )

    def alone(self, reading: Reading, found: Sequence[Assembly]) -> list[tuple[Story, ...]]:
        """The stories of each of several assemblies of one position, for tables of all machines: in the order
        of `STORIES`, still without the odds of what depends on the condition; last that it bears another's
        number."""
        here = self.likelihoods.at(reading, found[0].position)
        machine = reading.series.machine
        return [(*here.stories(one), self._plate((machine, one))) for one in found]

    def _plate_of(self, asked: tuple[str, Assembly]) -> Story:
        """That a machine of a sort on which one assembly was found bears another's number."""
        machine, found = asked
        return Story(Kind.SWAPPED, self.assumed.odds.swapped, self.likelihoods.alike((machine, (found,))))

    def shares(self, weights: Weights, condition: Condition) -> list[float]:
        """What `explain` gives such stories, by what they weigh, if one assembly alone was found. In floats,
        which is twenty times as fast and reads alike."""
        odds, likelihoods = weights
        found = [a * b for a, b in zip(self._beside((odds, condition)), likelihoods, strict=True)]
        whole = sum(found) or 1.0
        return [one / whole for one in found]

    def _odds_beside(self, asked: tuple[tuple[float, ...], Condition]) -> tuple[float, ...]:
        """The odds of stories that have these, and in a condition the usual ones beside, if the number is the
        machine's own; the last are those that it is not."""
        (*local, plate), condition = asked
        before = [odd or usual for odd, usual in zip(local, self._usual(condition), strict=True)]
        own = (1 - plate) / sum(before)  # what it left the works with or a wrong record always can be
        return *(own * odd for odd in before), plate

    def _usual_in(self, condition: Condition) -> tuple[float, ...]:
        """The odds of what depends on the condition, in the order of `STORIES`."""
        odds = self.likelihoods.odds(condition)
        return tuple(float(odds.get(kind, 0)) for kind in STORIES)
