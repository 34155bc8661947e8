"""What the evidence that a record names does to a statement, and how it goes together with what was seen."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from spanbook.answers.reasons import Reason, Weight
from spanbook.reading.records import Evidence, Record, Source, Teardown
from spanbook.register.model import Register

GOOD = ("untouched", "likely-original")


def named(register: Register, evidence: Iterable[Evidence]) -> Iterator[Reason]:
    """A reason for each piece of evidence; whoever speaks against counts, also when it is from memory."""
    for piece in evidence:
        by: Source | Teardown
        if piece.source:
            by = register.sources[piece.source]
            weight = Weight.RECALLED if by.sort == "recollection" else Weight.PRINTED
        else:
            by = register.teardowns[piece.teardown or ""]
            weight = Weight.SEEN if by.condition in GOOD else Weight.SET_ASIDE
        if piece.against and weight is not Weight.SET_ASIDE:
            weight = Weight.AGAINST
        yield Reason(weight, by, piece.at, None, piece.note)


def together(pieces: Iterable[Reason], bearing: Iterable[Reason]) -> tuple[Reason, ...]:
    """The reasons of a statement, each once: first what the record names, then what bears on it besides.

    A teardown that is named and bears on it as well is one reason: what was seen on it counts, and the
    record's remark is kept. Only where it is named against and does not look so, both stand.
    """
    bearing = tuple(bearing)
    looked: dict[Record, Reason] = {r.by: r for r in bearing if isinstance(r.by, Teardown)}
    found: dict[tuple[object, ...], Reason] = {}
    for piece in pieces:
        seen = looked.get(piece.by)
        if seen and not _both_stand(piece, seen):
            before = found.get((piece.by,), replace(seen, at=piece.at))
            notes = (note for note in (before.note, piece.note) if note)
            found[(piece.by,)] = replace(before, note="; ".join(notes) or None)
        else:
            found[piece.by, piece.at, piece.weight, piece.note] = piece
    known = {(reason.by, reason.at, reason.weight) for reason in found.values()}
    for reason in bearing:
        if isinstance(reason.by, Teardown):
            found.setdefault((reason.by,), looked[reason.by])
        elif (reason.by, reason.at, reason.weight) not in known:
            found[reason.by, reason.at, reason.weight, reason.shown] = reason
    return tuple(found.values())


def _both_stand(piece: Reason, seen: Reason) -> bool:
    return piece.weight is Weight.AGAINST and seen.weight in (Weight.SEEN, Weight.EXPLAINED)
