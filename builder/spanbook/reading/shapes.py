"""A kind's schema beside its class: where a record keeps each key, and what stands there."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, fields, is_dataclass
from functools import cache
from types import UnionType
from typing import Any, Union, get_args, get_origin, get_type_hints

from spanbook.reading import schemas
from spanbook.reading.kinds import KINDS
from spanbook.reading.roles import Role, UsedAs
from spanbook.reading.schemas import Schema


@dataclass(slots=True, eq=False)
class Slot:
    """One key of an object, and the attribute of its class that holds it.

    `role` and `to` are those of the value, or of each value where there are `many`; `use` is that of a part
    number. `shape` is that of the objects inside. `absent` is what stands for a key left out.
    """

    key: str
    attribute: str
    hint: Any
    many: bool = False
    role: Role | None = None
    to: str = ""
    use: UsedAs = UsedAs.MENTIONED
    absent: Any = None
    shape: Shape | None = None


@dataclass(slots=True, eq=False)
class Shape:
    """An object's keys, in the order of the schema. A shape may hold itself: positions do.

    `by_role` is the attribute that has a role, the first of several.
    """

    cls: type
    slots: tuple[Slot, ...] = ()
    by_role: dict[Role, str] = field(default_factory=dict)

    def inside(self) -> Iterator[Slot]:
        """Its slots and those of everything inside it."""
        known, waiting = {self}, [self]
        while waiting:
            for slot in waiting.pop().slots:
                yield slot
                if slot.shape and slot.shape not in known:
                    known.add(slot.shape)
                    waiting.append(slot.shape)


@cache
def shape_of(kind: str) -> Shape:
    root = schemas.bundled(kind)
    return _Shapes(root, {}).shape(root, KINDS[kind].cls, UsedAs.MENTIONED)


@cache
def named_as(kind: str) -> str:
    """As which sort of thing a record of a kind is referred to: its own kind, unless its id says another."""
    return next((slot.to for slot in shape_of(kind).slots if slot.role is Role.ID), kind)


@cache
def kinds_named(sort: str) -> tuple[str, ...]:
    """The kinds whose records are referred to as a sort of thing, that kind first; none for what is none."""
    return tuple(sorted((kind for kind in KINDS if named_as(kind) == sort), key=lambda kind: kind != sort))


@dataclass(frozen=True, slots=True)
class _Shapes:
    root: Schema
    made: dict[tuple[int, UsedAs], Shape]

    def shape(self, schema: Schema, cls: type, use: UsedAs) -> Shape:
        properties = schema["properties"]
        # What is told apart is the object in the schema, and what its numbers are used for.
        known = self.made.get((id(properties), use))
        if known:
            return known
        shape = self.made[id(properties), use] = Shape(cls)
        order = {key: place for place, key in enumerate(properties)}
        slots = sorted(self.slots(properties, cls, use), key=lambda slot: order.get(slot.key, -1))
        shape.slots = tuple(slots)
        shape.by_role.update({slot.role: slot.attribute for slot in reversed(slots) if slot.role})
        return shape

    def slots(self, properties: Schema, cls: type, use: UsedAs) -> Iterator[Slot]:
        hints = get_type_hints(cls)
        for one in fields(cls):
            key = one.metadata.get("key") or one.name.replace("_", "-")
            schema = self.resolved(properties.get(key, {}))
            yield self.slot(Slot(key, one.name, hints[one.name]), schema, use)

    def slot(self, slot: Slot, schema: Schema, use: UsedAs) -> Slot:
        slot.many = get_origin(slot.hint) is tuple
        slot.absent = schema.get("default", () if slot.many else None)
        one = self.resolved(schema["items"]) if "items" in schema else schema
        slot.use = UsedAs(one.get("x-use") or schema.get("x-use") or use)
        slot.role = Role(one["x-role"]) if "x-role" in one else None
        slot.to = one.get("x-to", "")
        cls = _class_of(slot.hint)
        if cls and "properties" in one:
            slot.shape = self.shape(one, cls, slot.use)
        return slot

    def resolved(self, schema: Schema) -> Schema:
        """A schema with what it refers to, its own words before the other's."""
        ref = schema.get("$ref")
        if ref is None:
            return schema
        return {**self.resolved(self.root["$defs"][ref.removeprefix("#/$defs/")]), **schema}


def _class_of(hint: Any) -> type | None:
    """The data class that a type hint has in it: of a list, of a choice between it and nothing."""
    if get_origin(hint) in (tuple, Union, UnionType):
        return next(filter(None, map(_class_of, get_args(hint))), None)
    return hint if isinstance(hint, type) and is_dataclass(hint) else None
