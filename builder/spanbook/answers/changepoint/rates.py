"""How often machines show what they did not leave the works with, and how much a printed claim weighs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from types import MappingProxyType

HALF = Fraction(1, 2)


@dataclass(frozen=True, slots=True)
class Rates:
    """How often a machine shows what it did not leave the works with: settings of the community.

    The defaults are a guess for machines that were worked hard (no source): one in ten converted, three
    in a hundred gone back; one in a hundred either way where nobody seems to have been before.
    """

    converted: Fraction = Fraction(1, 10)
    robbed: Fraction = Fraction(3, 100)
    untouched_converted: Fraction = Fraction(1, 100)
    untouched_robbed: Fraction = Fraction(1, 100)

    def of(self, untouched: bool) -> tuple[Fraction, Fraction]:
        """f and r for a machine in that condition."""
        if untouched:
            return self.untouched_converted, self.untouched_robbed
        return self.converted, self.robbed

    def times(self, factor: Fraction) -> Rates:
        """All four rates multiplied, none above one half, where they would tell nothing."""
        four = (self.converted, self.robbed, self.untouched_converted, self.untouched_robbed)
        return Rates(*(min(HALF, rate * factor) for rate in four))


# By class of source, as the schema of sources names them. Ratios alone count.
CLASSES: Mapping[str, Fraction] = MappingProxyType(
    {
        "ledger": Fraction(6),
        "parts-book": Fraction(4),
        "service-letter": Fraction(4),
        "drawing": Fraction(3),
        "data-plate": Fraction(3),
        "manual": Fraction(2),
        "correspondence": Fraction(2),
        "period-photograph": Fraction(2),
        "collection": Fraction(2),
        "advertisement": Fraction(1),
        "recollection": Fraction(1),
    }
)


@dataclass(frozen=True, slots=True)
class Weights:
    """What printed claims weigh beside one another where they disagree: settings of the community.

    `none_of_them` is the share that all of them leave to the rest of what is possible. The defaults are our
    own guess (no source): who wrote down what left the works before who ordered by it, and memory last.
    """

    classes: Mapping[str, Fraction] = field(default_factory=lambda: CLASSES)
    none_of_them: Fraction = Fraction(1, 20)

    def of(self, classes: Iterable[str]) -> Fraction:
        """The weight of a claim that sources of these classes make; one of nobody weighs as the least."""
        return sum((self.classes[name] for name in classes), Fraction(0)) or min(self.classes.values())


GUESSED = Weights()
