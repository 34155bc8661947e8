"""The things that may be held, and what is recorded to be seen of each: signs, sizes, numbers and marks."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from spanbook.answers.part_keys import Known, keys_of_part
from spanbook.ground.matching import worn
from spanbook.ground.measures import MM_OF, read
from spanbook.ground.memo import kept
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Absence, Assembly, PartRecord, Shown, Size
from spanbook.register.model import Part, Register
from spanbook.register.statements import Use

# What a part is found by and may bear; a misprint, and what the records had before, stand on paper.
_ON_IT = (Known.NUMBER, Known.ALSO, Known.MARK)


@dataclass(frozen=True, slots=True)
class Measured:
    """A recorded length: what it is of, and between what it lies, in mm."""

    what: str
    low: Fraction
    high: Fraction


@dataclass(frozen=True, eq=False)
class Thing:
    """An assembly, or a part, that may be held, and what it shows of each sign that is recorded of it.

    `assemblies` are the assembly, or those at the position that have the part, or had what it replaced;
    `parts` are those of the assembly that are recorded, or the part itself.
    """

    register: Register
    of: Assembly | Part
    shows: Mapping[str, Shown]
    assemblies: tuple[Assembly, ...]
    parts: tuple[Part, ...]

    def answers(self, sign: str) -> tuple[str, ...]:
        """What may be seen of a sign by its id; nothing where that is not recorded."""
        return self.shows[sign].every if sign in self.shows else ()

    @kept
    def texts(self) -> frozenset[str]:
        """Everything that may be read on it, as a worn stamp leaves it."""
        keys = (key for part in self.parts for key in keys_of_part(part))
        return frozenset(worn(key.text) for key in keys if key.known in _ON_IT)

    @kept
    def sizes(self) -> tuple[Measured, ...]:
        """Every length that is recorded of it."""
        return tuple(filter(None, map(_measured, self._sizes())))

    def _sizes(self) -> Iterator[Size]:
        if isinstance(self.of, Assembly):
            yield from (size for piece in self.of.stack for size in piece.sizes)
        for part in self.parts:
            yield from part.record.sizes if part.record else ()


def assemblies_at(register: Register, position: str) -> tuple[Thing, ...]:
    """Everything that may be held from a position; that nothing is fitted there cannot."""
    return tuple(_assembly(register, one) for one in _held_at(register, position))


def _held_at(register: Register, position: str) -> Iterator[Assembly]:
    return (one for one in register.at_position.get(position, ()) if not isinstance(one, Absence))


def parts_at(register: Register, position: str) -> tuple[Thing, ...]:
    """Every part of the assemblies at a position, and whatever replaced it since, each number once."""
    found: dict[Part, dict[Assembly, None]] = {}
    for assembly in _held_at(register, position):
        for part in _parts_of(register, assembly):
            found.setdefault(part, {})[assembly] = None
    return tuple(Thing(register, part, _shown(part.record), tuple(of), (part,)) for part, of in found.items())


def parts_told(register: Register, position: str) -> int:
    """Of how many of the parts at a position a sign or a size is recorded."""
    held = _held_at(register, position)
    parts = {part for assembly in held for part in _parts_of(register, assembly)}
    records = (part.record for part in parts)
    return sum(bool(record and (record.signs or record.sizes)) for record in records)


def _parts_of(register: Register, assembly: Assembly) -> Iterable[Part]:
    """Every part in the list of an assembly, and whatever replaced it since."""
    return _with_later(register, [register.parts[key] for key in _listed(register, assembly)])


def _listed(register: Register, assembly: Assembly) -> Iterator[PartKey]:
    """The numbers in the list of an assembly."""
    said = register.statements_of.get(assembly, ())
    return (one.number for one in said if one.number and isinstance(one.subject, Use))


def _with_later(register: Register, parts: Sequence[Part]) -> Iterable[Part]:
    """Parts, and then what acts put in the place of any of them."""
    waiting = deque(part for part in parts if part.old_in)
    found = dict.fromkeys(parts)
    while waiting:
        acts = waiting.popleft().old_in
        later = dict.fromkeys(register.parts[register.key_of(act, use)] for act in acts for use in act.new)
        waiting += (one for one in later if one not in found)
        found |= later
    return found


def _assembly(register: Register, assembly: Assembly) -> Thing:
    whole = register.key_of_whole(assembly)
    parts = tuple(register.parts[key] for key in dict.fromkeys((whole, *_listed(register, assembly))) if key)
    return Thing(register, assembly, _shown(assembly), (assembly,), parts)


def _shown(record: Assembly | PartRecord | None) -> Mapping[str, Shown]:
    """What a record shows of each sign that there is; of two that it gives for one, the first."""
    return {one.sign: one for one in reversed(record.signs)} if record else {}


def _measured(size: Size) -> Measured | None:
    if size.unit not in MM_OF:
        return None
    low, high = (read(value) * MM_OF[size.unit] for value in (size.value, size.to or size.value))
    return Measured(size.what, min(low, high), max(low, high))


def parted(one: Thing, other: Thing, signs: Iterable[str]) -> bool:
    """Whether a sign is recorded of both, and its answers are never the same."""
    both: Sequence[str] = [sign for sign in signs if sign in one.shows and sign in other.shows]
    return any(set(one.shows[sign].every).isdisjoint(other.shows[sign].every) for sign in both)
