"""What the numbers read on an assembly do to the spans that lines of its parts list are limited to.

A teardown of the assembly that read a number of the line speaks for a span that may reach its machine, and
against it where no span of the line does. One that read a number of another line in the same place speaks
against a span that surely covers its machine, unless an act of supersession or a conversion explains it. On a
worn serial number it counts where all that it may be say the same; in other condition than untouched or
likely original it is set aside.
"""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.applicability import Fits
from spanbook.answers.lines import Line
from spanbook.answers.named import GOOD
from spanbook.answers.parts_read import PartsRead
from spanbook.answers.readings import Reading
from spanbook.answers.reasons import HadNumber, InPlace, Reason, Weight
from spanbook.ground.intervals import Covers
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Find, PartUse, Teardown
from spanbook.register.statements import Limit


class LimitsRead:
    """What was read, laid beside what lines are limited to."""

    def __init__(self, fits: Fits, parts_read: PartsRead) -> None:
        self.fits, self.lists, self.parts_read = fits, fits.lists, parts_read
        self.register = fits.register

    def bearing(self, limit: Limit) -> Iterator[Reason]:
        """What each teardown of the assembly does to a span."""
        for teardown, find in self.fits.finds_of(limit.assembly.id, limit.assembly.position):
            if reason := self._bears(limit, teardown, find):
                yield reason

    def _bears(self, limit: Limit, teardown: Teardown, find: Find) -> Reason | None:
        read = {self.register.key_of(teardown, use): use for use in find.parts}
        line = self.lists.line_of(limit)
        mine = next((read[key] for key in line.keys if key in read), None)
        beside = {key for one in self.lists.beside(line) for key in one.keys}
        other = next(((key, read[key]) for key in read if key in beside), None)
        samples = self.fits.samples((teardown, find.position))
        if mine:
            weights = {self._reaches(limit, line, reading) for reading in samples}
            if len(weights) == 1 and (weight := weights.pop()):
                return _counted(weight, teardown, find, mine)
        elif other and samples and all(self._surely(limit, reading) for reading in samples):
            return self._in_place(limit, line, teardown, find, *other)
        return None

    def _reaches(self, limit: Limit, line: Line, reading: Reading) -> Weight | None:
        """What the number of a line does to one of its spans, read on a machine."""
        if reading.series is not limit.series:
            return None
        run = self.lists.claims(limit)
        reached = [one for one in line.limits if self._covers(one, reading) is not Covers.NO]
        if limit in reached:
            return Weight.SEEN
        # What another run of the line reaches is no matter of this one.
        return None if any(one not in run for one in reached) else Weight.AGAINST

    def _surely(self, limit: Limit, reading: Reading) -> bool:
        return self._covers(limit, reading) is Covers.YES

    def _covers(self, limit: Limit, reading: Reading) -> Covers:
        mine = limit.series is reading.series
        return self.lists.reach_of(limit).covers(reading.number) if mine else Covers.NO

    def _in_place(
        self, limit: Limit, line: Line, teardown: Teardown, find: Find, key: PartKey, use: PartUse
    ) -> Reason:
        """Another line's number where this one's is claimed."""
        reading = self.fits.reading(teardown)
        if any(key in self.parts_read.onward(one, reading) for one in line.keys):
            return Reason(Weight.EXPLAINED, teardown, None, InPlace(use.number, None, "later"))
        if self.parts_read.onward(key, reading) & set(line.keys):
            return Reason(Weight.EXPLAINED, teardown, None, InPlace(use.number, None, "earlier"))
        return self.parts_read.in_place(limit.assembly, teardown, find, key, use)


def _counted(weight: Weight, teardown: Teardown, find: Find, use: PartUse) -> Reason:
    good = find.condition in GOOD
    return Reason(weight if good else Weight.SET_ASIDE, teardown, None, HadNumber(use.number, find.condition))
