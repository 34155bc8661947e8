"""What the files of data are put together of: what each record says, and the rows of what it answers.

It is kept with the parts of a site, of some neighbours at a time: most records are as they were. Where some
end and the next begin goes by their names alone, so that a new one moves no other.
"""

from __future__ import annotations

import pickle
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, TypeVar
from zlib import crc32

from spanbook.ground.table import Table
from spanbook.outputs import data
from spanbook.register.tables import of_rows, rows_of
from spanbook.site.common import Site
from spanbook.site.tables import ANSWERED, TOGETHER, Row, answered

T = TypeVar("T")
SAID = "said"  # what the records say, beside the tables of answers
SORTS = (SAID, *ANSWERED)


@dataclass(frozen=True, slots=True)
class Said:
    """What a record says: the rows of each table, and itself whole."""

    rows: Mapping[str, Sequence[Row]]
    whole: data.Record


@dataclass(frozen=True, slots=True)
class Run:
    """Some neighbours of a sort by the name of the first: what is known of each."""

    name: str
    things: tuple[Any, ...]


def runs(site: Site, sort: str) -> Sequence[Run]:
    """All things of a sort in their order."""
    if sort == SAID:
        return tuple(_runs(site.register.records, lambda record: record.origin.path, TOGETHER))
    of = ANSWERED[sort]
    return tuple(_runs(of.things(site.answers), of.name, of.together))


def made(site: Site, sort: str, things: Iterable[Any]) -> bytes:
    """What is kept of some things of a sort: packed, for there is much of it, held until all is there."""
    if sort == SAID:
        said = ((record, site.said(record).values) for record in things)
        found: list[Any] = [Said(rows_of(record, values), data.Record.of(values)) for record, values in said]
    else:
        found = [row for thing in things for row in ANSWERED[sort].rows(site.answers, thing)]
    return pickle.dumps(found, pickle.HIGHEST_PROTOCOL)


def _runs(things: Iterable[T], name: Callable[[T], str], about: int) -> Iterator[Run]:
    first, run = "", list[T]()
    for one in things:
        named = name(one)
        if run and crc32(named.encode()) % about == 0:
            yield Run(first, tuple(run))
            run.clear()
        first = named if not run else first
        run.append(one)
    if run:
        yield Run(first, tuple(run))


@dataclass(frozen=True, slots=True)
class Gathered:
    """All of it, of every sort in order, as it was packed."""

    packed: Mapping[str, Sequence[bytes]]

    @classmethod
    def here(cls, site: Site) -> Gathered:
        """Made here and now."""
        return cls({sort: [made(site, sort, run.things) for run in runs(site, sort)] for sort in SORTS})

    def unpacked(self) -> tuple[tuple[Table, ...], list[data.Record]]:
        """Every table, and all records in their order."""
        said = list[Said](self._of(SAID))
        every = (answered(name, self._of(name)) for name in ANSWERED)
        return (*of_rows(one.rows for one in said), *every), [one.whole for one in said]

    def _of(self, sort: str) -> Iterator[Any]:
        return (one for some in self.packed.get(sort, ()) for one in pickle.loads(some))
