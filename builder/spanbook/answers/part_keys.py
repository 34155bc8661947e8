"""The texts that a part is found by."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from spanbook.ground.matching import squeezed, worn
from spanbook.reading.records import PartRecord
from spanbook.register.model import Part, Register


class Known(StrEnum):
    """What a text that a part is found by is to it, the surest first."""

    NUMBER = "number"
    ALSO = "also"
    MISPRINT = "misprint"
    FORMER = "former"
    MARK = "mark"


@dataclass(frozen=True, slots=True)
class Key:
    """A text that a part is found by: a number of it, a misprint for that, or a mark on it."""

    text: str
    part: Part
    known: Known = Known.NUMBER


def keys_of(register: Register) -> tuple[Key, ...]:
    """Every text that a part is found by, in the order of parts."""
    return tuple(key for part in register.parts.values() for key in keys_of_part(part))


def keys_of_part(part: Part) -> Iterator[Key]:
    """Every text that a part is found by, its number first and each once."""
    yield Key(part.number, part)
    if part.record is None:
        return
    seen = {squeezed(part.number)}
    for text, known in _also_known(part.record):
        if squeezed(text) and squeezed(text) not in seen:
            seen.add(squeezed(text))
            yield Key(text, part, known)


def worn_forms(register: Register) -> frozenset[str]:
    """All that is recorded to be read anywhere, as a worn stamp leaves it."""
    return frozenset(worn(key.text) for key in keys_of(register))


def _also_known(record: PartRecord) -> Iterator[tuple[str, Known]]:
    yield from ((one.number, Known.ALSO) for one in record.also)
    yield from ((one.number, Known.MISPRINT) for one in record.misprints)
    yield from ((one.number, Known.FORMER) for one in record.formerly_numbered)
    yield from ((mark.text, Known.MARK) for mark in record.marks)
