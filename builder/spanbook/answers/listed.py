"""What parts lists say of a number: the machines that it is limited to, what is in its place on others, and
what serves as well. Asked of one machine, only lists of what it may ever have had are told.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from spanbook.answers.ever import Ever
from spanbook.answers.lines import Line, Lists, OnMachine
from spanbook.answers.readings import Reading
from spanbook.ground.intervals import Covers
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Assembly
from spanbook.register.model import Part, Register
from spanbook.register.statements import Use


@dataclass(frozen=True, slots=True)
class Listed:
    """A line with a number: how surely a machine has it (yes where none is asked of), which other numbers
    serve on it, and which other lines are in its place, on that machine or on any."""

    use: Use
    line: Line
    machine: Reading | None
    covers: Covers
    either: tuple[PartKey, ...]
    instead: tuple[OnMachine, ...]

    @property
    def assembly(self) -> Assembly:
        return self.use.assembly

    @property
    def plain(self) -> bool:
        """Whether there is no more to say than that the list has it."""
        return not self.line.limited and not self.either


def listed(ever: Ever, key: PartKey, machine: Reading | None = None) -> tuple[Listed, ...]:
    """Every line that has a number, in the order of the assemblies."""
    part = ever.register.parts.get(key)
    found = []
    for use in part.uses if part else ():
        position = use.assembly.position
        told = ever.fits.speaking.of(machine, position) if machine else None
        if told is None or told.number in ever.any_of((told.series, position), [use.assembly.id]):
            found.append(at_line(ever.fits.lists, use, told))
    return tuple(found)


def replaced_by(register: Register, part: Part) -> tuple[Part, ...]:
    """The numbers that one replaces, act by act, those first that it replaces itself."""
    found = {part.key: part}
    waiting = [part]
    for one in waiting:
        for act in one.new_in:
            for use in act.old:
                old = register.parts[register.key_of(act, use)]
                if old.key not in found:
                    found[old.key] = old
                    waiting.append(old)
    return tuple(found.values())[1:]


def at_line(lists: Lists, use: Use, machine: Reading | None = None) -> Listed:
    """What its line says of a number."""
    line, key = lists.line_with(use), lists.register.key_of(use.assembly, use.said)

    def covers(one: Line) -> Covers:
        return lists.covers(one, machine) if machine else Covers.YES

    def instead() -> Iterator[OnMachine]:
        for other in lists.beside(line):
            if (says := covers(other)) is not Covers.NO:
                yield OnMachine(other, says)

    either = tuple(one for one in line.keys if one != key)
    return Listed(use, line, machine, covers(line), either, tuple(instead()))
