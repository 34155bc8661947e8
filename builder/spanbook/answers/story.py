"""A story: what may have happened at one position of one machine, in numbers and with its grounds."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from spanbook.answers.applicability import Fit
from spanbook.answers.breaks import Break
from spanbook.answers.standing import Standing
from spanbook.ground.memo import kept
from spanbook.reading.records import Conversion

NONE, ONE = Fraction(0), Fraction(1)


class Kind(StrEnum):
    """What may have happened, in the order in which equals are told."""

    WORKS = "works"
    BREAK = "break"
    CONVERSION = "conversion"
    SOLD_LATER = "sold-later"
    EXCHANGE = "exchange"
    TAKEN_OFF = "taken-off"
    SWAPPED = "swapped"
    RECORD = "record"
    UNRECORDED = "unrecorded"


ORDER = {kind: i for i, kind in enumerate(Kind)}


@dataclass(frozen=True)
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

    @property
    def grounds(self) -> tuple[object, ...]:
        """What it is told by: stories with the same grounds are told alike, however likely they are."""
        told = self.kind in (Kind.EXCHANGE, Kind.SWAPPED)
        share = self.likelihood.as_integer_ratio() if told else None  # which is quicker to look up
        return self.kind, self.through, self.fits, self.standing, self.breaks, share

    @kept
    def weight(self) -> tuple[float, float]:
        """Its odds and its likelihood, in floats."""
        return float(self.odds) if self.odds else 0.0, float(self.likelihood) if self.likelihood else 0.0


# What cannot have happened, whatever the odds.
NEVER = {kind: Story(kind, NONE, NONE) for kind in Kind}


# The stories of a find at one position, in the order in which they are weighed; where nothing is fitted
# something was taken off, and nothing taken from another machine.
STORIES = (
    Kind.WORKS,
    Kind.BREAK,
    Kind.RECORD,
    Kind.CONVERSION,
    Kind.SOLD_LATER,
    Kind.EXCHANGE,
    Kind.UNRECORDED,
)
