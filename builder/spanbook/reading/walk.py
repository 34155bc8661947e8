"""One walk over any record, by what its schema says its fields mean."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any, NamedTuple

from spanbook.reading.nodes import Step
from spanbook.reading.records import Record
from spanbook.reading.roles import Role, UsedAs
from spanbook.reading.shapes import Shape, Slot, shape_of


class Leaf(NamedTuple):
    """A value with a role. `holder` is the object it stands in, at the end of the steps `at`."""

    value: Any
    steps: tuple[Step, ...]
    holder: object
    at: tuple[Step, ...]
    slot: Slot
    shape: Shape

    @property
    def role(self) -> Role | None:
        return self.slot.role

    @property
    def to(self) -> str:
        """Which sort of thing it names."""
        return self.slot.to

    @property
    def use(self) -> UsedAs:
        return self.slot.use

    def beside(self, role: Role) -> Any:
        """The value with another role in the same object; None where there is none."""
        attribute = self.shape.by_role.get(role)
        return None if attribute is None else getattr(self.holder, attribute)


class Walk:
    """A walk to every value with one of some roles; `to`, to those alone that name such a sort of thing.

    Made once and taken over many records: the way through a kind is laid when its first record comes.
    """

    __slots__ = ("_asked", "_ways")

    def __init__(self, *roles: Role, to: str = "") -> None:
        self._asked: Callable[[Slot], bool] = lambda slot: slot.role in roles and (not to or slot.to == to)
        self._ways: dict[str, _Way] = {}

    def __call__(self, record: Record) -> list[Leaf]:
        """The values in a record, in the order of its schema."""
        way = self._ways.get(record.kind)
        if way is None:
            way = self._ways[record.kind] = _lay(shape_of(record.kind), self._asked, {})
        found: list[Leaf] = []
        if way.turns:
            _gather(way, record, (), found)
        return found

    def over(self, records: Iterable[Record]) -> Iterator[tuple[Record, Leaf]]:
        """The values in each of many records, with the record."""
        return ((record, leaf) for record in records for leaf in self(record))


def walk(record: Record, *roles: Role, to: str = "") -> list[Leaf]:
    """Every value of a record with one of these roles, in the order of its schema; `to`, naming only such."""
    return _walk(roles, to)(record)


@cache
def _walk(roles: tuple[Role, ...], to: str) -> Walk:
    return Walk(*roles, to=to)


@dataclass(slots=True)
class _Way:
    """What of a shape leads to the values that are asked for.

    Of each slot on the way: whether its own value is asked for, and the way on inside it.
    """

    shape: Shape
    turns: list[tuple[Slot, bool, _Way | None]]


def _lay(shape: Shape, asked: Callable[[Slot], bool], laid: dict[Shape, _Way]) -> _Way:
    if shape not in laid:
        way = laid[shape] = _Way(shape, [])
        for slot in shape.slots:
            leads = slot.shape is not None and any(map(asked, slot.shape.inside()))
            if asked(slot) or leads:
                below = _lay(slot.shape, asked, laid) if slot.shape and leads else None
                way.turns.append((slot, asked(slot), below))
    return laid[shape]


def _gather(way: _Way, holder: object, at: tuple[Step, ...], found: list[Leaf]) -> None:
    # A list is filled rather than values yielded through every depth: this runs over every record many times.
    for slot, asked, below in way.turns:
        value = getattr(holder, slot.attribute)
        if value is None or value == ():
            continue
        here = (*at, slot.key)
        if not slot.many:
            if asked:
                found.append(Leaf(value, here, holder, at, slot, way.shape))
            if below:
                _gather(below, value, here, found)
            continue
        for i, one in enumerate(value):
            if asked:
                found.append(Leaf(one, (*here, i), holder, at, slot, way.shape))
            if below:
                _gather(below, one, (*here, i), found)
