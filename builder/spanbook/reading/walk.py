"""One walk over any record, by what its schema says its fields mean."""

from __future__ import annotations

from collections.abc import Callable
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


def walk(record: Record, *roles: Role, to: str = "") -> list[Leaf]:
    """Every value of a record with one of these roles, in the order of its schema; `to`, naming only such."""
    found: list[Leaf] = []
    _gather(_way(record.kind, roles, to), record, (), found)
    return found


@dataclass(slots=True)
class _Way:
    """What of a shape leads to the values that are asked for.

    Of each slot on the way: whether its own value is asked for, and the way on inside it.
    """

    shape: Shape
    turns: list[tuple[Slot, bool, _Way | None]]


@cache
def _way(kind: str, roles: tuple[Role, ...], to: str) -> _Way:
    def asked(slot: Slot) -> bool:
        return slot.role in roles and (not to or slot.to == to)

    return _lay(shape_of(kind), asked, {})


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
        if value is None:
            continue
        here = (*at, slot.key)
        for steps, one in [((*here, i), v) for i, v in enumerate(value)] if slot.many else ((here, value),):
            if asked:
                found.append(Leaf(one, steps, holder, at, slot, way.shape))
            if below:
                _gather(below, one, steps, found)
