"""What a proposal makes of single things, to be held against what another makes of the same things.

Two proposals that were each compared with the same main branch clash where both change one thing and do not
make the same of it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from spanbook.answers.diff.model import AnswerChange, Comparison, OrderChange, StandingChange, StatementChange
from spanbook.reading.nodes import at_path, plain
from spanbook.reading.records import Record
from spanbook.register.statements import Statement


class About(StrEnum):
    """What sort of thing two proposals make something else of, what is surest to be wrong first."""

    ID = "id"
    STATEMENT = "statement"
    FIND = "find"
    ORDER = "order"
    ANSWER = "answer"


@dataclass(frozen=True, slots=True)
class Claim:
    """A thing by its key, and what is made of it.

    Of an answer the numbers are first..last (None: no known end); of all else both are 0. `change` is where
    the words for it come from.
    """

    about: About
    key: tuple[object, ...]
    made: object
    change: AnswerChange | OrderChange | StatementChange | StandingChange | Statement | Record
    first: int = 0
    last: int | None = 0

    @property
    def path(self) -> str:
        """The file of a record that is added; empty for all else."""
        return self.change.origin.path if isinstance(self.change, Record) else ""


def claims(found: Comparison) -> Iterator[Claim]:
    """All that a proposal makes something else of."""
    yield from _ids(found)
    yield from _statements(found)
    yield from _finds(found)
    for order in found.orders:
        yield Claim(About.ORDER, (order.key,), order.after, order)
    for answer in found.answers:
        where = (answer.series, answer.position)
        yield Claim(About.ANSWER, where, answer.change.after, answer, answer.change.first, answer.change.last)


def _ids(found: Comparison) -> Iterator[Claim]:
    taken = {(one.kind, one.id) for one in found.records if one.sort in ("added", "renamed")}
    for record in found.new.records:
        if (record.kind, record.id) in taken:
            yield Claim(About.ID, (record.kind, record.id), record.origin.data, record)


def _statements(found: Comparison) -> Iterator[Claim]:
    other = set()
    for one in found.statements:
        record = one.after.record
        key = (record.kind, record.id, one.before.anchor)
        other.add(key)
        made = {change.steps: change.after and plain(change.after) for change in one.fields}
        yield Claim(About.STATEMENT, key, made, one)
    whole = {(one.kind, one.id) for one in found.records if one.sort in ("added", "removed")}
    new = {(s.record.kind, s.record.id, s.anchor): s for s in found.new.statements}
    for standing in found.standings:
        key = (standing.kind, standing.record, standing.anchor)
        if standing.after is None and key not in other:
            yield Claim(About.STATEMENT, key, None, standing)
        elif standing.before is None and key[:2] not in whole:
            said = new[key]
            node = at_path(said.record.origin.node, said.path)
            yield Claim(About.STATEMENT, key, node and plain(node), said)


def _finds(found: Comparison) -> Iterator[Claim]:
    for look in found.looks:
        if look.reading:
            for find in look.teardown.found:
                if find.assembly:
                    key = (look.reading.series.id, look.reading.number, find.position)
                    yield Claim(About.FIND, key, find.assembly, look.teardown)


def clashing(one: Sequence[Claim], other: Sequence[Claim]) -> Iterator[tuple[int, int]]:
    """Where in both lists they make something of one thing, and not the same; once for each of the first."""
    theirs: dict[tuple[object, ...], list[int]] = {}
    for j, claim in enumerate(other):
        theirs.setdefault((claim.about, *claim.key), []).append(j)
    for i, claim in enumerate(one):
        for j in theirs.get((claim.about, *claim.key), ()):
            if _meet(claim, other[j]) and claim.made != other[j].made:
                yield i, j
                break


def _meet(one: Claim, other: Claim) -> bool:
    return not (
        (one.last is not None and one.last < other.first)
        or (other.last is not None and other.last < one.first)
    )
