"""What stands in the cells of a watched register, in a few bytes: who has read one is held to them.

A record is known by its file, and what follows from a record and the ground by that record. What most cells
hold (nothing, a record, several of them, a part) is told without Python's pickle, which takes far longer.
"""

from __future__ import annotations

import pickle
from collections.abc import Mapping
from dataclasses import replace
from hashlib import blake2b
from io import BytesIO
from typing import Any, NamedTuple

from spanbook.ground.notes import Name, Noted
from spanbook.reading.records import Record, Series
from spanbook.register.model import Part, Register
from spanbook.register.statements import Statement
from spanbook.register.watched import OFTEN, Whole, tables

_BYTES = 8  # of everything that is told of


class Cells:
    """What stands in the cells of a register, and of tables `besides` that are watched as well, by name."""

    def __init__(self, register: Register, besides: Mapping[str, Mapping[Any, Any]]) -> None:
        self._records = {id(one): _file(one) for one in register.records}
        self._tables = {**tables(register), **besides}
        self._by_path = {one.origin.path: one for one in register.records}

    def at(self, name: Name) -> bytes:
        """What stands in a cell, by its lasting name."""
        table, key = self._tables[name[0]], name[1]
        if key is Whole.ALL:
            return self.printed(tuple(table.items()) if isinstance(table, Mapping) else table)
        if key is Whole.KEYS:
            return self.printed(tuple(table))
        found = self._by_path.get(key.path) if isinstance(key, _Path) else key
        return self.printed(table[found]) if found in table else _ABSENT

    def printed(self, value: object) -> bytes:
        """What stands somewhere, in a few bytes."""
        if value is None:
            return _NOTHING
        if isinstance(value, Record):
            return self._records[id(value)]
        if isinstance(value, Part):
            return self._part(value)
        if type(value) is tuple and all(isinstance(one, Record) for one in value):
            return _digest(b"records", *(self._records[id(one)] for one in value))
        return self._pickled(value)

    def _part(self, part: Part) -> bytes:
        """By the records that name it, and what numbers mean."""
        naming = [one for use in part.named_as.values() for one in use]
        records = (part.record, *(use.assembly for use in part.uses), *naming)
        said = (part.key, part.number, part.also, part.names, part.spelt, len(part.uses))
        told = (self._records[id(one)] if one else _NOTHING for one in records)
        return _digest(repr(said).encode("utf-8", "surrogateescape"), *told)

    def _pickled(self, value: object) -> bytes:
        into = BytesIO()
        _Pickler(into, self._records).dump(value)
        return _digest(into.getbuffer())


def lasting(noted: Noted) -> Noted:
    """The same with names that tell a record by its path, and hold in another process as well."""
    return replace(noted, cells=tuple((number, _lasting(name)) for number, name in noted.cells))


def _lasting(name: Name) -> Name:
    table, key = name
    return table, _Path(key.origin.path) if isinstance(key, Record) else key


def ground(register: Register) -> bytes:
    """What everything rests on that is not watched, in a few bytes.

    All of it follows from the records that are not watched, from what numbers mean, and from former names.
    """
    numbering, former = register.numbering, register.former
    whole = blake2b(digest_size=_BYTES)
    for one in register.records:
        if not isinstance(one, OFTEN):
            whole.update(_file(one))
    said: list[object] = [sorted(map(repr, leads)) for leads in (numbering.leads.items(), former.ids.items())]
    said.append(sorted(map(repr, former.numbers.items())))
    said.append(sorted((repr(key), sorted(map(repr, claimed))) for key, claimed in numbering.claims.items()))
    if numbering.senses:  # what a number means goes by the machines of the list that it stands in
        said.append(
            sorted((repr(key), [_file(one.part) for one in of]) for key, of in numbering.senses.items())
        )
        said.append([(one.id, repr(one.serials)) for one in register.assemblies.values()])
    whole.update(repr(said).encode())
    return whole.digest()


def _file(record: Record) -> bytes:
    path = record.origin.path.encode()
    return _digest(b"%d %b" % (len(path), path), record.origin.data)


def _digest(*pieces: bytes | memoryview) -> bytes:
    return blake2b(b"".join(pieces), digest_size=_BYTES).digest()


_NOTHING, _ABSENT = _digest(b"nothing"), _digest(b"absent")


class _Path(NamedTuple):
    """A record, by the path of its file."""

    path: str


class _Pickler(pickle.Pickler):
    """What is told of records and series tells which they are, and nothing of what they say."""

    def __init__(self, into: BytesIO, records: Mapping[int, bytes]) -> None:
        super().__init__(into, pickle.HIGHEST_PROTOCOL)
        self._records = records

    def reducer_override(self, value: Any) -> Any:
        if isinstance(value, Record):
            return bytes, (self._records[id(value)],)
        if isinstance(value, Series):
            return str, (value.id,)
        if isinstance(value, Statement):  # it follows from its record and from the ground
            return tuple, ((self._records[id(value.record)], value.path),)
        return NotImplemented
