"""Numbers that were read on an assembly and that its parts list does not have: what they do to the list.

Such a number stands in the place of a line whose own number was not read there:

- of every line that acts of supersession lead to it from, or that they lead to from it: that explains it;
- else of the one line that is called the same and that the machine may have. It is against that line, unless
  a conversion that makes the assembly of this machine puts the number on.

A number that stands in no line's place, or may stand in that of several, is told as it is: also read there.
Worn numbers and that of the whole assembly are no strangers to the list.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from spanbook.answers.applicability import Fits
from spanbook.answers.condition import may_concern
from spanbook.answers.lines import Line
from spanbook.answers.named import GOOD
from spanbook.answers.readings import Reading
from spanbook.answers.reasons import InPlace, Reason, Weight
from spanbook.ground.intervals import Covers
from spanbook.ground.matching import UNREADABLE
from spanbook.ground.memo import Memo
from spanbook.ground.part_numbers import PartKey, hyphened
from spanbook.reading.records import Assembly, Conversion, Find, PartUse, Teardown
from spanbook.register.model import Part


@dataclass(frozen=True, slots=True)
class AlsoRead:
    """A number that was read on an assembly and stands in the place of no line of its list.

    `put_on` is a conversion that makes the assembly of this machine and puts the number on.
    """

    teardown: Teardown
    find: Find
    part: Part
    put_on: Conversion | None


@dataclass(frozen=True, slots=True)
class Strangers:
    """What numbers that a list does not have do to its lines, by the numbers of those, and what is left."""

    of_line: Mapping[PartKey, tuple[Reason, ...]]
    also: tuple[AlsoRead, ...]


class PartsRead:
    """What was read on each assembly beside what its list has."""

    def __init__(self, fits: Fits) -> None:
        self.fits = fits
        self.register, self.lists = fits.register, fits.lists
        self.of = Memo(self._of)

    def _of(self, assembly: Assembly) -> Strangers:
        of_line: dict[PartKey, list[Reason]] = {}
        also: list[AlsoRead] = []
        for teardown, find in self.fits.finds_of(assembly.id, assembly.position):
            for key, use in self._strangers(assembly, teardown, find):
                places = tuple(self._places(assembly, teardown, find, key, use))
                for line, reason in places:
                    of_line.setdefault(line, []).append(reason)
                if not places:
                    put_on = self._put_on(assembly, teardown, key)
                    also.append(AlsoRead(teardown, find, self.register.parts[key], put_on))
        return Strangers({line: tuple(reasons) for line, reasons in of_line.items()}, tuple(also))

    def _lines(self, assembly: Assembly, reading: Reading | None) -> Iterator[Line]:
        """The lines of a list that a machine may have; all where it is not known which machine."""
        for place in self.lists.places(assembly):
            for line in place.lines:
                covers = self.lists.covers(line, reading) if reading else None
                if covers is not Covers.NO:
                    yield line

    def _strangers(
        self, assembly: Assembly, teardown: Teardown, find: Find
    ) -> Iterator[tuple[PartKey, PartUse]]:
        known = {*self.lists.place_of(assembly), self.register.key_of_whole(assembly)}
        for use in find.parts:
            key = self.register.key_of(teardown, use)
            if key not in known and UNREADABLE not in use.number:
                known.add(key)
                yield key, use

    def _places(
        self, assembly: Assembly, teardown: Teardown, find: Find, key: PartKey, use: PartUse
    ) -> Iterator[tuple[PartKey, Reason]]:
        """The numbers in whose place a stranger stands, each with what that does to it."""
        read = {self.register.key_of(teardown, part) for part in find.parts}
        reading = self.fits.reading_at(teardown, assembly.position)
        lines = [line for line in self._lines(assembly, reading) if not read & set(line.keys)]
        unread = dict.fromkeys(one for line in lines for one in line.keys)
        earlier = [one for one in unread if key in self.onward(one, reading)]
        later = [one for one in unread if one in self.onward(key, reading)]
        for one in (*earlier, *later):
            shown = InPlace(use.number, None, "later" if one in earlier else "earlier")
            yield one, Reason(Weight.EXPLAINED, teardown, None, shown)
        called = {hyphened(use.name)} if use.name else set(map(hyphened, self.register.parts[key].names))
        alike = [line for line in lines if hyphened(line.part.name or "") in called]
        if not earlier and not later and len({line.keys for line in alike}) == 1:
            for one in alike[0].keys:
                yield one, self.in_place(assembly, teardown, find, key, use)

    def in_place(
        self, assembly: Assembly, teardown: Teardown, find: Find, key: PartKey, use: PartUse
    ) -> Reason:
        """What a number does to the one that it was read in the place of, where no act explains it."""
        if put_on := self._put_on(assembly, teardown, key):
            return Reason(Weight.EXPLAINED, teardown, None, InPlace(use.number, None, put_on))
        if find.condition in GOOD:
            return Reason(Weight.AGAINST, teardown, None, InPlace(use.number, None, None))
        return Reason(Weight.SET_ASIDE, teardown, None, InPlace(use.number, find.condition, None))

    def onward(self, key: PartKey, reading: Reading | None) -> set[PartKey]:
        """Every number that acts lead to from one, on a machine; where that is not known, acts of any."""
        found, waiting = {key}, [key]
        while waiting:
            part = self.register.parts.get(waiting.pop())
            for act in part.old_in if part else ():
                if may_concern(act.serials, reading):
                    new = {self.register.key_of(act, use) for use in act.new} - found
                    found |= new
                    waiting.extend(new)
        return found - {key}

    def _put_on(self, assembly: Assembly, teardown: Teardown, key: PartKey) -> Conversion | None:
        reading = self.fits.reading_at(teardown, assembly.position)
        steps = self.fits.applying.to(reading) if reading else ()
        made = (step.conversion for step in steps if any(one.to == assembly.id for one in step.changes))
        return next(
            (one for one in made if any(self.register.key_of(one, use) == key for use in one.adds)), None
        )
