"""What comes off at one place of a parts list: on one machine, or on any that has the assembly.

An account names the number that was on its own machine. Another machine may have another in that place: a
line that follows it, or another supplier's number on the same line. A whole line's worth comes off there as
it did here; where an account took off less than its line has, as many.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from spanbook.answers.lines import Line, ListPlace, Lists
from spanbook.answers.readings import Reading
from spanbook.ground.intervals import Covers
from spanbook.ground.part_numbers import PartKey

Told = Sequence[tuple[PartKey, int]]  # what accounts took off, and how many by each


@dataclass(frozen=True, slots=True)
class Choice:
    """One of the numbers that it may be, and how many; `line` is None where the list does not have it.

    `covers` is how surely the machine that is asked of has the line; yes where none is asked of.
    """

    key: PartKey
    quantity: int
    line: Line | None
    covers: Covers


@dataclass(frozen=True, slots=True)
class Freed:
    """What comes off: one of `choices`, none where the machine has nothing there by its list.

    `told` are the numbers that accounts name.
    """

    told: tuple[PartKey, ...]
    choices: tuple[Choice, ...]
    machine: Reading | None

    @property
    def lines(self) -> tuple[Line, ...]:
        """The lines that it may be, in the order of the list."""
        return tuple(dict.fromkeys(choice.line for choice in self.choices if choice.line))

    @property
    def keys(self) -> tuple[PartKey, ...]:
        return tuple(dict.fromkeys(choice.key for choice in self.choices))


def at_place(lists: Lists, place: ListPlace, told: Told, machine: Reading | None) -> Freed:
    """What comes off at a place of a list; nothing need be told of it."""
    choices = tuple(
        Choice(key, _count(place, line, told), line, covers)
        for line, covers in _there(lists, place, machine)
        for key in line.keys
    )
    return Freed(tuple(dict.fromkeys(key for key, _ in told)), choices, machine)


def unlisted(told: Told, machine: Reading | None) -> Freed:
    """What comes off and is in no list: as the accounts name it, as many as most come off by any."""
    key = told[0][0]
    return Freed((key,), (Choice(key, max(count for _, count in told), None, Covers.YES),), machine)


def _there(lists: Lists, place: ListPlace, machine: Reading | None) -> list[tuple[Line, Covers]]:
    if machine is None:
        return [(line, Covers.YES) for line in place.lines]
    says = [(line, lists.covers(line, machine)) for line in place.lines]
    return [(line, covers) for line, covers in says if covers is not Covers.NO]


def _count(place: ListPlace, line: Line, told: Told) -> int:
    listed = {key: one.part.quantity for one in place.lines for key in one.keys}
    if not told or (place.limited and all(count == listed[key] for key, count in told)):
        return line.part.quantity
    return max(count for _, count in told)
