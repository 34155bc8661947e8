"""What a community's own records hold, to be shown as an example before that of a schema."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator
from difflib import get_close_matches
from itertools import chain, islice
from pathlib import PurePosixPath
from typing import Any

from spanbook.ground.part_numbers import hyphened
from spanbook.reading import typed
from spanbook.reading.nodes import Step
from spanbook.reading.records import Record
from spanbook.reading.roles import Role
from spanbook.reading.schemas import KindSchema
from spanbook.reading.walk import walk
from spanbook.reading.write import flow

_LONGEST = 80  # characters of an example that somebody takes in
# What is one record's alone: another's would only clash.
_ITS_OWN = (Role.ID, Role.FORMER, Role.ANCHOR)


_MOST = 100  # records, and values, that are looked through for one
_DIGITS = re.compile("[0-9]+")


class Examples:
    """The sound records that are looked through."""

    def __init__(self, records: Iterable[Record] = ()) -> None:
        self._records = tuple(records)
        self._found: dict[tuple[str, tuple[Step, ...]], Any | None] = {}

    def of(self, schema: KindSchema, steps: tuple[Step, ...], path: str) -> Any | None:
        """What may stand at a place in the file at `path`; None where the records have nothing fit to show.

        An id is the file's own name; of a list of groups one is shown.
        """
        field = schema.at(steps)
        role = field.get("x-role")
        if role == Role.ID and len(steps) == 1:
            return hyphened(PurePosixPath(path).stem) or None
        if role in _ITS_OWN:
            return None
        key = schema.kind, tuple(step for step in steps if isinstance(step, str))
        if key not in self._found:
            found = chain(self._held(schema, steps), self._named(field.get("x-to", ""), role))
            short = (value for value in found if len(flow(value)) <= _LONGEST)
            self._found[key] = _usual(short) if "pattern" in field else next(short, None)
        return self._found[key]

    def called(self, sort: str, text: str) -> str:
        """The id of what is called so, or nearly has that id; empty where nothing is."""
        said = text.strip().casefold()
        named = (r for r in self._records if r.kind == sort and said in _names(r))
        if one := next(named, None):
            return one.id
        ids = dict.fromkeys(leaf.value for r in self._records for leaf in walk(r, Role.ID, to=sort))
        return next(iter(get_close_matches(hyphened(text), ids, n=1)), "")

    def _held(self, schema: KindSchema, steps: tuple[Step, ...]) -> Iterator[Any]:
        """What stands at the place in records of the kind, whichever entries of their lists that is."""
        alike = (record for record in self._records if record.kind == schema.kind)
        for record in islice(alike, _MOST):
            held = [typed.typed(record.origin.node, schema.guide)]
            for step in steps:
                if isinstance(step, int):
                    held = [one for value in held if isinstance(value, list) for one in value]
                else:
                    held = [value[step] for value in held if isinstance(value, dict) and step in value]
            for value in held:
                groups = isinstance(value, list) and isinstance(value[0], dict)
                yield value[:1] if groups else value

    def _named(self, sort: str, role: str | None) -> Iterator[str]:
        """Ids of a sort of thing, first those that are named somewhere."""
        if not sort:
            return
        # Of positions only those that hold something: others may be groups, and a place is none.
        ways = ((Role.PLACE,),) if role == Role.PLACE else ((Role.REFERENCE, Role.PLACE), (Role.ID,))
        for roles in ways:
            for record in self._records:
                yield from (leaf.value for leaf in walk(record, *roles, to=sort))


def _names(record: Record) -> set[str]:
    """What a record is called, by its title or its number."""
    names = (getattr(record, field, None) for field in ("title", "name", "number"))
    return {name.casefold() for name in names if isinstance(name, str)}


def _usual(values: Iterable[Any]) -> Any | None:
    """The first of those that are written as most are: of dates rather 2024-05 than 2019/2021."""
    every = [(_DIGITS.sub("9", str(value)), value) for value in islice(values, _MOST)]
    shapes = Counter(shape for shape, _ in every)
    return max(every, key=lambda one: shapes[one[0]])[1] if every else None
