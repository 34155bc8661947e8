"""Parts beside one another: mirror images, and those that look alike; one of the two records says so."""

from __future__ import annotations

from spanbook.reading.records import Hand, PartRecord
from spanbook.register.model import Part, Register

OTHER: dict[Hand, Hand] = {"left": "right", "right": "left"}


def mirrors_of(register: Register, part: Part) -> tuple[Part, ...]:
    """The parts that are a part's mirror image. Being one is symmetric, and not transitive."""
    record = part.record
    own = (register.key_of(record, one) for one in record.mirrors) if record else ()
    said = (register.key_of_record(one) for one in part.beside if _mirrors(register, one, part))
    return tuple(register.parts[key] for key in dict.fromkeys((*own, *said)))


def hand_of(register: Register, part: Part) -> Hand | None:
    """Which hand a part is: as its record says, else not its mirror image's; None where neither says."""
    if part.record and part.record.hand:
        return part.record.hand
    said = {one.record.hand for one in mirrors_of(register, part) if one.record and one.record.hand}
    return OTHER[said.pop()] if len(said) == 1 else None


def _mirrors(register: Register, record: PartRecord, part: Part) -> bool:
    return any(register.key_of(record, one) == part.key for one in record.mirrors)


def told_apart(register: Register, one: Part, other: Part) -> bool:
    """Whether a record of one of two parts says that they are not to be confused."""
    both = {one.key, other.key}
    return any(
        register.key_of(part.record, said) in both
        for part in (one, other)
        if part.record
        for said in part.record.unlike
    )
