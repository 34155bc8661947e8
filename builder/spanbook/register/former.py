"""What things were called before, so that no address dies of a correction."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import TypeVar

from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import (
    Cautions,
    Glossary,
    Machine,
    PartRecord,
    PositionEntry,
    Positions,
    Record,
    Signs,
)
from spanbook.register.numbering import Numbering

Named = tuple[str, str]  # a sort of thing, and the id of one
K = TypeVar("K")
V = TypeVar("V")


@dataclass(frozen=True, slots=True)
class Former:
    """What every former name leads to today, and the former names of what is there.

    `ids` are those of records, by their kind, of series, positions, cautions, terms and signs; a name that
    something has today is nobody's former one. `numbers` are part numbers that the records had before.
    """

    ids: Mapping[Named, str]
    ids_of: Mapping[Named, tuple[str, ...]]
    numbers: Mapping[PartKey, PartKey]
    numbers_of: Mapping[PartKey, tuple[PartKey, ...]]


def former(
    records: Collection[Record], numbering: Numbering, things: Mapping[str, Collection[str]]
) -> Former:
    """The former names of all records; of two things with one former name the first by path has it."""
    ids: dict[Named, str] = {}
    for sort, name, now in _names(records):
        if name not in things.get(sort, ()):
            ids.setdefault((sort, name), now)
    numbers: dict[PartKey, PartKey] = {}
    for record in records:
        if isinstance(record, PartRecord):
            key = numbering.of_record(record)
            for one in record.formerly_numbered:
                was = PartKey.of(one.by or key.by, one.number, one.means or "")
                numbers.setdefault(was, key)
    return Former(
        MappingProxyType(ids),
        _turned(((sort, now), name) for (sort, name), now in ids.items()),
        MappingProxyType(numbers),
        _turned((now, before) for before, now in numbers.items()),
    )


def _turned(pairs: Iterable[tuple[K, V]]) -> Mapping[K, tuple[V, ...]]:
    found: defaultdict[K, list[V]] = defaultdict(list)
    for key, value in pairs:
        found[key].append(value)
    return MappingProxyType({key: tuple(values) for key, values in found.items()})


def _names(records: Iterable[Record]) -> Iterator[tuple[str, str, str]]:
    """Every former name with its sort and the name of today; what was typed before what follows from it."""
    later: list[tuple[str, str, str]] = []
    for record in records:
        yield from ((record.kind, id_, record.id) for id_ in record.formerly)
        if isinstance(record, Machine):
            yield from (("series", id_, s.id) for s in record.every_series for id_ in s.formerly)
        elif isinstance(record, Cautions):
            yield from (("caution", id_, one.id) for one in record.cautions for id_ in one.formerly)
        elif isinstance(record, Glossary):
            yield from (("term", id_, one.id) for one in record.terms for id_ in one.formerly)
        elif isinstance(record, Signs):
            yield from (("sign", id_, one.id) for one in record.signs for id_ in one.formerly)
        elif isinstance(record, Positions):
            places = _Places(dict(_paths(record.positions, "")))
            for path, entry in places.entries.items():
                yield from (("position", name, path) for name in entry.formerly)
                later += [("position", name, path) for name in places.before(path)]
    yield from later


def _paths(entries: Iterable[PositionEntry], above: str) -> Iterator[tuple[str, PositionEntry]]:
    for entry in entries:
        path = f"{above}{entry.id}"
        yield path, entry
        yield from _paths(entry.positions, f"{path}/")


class _Places:
    """The names of positions: one in a group had another name for each that the group had."""

    def __init__(self, entries: Mapping[str, PositionEntry]) -> None:
        self.entries = entries
        self._now = {name: path for path, entry in entries.items() for name in entry.formerly}
        self._now |= {path: path for path in entries}

    def before(self, path: str) -> list[str]:
        """Every name that a position had, as far as the records tell."""
        return [name for name in self._all(path, frozenset()) if name != path]

    def _all(self, path: str, asked: frozenset[str]) -> dict[str, None]:
        """`asked` are those whose names are being put together: one that was inside itself ends there."""
        found: dict[str, None] = {}
        asked |= {path}
        for name in (path, *self.entries[path].formerly):
            found[name] = None
            group, _, word = name.rpartition("/")
            around = self._now.get(group)
            if around and around not in asked:
                above = self._all(around, asked)
                found |= {f"{one}/{word}": None for one in above}
        return found
