"""A register as it would be if its series, positions, signs and parts were called as in a later one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import (
    ListedPart,
    Machine,
    PositionEntry,
    Positions,
    Record,
    Shown,
    Sign,
    SignSeen,
)
from spanbook.reading.roles import Role
from spanbook.reading.shapes import Shape, shape_of
from spanbook.register.former import Named
from spanbook.register.link import build
from spanbook.register.model import Register

_SORTS = ("series", "position", "sign")


def renamed(old: Register, new: Register) -> Register:
    """The old register with today's names; itself where nothing in it has another name today.

    Records keep their own ids: what they were called before tells those apart.
    """
    ids = {
        named: now
        for named, now in new.former.ids.items()
        if named[0] in _SORTS and named[1] in old.things.get(named[0], {})
    }
    numbers = {was: now for was, now in new.former.numbers.items() if was in old.parts and now in new.parts}
    reworded = any(sign.reworded for sign in new.signs.values())
    if not ids and not numbers and not reworded:
        return old
    today = _Today(old, new, ids, numbers)
    return build([today.record(record) for record in old.records], old.unread)


@dataclass(frozen=True, slots=True)
class _Today:
    old: Register
    new: Register
    ids: Mapping[Named, str]
    numbers: Mapping[PartKey, PartKey]

    def record(self, record: Record) -> Record:
        if isinstance(record, Positions):
            return self._positions(record)
        made: Record = self._of(shape_of(record.kind), record, record)
        return self._still_having(record, made) if isinstance(record, Machine) else made

    def _still_having(self, old: Machine, made: Record) -> Record:
        """A machine that had a position in a group has it where the position is in another today."""
        if not old.positions or not isinstance(made, Machine):
            return made
        had = (
            now for (sort, was), now in self.ids.items() if sort == "position" and among(was, old.positions)
        )
        more = tuple(now for now in had if not among(now, made.positions))
        return replace(made, positions=(*made.positions, *more)) if more else made

    def _of(self, shape: Shape, held: Any, record: Record) -> Any:
        """The same object where nothing in it is called otherwise."""
        changed = self._part(shape, held, record) | self._answers(shape, held)
        for slot in shape.slots:
            value = getattr(held, slot.attribute)
            if value is None or slot.attribute in changed:
                continue
            each = value if slot.many else (value,)
            if slot.shape:
                made = tuple(self._of(slot.shape, one, record) for one in each)
            elif slot.to in _SORTS and slot.role in (Role.REFERENCE, Role.PLACE, Role.ID):
                made = tuple(self.ids.get((slot.to, one), one) for one in each)
            else:
                continue
            if any(one is not was for one, was in zip(made, each, strict=True)):
                changed[slot.attribute] = made if slot.many else made[0]
        return replace(held, **changed) if changed else held

    def _part(self, shape: Shape, held: Any, record: Record) -> dict[str, Any]:
        attribute = shape.by_role.get(Role.NUMBER)
        number = getattr(held, attribute) if attribute else None
        if not attribute or number is None:
            return {}
        said = shape.by_role.get(Role.OWNER)
        by = getattr(held, said) if said else None
        owner = self.old.owner(record) or ""
        key = PartKey.of(by or owner, number)
        if key in self.old.numbering.senses:
            means = shape.by_role.get(Role.SENSE)
            only = held.serials if isinstance(held, ListedPart) else ()
            key = self.old.numbering.of(record, by, number, getattr(held, means) if means else None, only)
        now = self.numbers.get(key)
        if now is None:
            return {}
        whose = {said: now.by} if said and (by or now.by != owner) else {}
        return {attribute: self.new.parts[now].number, **whose}

    def _answers(self, shape: Shape, held: Any) -> dict[str, Any]:
        """The answers of a sign, where it is asked and where something was seen, in the words of today."""
        id_ = held.id if isinstance(held, Sign) else held.sign if isinstance(held, Shown | SignSeen) else None
        sign = self.new.signs.get(self.ids.get(("sign", id_), id_)) if id_ else None
        if sign is None or not sign.reworded:
            return {}
        changed: dict[str, Any] = {}
        for slot in shape.slots:
            if slot.role is Role.SIGN:
                value = getattr(held, slot.attribute)
                changed[slot.attribute] = tuple(map(sign.today, value)) if slot.many else sign.today(value)
        return {key: value for key, value in changed.items() if value != getattr(held, key)}

    def _positions(self, record: Positions) -> Positions:
        """The tree of today's names; a place is where its name says, after those that are there."""
        found: dict[str, PositionEntry] = {}
        for path, entry in _paths(record.positions, ""):
            found[self.ids.get(("position", path), path)] = entry
        later = (one for one in self.new.records if isinstance(one, Positions))
        groups = dict(pair for one in later for pair in _paths(one.positions, ""))
        for path in list(found):
            around = path.rpartition("/")[0]
            while around and around not in found:
                found[around] = groups[around]
                around = around.rpartition("/")[0]
        return replace(record, positions=_tree(found, ""))


def among(path: str, groups: Iterable[str]) -> bool:
    """Whether a position is one of these, or in one of them."""
    return any(f"{path}/".startswith(f"{group}/") for group in groups)


def _paths(entries: Iterable[PositionEntry], above: str) -> Iterator[tuple[str, PositionEntry]]:
    for entry in entries:
        yield f"{above}{entry.id}", entry
        yield from _paths(entry.positions, f"{above}{entry.id}/")


def _tree(found: Mapping[str, PositionEntry], above: str) -> tuple[PositionEntry, ...]:
    here = (path for path in found if path.startswith(above) and "/" not in path[len(above) :])
    return tuple(
        replace(found[path], id=path[len(above) :], positions=_tree(found, f"{path}/")) for path in here
    )
