"""The register after some records were edited, of the one before: equal to what linking all of them makes.

Only where the edits leave alone what other records are read by: ids and former ids, machines and their
series, positions, signs, which part a number means. Else all is linked anew.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import chain

from spanbook.ground.language import spoken
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import (
    Assembly,
    Conversion,
    Record,
    SeriesSpan,
    Source,
    StripDown,
    Supersession,
    Teardown,
)
from spanbook.reading.titled import in_language
from spanbook.reading.unread import Unread
from spanbook.register.ids import ids_inside
from spanbook.register.link import build, frozen, kept_of, tables_of
from spanbook.register.model import Part, Register
from spanbook.register.numbering import Numbering
from spanbook.register.parts import mentions, owner, parts_of
from spanbook.register.statements import Statement, Use, statements_in

# By what these say no other record is read.
_PLAIN = (Assembly, Conversion, Source, StripDown, Supersession, Teardown)
Edited = Mapping[Record, Record]  # each record as it was, and as it is


def linked(records: Sequence[Record], unread: Unread, before: Register) -> Register:
    """The register of some records in one language, by the one that there was before."""
    edited = _edited(before, records)
    made = relinked(before, edited) if edited is not None else None
    return replace(made, unread=unread) if made else build(records, unread)


def _edited(before: Register, records: Sequence[Record]) -> Edited | None:
    """What was edited; None where records came or went."""
    was = {record.origin.path: record for record in before.records}
    if was.keys() != {record.origin.path for record in records}:
        return None
    pairs = ((was[record.origin.path], record) for record in records)
    return {old: new for old, new in pairs if old.origin is not new.origin}


def relinked(before: Register, edited: Edited) -> Register | None:
    """The register with some of its records as they are now; None where all has to be linked anew."""
    edited = {old: in_language(new, spoken()) for old, new in edited.items()}
    if not all(_alike(before, old, new) for old, new in edited.items()):
        return None
    # What a strip-down's number means goes by the machines of its assembly.
    if before.numbering.senses and any(_spans(old) != _spans(new) for old, new in edited.items()):
        return None
    return _with(before, edited)


def _alike(register: Register, old: Record, new: Record) -> bool:
    """Whether a record goes by the same names as it did, and is one that no other is read by."""
    return (
        isinstance(old, _PLAIN)
        and (old.kind, old.id, old.origin.path) == (new.kind, new.id, new.origin.path)
        and old.formerly == new.formerly
        and register.things[old.kind].get(old.id) is old
        and [one[1:] for one in ids_inside(old)] == [one[1:] for one in ids_inside(new)]
    )


def _spans(record: Record) -> tuple[SeriesSpan, ...]:
    return record.serials if isinstance(record, Assembly) else ()


def _with(before: Register, edited: Edited) -> Register:
    def now(record: Record) -> Record:
        return edited.get(record, record)

    records = tuple(map(now, before.records))
    owners = {now(record): by for record, by in before.owners.items()}
    owners |= {new: owner(new, before.series, before.machines) for new in edited.values()}
    numbering = before.numbering.over(owners, edited)
    said = {now(record): found for record, found in before.statements_of.items()}
    for new in edited.values():
        said[new] = statements_in(new, numbering, before.series, before.former)
    kept = tuple(kept_of(records))
    # What says nothing is among none, and what began to say something stands in its place.
    statements_of = {record: found for record in kept if (found := said.get(record))}
    statements = tuple(chain.from_iterable(statements_of.values()))
    things = {
        sort: frozen({id_: now(record) for id_, record in found.items()})
        if any(old.kind == sort or sort in _inside(old) for old in edited)
        else found
        for sort, found in before.things.items()
    }
    return replace(
        before,
        records=records,
        things=frozen(things),
        owners=frozen(owners),
        numbering=numbering,
        parts=frozen(_parts(before, edited, numbering, kept, statements_of)),
        statements=statements,
        statements_of=frozen(statements_of),
        **tables_of(records, statements)._asdict(),
    )


def _inside(record: Record) -> set[str]:
    return {sort for _, sort, _ in ids_inside(record)}


def _parts(
    before: Register,
    edited: Edited,
    numbering: Numbering,
    kept: tuple[Record, ...],
    statements_of: Mapping[Record, tuple[Statement, ...]],
) -> dict[PartKey, Part]:
    """The parts, made anew where an edited record names them or did."""
    touched = {key for old in edited for key, _ in mentions(old, before.numbering)}
    touched |= {key for new in edited.values() for key, _ in mentions(new, numbering)}
    naming = {
        edited.get(one, one) for key in touched & before.parts.keys() for one in before.parts[key].records
    }
    # Of two records of one part the second is none of those that name it, and says what it is called too.
    naming |= {one for one in before.part_records.values() if numbering.of_record(one) in touched}
    naming |= set(edited.values())
    asked = [record for record in kept if record in naming]
    subjects = (one.subject for record in asked for one in statements_of.get(record, ()))
    uses = (one for one in subjects if isinstance(one, Use) and not one.assembly.retired)
    made = {key: part for key, part in parts_of(asked, uses, numbering).items() if key in touched}
    parts = {**before.parts}
    for key in touched - made.keys():
        parts.pop(key, None)
    if made.keys() <= parts.keys():
        return parts | made
    return dict(_merged(parts, made))


def _merged(parts: dict[PartKey, Part], made: dict[PartKey, Part]) -> Iterator[tuple[PartKey, Part]]:
    """Both in the order of their keys; what was made has the word."""
    keys = list(parts)
    for key in sorted(made.keys() - parts.keys()):
        keys.insert(bisect_left(keys, key), key)
    every = parts | made
    return ((key, every[key]) for key in keys)
