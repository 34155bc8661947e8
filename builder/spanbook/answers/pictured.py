"""The figures that show a part, or what is ordered whole under its number, with whose each of them is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from spanbook.reading.records import Assembly, Figure, PartRecord, Record, Teardown
from spanbook.register.model import Part, Register


@dataclass(frozen=True, slots=True)
class Pictured:
    """A figure and the record that it stands in."""

    figure: Figure
    record: Record

    @property
    def made_by(self) -> str | None:
        """Unless it says otherwise a teardown's is by the one who looked."""
        seen_by = self.record.seen_by if isinstance(self.record, Teardown) else None
        return self.figure.made_by or seen_by

    @property
    def licence(self) -> str | None:
        """Unless it says otherwise a teardown's is under the record's."""
        whole = self.record.licence if isinstance(self.record, Teardown) else None
        return self.figure.licence or whole


def pictured(register: Register, part: Part) -> tuple[Pictured, ...]:
    """The part's own figures, those of the assemblies that it is the number of, those that point it out."""
    own = _of(part.record) if part.record else ()
    whole = (one for one in part.whole if isinstance(one, Assembly))
    pointing = (one for record in part.records for one in _of(record) if _points_out(register, one, part))
    found = (*own, *(shown for one in whole for shown in of_assembly(register, one)), *pointing)
    return tuple(dict.fromkeys(found))


def of_assembly(register: Register, assembly: Assembly) -> Iterator[Pictured]:
    """Its own figures, and every photograph that teardowns have of it."""
    yield from _of(assembly)
    for teardown in register.found.get(assembly.id, ()):
        for find in teardown.found:
            if find.assembly == assembly.id:
                yield from (Pictured(figure, teardown) for figure in find.photographs)


def _of(record: Record) -> Iterator[Pictured]:
    if isinstance(record, Assembly | PartRecord):
        yield from (Pictured(figure, record) for figure in record.figures)
    elif isinstance(record, Teardown):
        yield from (Pictured(figure, record) for find in record.found for figure in find.photographs)


def _points_out(register: Register, one: Pictured, part: Part) -> bool:
    uses = (point.part for point in one.figure.points)
    return any(register.key_of(one.record, use) == part.key for use in uses if use)
