"""The register after some records were edited, came or went, of the one before: equal to linking all of them.

Only where that leaves alone what other records are read by: former ids, machines and their series, positions,
signs, numbers that have meant several things. Else all is linked anew.
"""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import chain

from spanbook.ground.language import spoken
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import (
    Absence,
    Assembly,
    Circuit,
    Conversion,
    PartRecord,
    Record,
    Source,
    StripDown,
    Supersession,
    Teardown,
)
from spanbook.reading.titled import in_language
from spanbook.reading.unread import Unread
from spanbook.register.link import build, frozen, kept_of, tables_of
from spanbook.register.model import Part, Register
from spanbook.register.numbering import Numbering
from spanbook.register.parts import mentions, owner, parts_of
from spanbook.register.statements import Statement, statements_in
from spanbook.register.worn import possible_of

# Whatever these say, others are read as before, but for the numbers of parts and what a strip-down is of.
_PLAIN = (
    Absence,
    Assembly,
    Circuit,
    Conversion,
    PartRecord,
    Source,
    StripDown,
    Supersession,
    Teardown,
)


@dataclass(frozen=True, slots=True)
class Edits:
    """Each record that was edited as it was and as it is, and those that came and went."""

    edited: Mapping[Record, Record]
    came: Sequence[Record] = ()
    went: Sequence[Record] = ()

    @property
    def before(self) -> tuple[Record, ...]:
        return (*self.edited, *self.went)

    @property
    def after(self) -> tuple[Record, ...]:
        return (*self.edited.values(), *self.came)


def linked(records: Sequence[Record], unread: Unread, before: Register) -> Register:
    """The register of some records in one language, by the one that there was before."""
    edits = _edits(before, records)
    made = relinked(before, edits) if edits.before or edits.after else before
    if made is None:
        return build(records, unread)
    return made if made.unread == unread else replace(made, unread=unread)


def _edits(before: Register, records: Sequence[Record]) -> Edits:
    was = {record.origin.path: record for record in before.records}
    now = {record.origin.path: record for record in records}
    changed = [one for path, one in now.items() if path not in was or was[path].origin is not one.origin]
    named = [in_language(one, spoken()) for one in changed]
    return Edits(
        {was[one.origin.path]: one for one in named if one.origin.path in was},
        [one for one in named if one.origin.path not in was],
        [one for path, one in was.items() if path not in now],
    )


def relinked(before: Register, edits: Edits) -> Register | None:
    """The register with some of its records as they are now; None where all has to be linked anew."""
    alike = all(_alike(before, old, new) for old, new in edits.edited.items())
    if not (alike and _only_came(before, edits.came) and _only_went(before, edits.went)):
        return None
    return _with(before, edits)


def _alike(register: Register, old: Record, new: Record) -> bool:
    """Whether a record goes by the same names as it did, and is one that no other is read by."""
    return (
        _is_plain(old)
        and _is_plain(new)
        and (old.kind, old.id, old.origin.path) == (new.kind, new.id, new.origin.path)
        and old.formerly == new.formerly
        and register.things[old.kind].get(old.id) is old
    )


def _only_came(register: Register, came: Sequence[Record]) -> bool:
    """Whether some records are new to all others."""
    names = {(one.kind, one.id) for one in came}
    things, former = register.things, register.former.ids
    new = (one.id not in things[one.kind] and (one.kind, one.id) not in former for one in came)
    return len(names) == len(came) and all(map(_alone, came)) and all(new)


def _only_went(register: Register, went: Sequence[Record]) -> bool:
    """Whether nothing takes the place of records that are gone: none of that name, or that had it."""
    names = {(one.kind, one.id) for one in went}
    if not names:
        return True
    called = [(one.kind, id_) for one in register.records for id_ in (one.id, *one.formerly)]
    return all(map(_alone, went)) and sum(name in names for name in called) == len(names) == len(went)


def _alone(record: Record) -> bool:
    """Whether a record has no name but its own, and is one that no other is read by."""
    return _is_plain(record) and not record.formerly


def _is_plain(record: Record) -> bool:
    if isinstance(record, PartRecord) and (record.reused or record.formerly_numbered):
        return False
    return isinstance(record, _PLAIN)


def _with(before: Register, edits: Edits) -> Register:
    edited, gone = edits.edited, set(edits.went)
    ordered = [edited.get(one, one) for one in before.records if one not in gone]
    for one in edits.came:
        insort(ordered, one, key=lambda each: (each.kind, each.id, each.origin.path))
    records, kept = tuple(ordered), tuple(kept_of(ordered))
    known = {edited.get(one, one): by for one, by in before.owners.items()}
    known |= {one: owner(one, before.series, before.machines) for one in edits.after}
    owners = {one: known[one] for one in records}
    numbering = _numbering(before, edits, owners, kept)
    # What says the same, of numbers that mean something else now, is read again.
    again = {one: edited.get(one, one) for one in _read_otherwise(before, edits, numbering) - gone}
    edits = replace(edits, edited={**again, **edited})
    said = {edited.get(one, one): found for one, found in before.statements_of.items()}
    for one in edits.after:
        said[one] = statements_in(one, numbering, before.series, before.former)
    # What says nothing is among none, and what began to say something stands in its place.
    statements_of = {record: found for record in kept if (found := said.get(record))}
    statements = tuple(chain.from_iterable(statements_of.values()))
    kinds = {one.kind for one in (*edits.before, *edits.after)}
    things = {
        sort: frozen({one.id: one for one in kept if one.kind == sort}) if sort in kinds else found
        for sort, found in before.things.items()
    }
    teardowns = (one for one in kept if isinstance(one, Teardown))
    possible = possible_of(teardowns, before.series.values(), before.possible)
    return replace(
        before,
        records=records,
        things=frozen(things),
        owners=frozen(owners),
        numbering=numbering,
        parts=frozen(_parts(before, edits, numbering, kept, statements_of)),
        statements=statements,
        statements_of=frozen(statements_of),
        **tables_of(records, statements, before.units, possible)._asdict(),
    )


def _numbering(
    before: Register, edits: Edits, owners: Mapping[Record, str | None], kept: tuple[Record, ...]
) -> Numbering:
    """What numbers mean is said by the records of parts alone."""
    if any(isinstance(one, PartRecord) for one in (*edits.before, *edits.after)):
        return Numbering(kept, owners, before.machines, before.series)
    return before.numbering.over(owners, kept)


def _read_otherwise(before: Register, edits: Edits, numbering: Numbering) -> set[Record]:
    """The records in which a number means something else than it did, as they were, and perhaps others."""
    was, now = before.numbering.leads, numbering.leads
    changed = [key for key in was.keys() | now.keys() if was.get(key) != now.get(key)]
    led = [part for key in changed if (part := before.parts.get(was.get(key, key)))]
    found = {record for part in led for record in part.records}
    if before.numbering.senses:  # what a strip-down's number means goes by the machines of its assembly
        ids = {one.id for one in (*edits.before, *edits.after) if isinstance(one, Assembly)}
        strip_downs = (one for one in before.records if isinstance(one, StripDown))
        found |= {one for one in strip_downs if one.assembly in ids}
    return found


def _parts(
    before: Register,
    edits: Edits,
    numbering: Numbering,
    kept: tuple[Record, ...],
    statements_of: Mapping[Record, tuple[Statement, ...]],
) -> dict[PartKey, Part]:
    """The parts, made anew where an edited record names them or did."""
    touched = {key for old in edits.before for key, _ in mentions(old, before.numbering)}
    touched |= {key for new in edits.after for key, _ in mentions(new, numbering)}
    named = (before.parts[key] for key in touched & before.parts.keys())
    naming = {edits.edited.get(one, one) for part in named for one in part.records}
    # Of two records of one part the second is none of those that name it, and says what it is called too.
    records = (one for one in kept if isinstance(one, PartRecord))
    naming |= {one for one in records if numbering.of_record(one) in touched}
    naming |= set(edits.after)
    asked = [record for record in kept if record in naming]
    said = chain.from_iterable(statements_of.get(record, ()) for record in asked)
    return dict(_merged(before.parts, touched, parts_of(asked, said, numbering)))


def _merged(
    parts: Mapping[PartKey, Part], touched: set[PartKey], found: Mapping[PartKey, Part]
) -> Iterator[tuple[PartKey, Part]]:
    """The parts as they are but for those that were touched, which are as they were found, by their keys."""
    made = {key: part for key, part in found.items() if key in touched}
    every = {**parts, **made}
    keys = [key for key in parts if key not in touched or key in made]
    for key in sorted(made.keys() - parts.keys()):
        keys.insert(bisect_left(keys, key), key)
    return ((key, every[key]) for key in keys)
