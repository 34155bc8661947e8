"""A find of which nobody can say which of some assemblies it was: it is weighed as that.

It speaks against a statement only where each of them would, is explained where any of them is, and is for a
statement only where each would be. What it may be it does not confirm.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from spanbook.answers.applicability import Fits
from spanbook.answers.readings import Reading
from spanbook.answers.reasons import Weight
from spanbook.ground.intervals import Covers
from spanbook.reading.records import Find


def each(find: Find) -> tuple[Find, ...]:
    """The find as it would be if it was each of those that it may be; none where nothing is named."""
    return tuple(replace(find, assembly=id_, one_of=()) for id_ in find.named)


def together(weights: Iterable[Weight | None]) -> Weight | None:
    """What a find does that may be any of several, each of which would do one of these."""
    found = set(weights)
    if len(found) == 1:
        return found.pop()
    return Weight.EXPLAINED if found == {Weight.EXPLAINED, Weight.AGAINST} else None


def left_of(fits: Fits, find: Find, reading: Reading) -> str | None:
    """Which one it was if the others are recorded nowhere near the number; None where several may be."""
    if find.assembly:
        return find.assembly
    left = [id_ for id_ in find.named if _may_be(fits, id_, reading)]
    return left[0] if len(left) == 1 else None


def _may_be(fits: Fits, assembly: str, reading: Reading) -> bool:
    stands = fits.register.fittings_of(fits.register.assemblies[assembly])
    here = (fitting for fitting in stands if fitting.series is reading.series)
    return any(fits.reach(fitting).covers(reading.number) is not Covers.NO for fitting in here)
