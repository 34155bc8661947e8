"""Parts that are sold only in sets: how many sets an order needs, what they hold, and what is left over.

Of one part's sets any one will do, and all of the part is had from that one. Parts of one order that are had
from the same set share it: as many are needed as the one that needs most of them. Of two ways the one that
needs no fewer of any set, and more of some, is not told.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import islice, product

from spanbook.ground.part_numbers import PartKey
from spanbook.register.model import Part, Register

MOST_WAYS = 40

Counts = tuple[tuple[PartKey, int], ...]


@dataclass(frozen=True, slots=True)
class Held:
    """A set, and how many of a part it holds."""

    key: PartKey
    quantity: int


@dataclass(frozen=True, slots=True)
class SetNeeded:
    """So many of a set, the numbers that are had from it, what one of it holds, and what is left over of all.

    Where nobody has said what it holds, both are empty and the quantity is the least that it can be.
    """

    key: PartKey
    quantity: int
    covers: tuple[PartKey, ...]
    holds: Counts
    left: Counts


SetsNeeded = tuple[SetNeeded, ...]


def contents(register: Register, key: PartKey) -> Mapping[PartKey, int]:
    """What a set holds, the same number's lines added; empty where nobody has said."""
    part = register.parts.get(key)
    record = part.record if part else None
    found: dict[PartKey, int] = {}
    if record:
        for one in record.holds:
            held = register.key_of(record, one)
            found[held] = found.get(held, 0) + one.quantity
    return found


def sets_of(register: Register, key: PartKey) -> tuple[PartKey, ...]:
    """The sets in which alone a part is sold, any one of them; empty for one that is sold by itself."""
    part = register.parts.get(key)
    record = part.record if part else None
    return tuple(dict.fromkeys(register.key_of(record, one) for one in record.only_in)) if record else ()


def held_in(register: Register, part: Part) -> Iterator[Held]:
    """Every set that holds a part."""
    for record in part.beside:
        key = register.key_of_record(record)
        if part.key in (held := contents(register, key)):
            yield Held(key, held[part.key])


def sets_needed(register: Register, wanted: Mapping[PartKey, int]) -> tuple[SetsNeeded, ...]:
    """Every way to have so many of parts that are sold only in sets, fewest sets first; empty for none."""
    choices = {key: sets for key in wanted if (sets := sets_of(register, key))}
    if not choices:
        return ()
    found: dict[SetsNeeded, None] = {}
    for chosen in islice(product(*choices.values()), MOST_WAYS):
        from_: dict[PartKey, dict[PartKey, int]] = {}
        for key, set_ in zip(choices, chosen, strict=True):
            from_.setdefault(set_, {})[key] = wanted[key]
        found[tuple(_needed(register, set_, parts) for set_, parts in sorted(from_.items()))] = None
    kept = [way for way in found if not any(_better(other, way) for other in found)]
    return tuple(sorted(kept, key=lambda way: (sum(one.quantity for one in way), [one.key for one in way])))


def _needed(register: Register, key: PartKey, wanted: Mapping[PartKey, int]) -> SetNeeded:
    holds = contents(register, key)
    quantity = max(-(-count // holds.get(part, count)) for part, count in wanted.items())
    left = ((part, each * quantity - wanted.get(part, 0)) for part, each in holds.items())
    return SetNeeded(
        key, quantity, tuple(wanted), tuple(holds.items()), tuple((part, n) for part, n in left if n > 0)
    )


def _better(one: SetsNeeded, other: SetsNeeded) -> bool:
    """Whether a way needs no more of any set than another, and less of some."""
    mine, theirs = ({need.key: need.quantity for need in way} for way in (one, other))
    return mine != theirs and all(count <= theirs.get(key, 0) for key, count in mine.items())
