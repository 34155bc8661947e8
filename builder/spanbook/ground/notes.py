"""What was read while things were worked out, to tell which of them have to be worked out again.

What was there before all working out is a cell, known by its name. What was worked out is a step: it has read
cells, and steps that were done before it. All of them have numbers, in the order in which they were done. Who
notes nothing pays nothing: memos and kept values look for notes once, when they are made.
"""

from __future__ import annotations

import threading
from array import array
from bisect import bisect_left
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from operator import itemgetter
from typing import TypeVar

T = TypeVar("T")
Name = tuple[str, object]  # a table, and what is read of it


@dataclass(frozen=True, slots=True)
class Noted:
    """Each cell with its number, in their order; what each step has read lies in `read`, up to its `ends`."""

    cells: tuple[tuple[int, Name], ...] = ()
    read: array[int] = field(default_factory=lambda: array("I"))
    ends: array[int] = field(default_factory=lambda: array("I"))

    def then(self, other: Noted) -> Noted:
        """Both, of which the other was noted after this one by the same."""
        start = len(self.read)
        ends = array("I", (start + end for end in other.ends))
        return Noted(self.cells + other.cells, self.read + other.read, self.ends + ends)

    def beside(self, other: Noted, shared: int = 0, at: int = 0) -> Noted:
        """Both: the numbers of the other follow on those of this one, but for the first of them, which are
        `shared`: those are here already, from the number `at` on."""
        offset = len(self.ends) - shared
        start = len(self.read)
        read = array("I", (one + (offset if one >= shared else at) for one in other.read))
        ends = array("I", (start + end for end in other.ends))
        cells = tuple((number + offset, name) for number, name in other.cells)
        return Noted(self.cells + cells, self.read + read, self.ends + ends)

    def only(self, steps: Iterable[int]) -> tuple[Noted, array[int]]:
        """What some steps go back to, and for every number which one it is now."""
        wanted = bytearray(len(self.ends))
        for step in steps:
            wanted[step] = True
        for number in range(len(self.ends) - 1, -1, -1):
            if wanted[number]:
                for one in self._read_by(number):
                    wanted[one] = True
        now = array("I", bytes(4 * len(wanted)))
        read, ends = array("I"), array("I")
        for number, want in enumerate(wanted):
            if want:
                now[number] = len(ends)
                read.extend(map(now.__getitem__, self._read_by(number)))
                ends.append(len(read))
        cells = tuple((now[number], name) for number, name in self.cells if wanted[number])
        return Noted(cells, read, ends), now

    def _read_by(self, number: int) -> array[int]:
        return self.read[self.ends[number - 1] if number else 0 : self.ends[number]]

    def stale(self, changed: Callable[[Name], bool]) -> bytearray:
        """For every number whether it is no longer what it was, by which cells have changed."""
        found = bytearray(len(self.ends))
        for number, name in self.cells:
            found[number] = changed(name)
        begin = 0
        for number, end in enumerate(self.ends):
            if begin != end and not found[number]:
                found[number] = any(map(found.__getitem__, self.read[begin:end]))
            begin = end
        return found


class Notes:
    """Takes notes: whoever works something out says so before and afterwards, and what he reads meanwhile."""

    def __init__(self) -> None:
        self._names: list[tuple[int, Name]] = []
        self._read = array("I")
        self._ends = array("I")
        self.open: list[set[int]] = [set()]  # what each step that is not done yet has read

    def __len__(self) -> int:
        return len(self._ends)

    def cell(self, name: Name) -> int:
        """The number of a cell that nobody has read before."""
        number = len(self._ends)
        self._names.append((number, name))
        self._ends.append(len(self._read))
        return number

    def saw(self, number: int) -> None:
        """A cell or a step is read."""
        self.open[-1].add(number)

    def begin(self) -> None:
        self.open.append(set())

    def done(self) -> int:
        """The number of the step that was begun last."""
        self._read.extend(self.open.pop())
        self._ends.append(len(self._read))
        return len(self._ends) - 1

    def since(self, first: int) -> Noted:
        """What was noted from a number on."""
        begin = self._ends[first - 1] if first else 0
        ends = array("I", (end - begin for end in self._ends[first:]))
        cells = self._names[bisect_left(self._names, first, key=itemgetter(0)) :]
        return Noted(tuple(cells), self._read[begin:], ends)


class _Held(threading.local):
    notes: Notes | None = None


_held = _Held()


def taken() -> Notes | None:
    """The notes that are taken in this thread, if any are."""
    return _held.notes


@contextmanager
def taking(notes: Notes | None) -> Iterator[None]:
    before, _held.notes = _held.notes, notes
    try:
        yield
    finally:
        _held.notes = before
