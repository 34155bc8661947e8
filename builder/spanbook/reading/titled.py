"""Records under the titles that they have in a language, and the other titles that they are found by."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import TypeVar

from spanbook.reading.assemblies import Assembly
from spanbook.reading.basics import OtherTitle, Record
from spanbook.reading.circuits import Circuit
from spanbook.reading.conversions import Conversion
from spanbook.reading.machines import Machine
from spanbook.reading.parts import PartRecord
from spanbook.reading.single import PositionEntry, Positions

Titled = Assembly | Circuit | Conversion | Machine | PartRecord | PositionEntry
R = TypeVar("R", bound=Record)
T = TypeVar("T", bound=Titled)


def in_language(record: R, language: str) -> R:
    """A record as it is called in a language; the very same where it says nothing of that."""
    if isinstance(record, Titled):
        return _called(record, language)
    if isinstance(record, Positions):
        positions = tuple(_position(entry, language) for entry in record.positions)
        return record if positions == record.positions else replace(record, positions=positions)
    return record


def other_titles(record: Titled) -> Iterator[str]:
    """What a record is called besides, in whatever language."""
    return (other.title for other in record.titles if other.title != record.title)


def _position(entry: PositionEntry, language: str) -> PositionEntry:
    below = tuple(_position(one, language) for one in entry.positions)
    return _called(replace(entry, positions=below), language)


def _called(record: T, language: str) -> T:
    """Its own title goes among the others, so that it is still found by it."""
    there = next((one for one in record.titles if one.language == language), None)
    if there is None:
        return record
    others = tuple(one for one in record.titles if one is not there)
    return replace(record, title=there.title, titles=(*others, OtherTitle("", record.title)))
