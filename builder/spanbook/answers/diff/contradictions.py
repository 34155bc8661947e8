"""What a proposal makes the records contradict, known by what the main branch calls it.

So it can be told apart what two proposals contradict together and neither does alone, though one of them
gives other ids to what the other speaks of.
"""

from __future__ import annotations

from collections.abc import Iterator, Set
from dataclasses import dataclass, replace

from spanbook.answers.diff.model import BreakChange, Contradictions, RecordKey, StatementKey
from spanbook.answers.reasons import Reason
from spanbook.reading.records import Record
from spanbook.register.model import Register
from spanbook.register.statements import Statement

Key = tuple[object, ...]


@dataclass(frozen=True)
class Named:
    """What the main branch calls its records, statements and series."""

    records: Set[RecordKey] = frozenset()
    statements: Set[StatementKey] = frozenset()
    series: Set[str] = frozenset()

    @classmethod
    def by(cls, main: Register) -> Named:
        records = frozenset((record.kind, record.id) for record in main.records)
        statements = frozenset((s.record.kind, s.record.id, s.anchor) for s in main.statements)
        return cls(records, statements, frozenset(main.series))

    def keys(self, found: Contradictions) -> frozenset[Key]:
        against = (self._of(one.reason, s) for one in found.against for s in one.statements)
        return frozenset((*against, *(self._of_break(found.new, one) for one in found.breaks)))

    def without(self, found: Contradictions, known: Set[Key]) -> Contradictions:
        """All of it that is not known."""
        each = (
            (one, tuple(s for s in one.statements if self._of(one.reason, s) not in known))
            for one in found.against
        )
        against = tuple(replace(one, statements=left) for one, left in each if left)
        breaks = tuple(one for one in found.breaks if self._of_break(found.new, one) not in known)
        return replace(found, against=against, breaks=breaks)

    def _of(self, reason: Reason, statement: Statement) -> Key:
        record = statement.record
        called = self._called(record)
        anchors = (statement.anchor, *statement.formerly)
        anchor = next((one for one in anchors if (*called, one) in self.statements), statement.anchor)
        return *self._called(reason.by), reason.at, *called, anchor

    def _of_break(self, new: Register, one: BreakChange) -> Key:
        ids = (one.series.id, *one.series.formerly)
        series = next((id_ for id_ in ids if id_ in self.series), one.series.id)
        return series, *(self._called(new.assemblies[id_]) for id_ in (one.earlier, one.later))

    def _called(self, record: Record) -> RecordKey:
        keys = ((record.kind, id_) for id_ in (record.id, *record.formerly))
        return next((key for key in keys if key in self.records), (record.kind, record.id))


def files(found: Contradictions) -> Iterator[tuple[frozenset[str], frozenset[str]]]:
    """Of each the files of what speaks and of what it speaks against; of a break the same twice."""
    for one in found.against:
        for statement in one.statements:
            yield frozenset([one.reason.by.origin.path]), frozenset([statement.record.origin.path])
    for moved in found.breaks:
        paths = frozenset(record.origin.path for record in moved.by)
        yield paths, paths
