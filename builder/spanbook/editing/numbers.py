"""A part goes by another number, because it was misread or said to be another firm's."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping, Sequence
from difflib import get_close_matches
from functools import reduce

from spanbook.editing.names import Guides, lead_on
from spanbook.editing.plan import CannotChange, Desk, Plan
from spanbook.editing.things import named
from spanbook.ground.language import gettext as _
from spanbook.ground.part_numbers import PartKey, folded, hyphened
from spanbook.reading.edit import Draft
from spanbook.reading.nodes import Step
from spanbook.reading.records import AlsoNumber, Assembly, Misprint, PartRecord, Record
from spanbook.reading.roles import Role, UsedAs
from spanbook.reading.walk import Leaf, walk
from spanbook.reading.write import to_yaml
from spanbook.register.model import Part, Register
from spanbook.register.statements import Limit, Use, part_anchor


def renumber(
    register: Register,
    guides: Guides,
    old: str,
    new: str,
    *,
    by: str | None = None,
    new_by: str | None = None,
    means: str | None = None,
    only: Collection[str] = (),
) -> Plan:
    """Give a part another number wherever it is mentioned, or in `only` some records.

    `by` tells whose the old number is, where several firms have it, `new_by` whose the new one is, where that
    is another's, `means` the id of the part that is meant, where the old number has meant several things.
    Raises CannotChange.
    """
    part = _part(register, old, by, means)
    now = PartKey.of(new_by or part.key.by, new, part.key.sense)
    _free(register, part, now, new)
    records = {named(register, text).record for text in only} or set(register.records)
    desk = Desk(register.records, guides)
    found = {record: places for record in register.records if (places := _mentions(register, record, part))}
    chosen = [record for record in found if record in records]
    if not chosen:
        raise CannotChange(_("{} is not mentioned there").format(part.number))
    everywhere = len(chosen) == len(found)
    for record in chosen:
        with desk.draft(record) as draft:
            for leaf in found[record]:
                _write(register, draft, record, leaf, now, new)
            if isinstance(record, Assembly):
                _within_the_stack(draft, record, part, new)
                if not everywhere:
                    _keep_anchors(register, draft, record, part)
    if everywhere:
        lead_on(register, desk, {f"parts/{_page(part.key)}": f"parts/{_page(now)}"})
        if now != part.key:
            _remember(register, desk, part, now, new)
    return desk.plan()


def _part(register: Register, old: str, by: str | None, means: str | None) -> Part:
    keys = [k for k in register.parts if k.number == folded(old) and by in (None, k.by)]
    keys = [k for k in keys if means in (None, k.sense)]
    if len(keys) == 1:
        return register.parts[keys[0]]
    if len({key.by for key in keys}) == 1:
        meant = _either([f"--means {key.sense}" for key in keys if key.sense])
        raise CannotChange(
            _("{old} has meant several things: say which with {meant}").format(old=old, meant=meant)
        )
    if keys:
        firms = _either([f"--by {key.by}" for key in keys])
        raise CannotChange(
            _("{old} is a number of several firms: say whose it is with {firms}").format(old=old, firms=firms)
        )
    if record := next((r for r in register.part_records.values() if _also(r, old, by)), None):
        raise CannotChange(
            _("{old} is another number of {number}: correct it under also in {file}").format(
                old=old, number=record.number, file=record.origin.path
            )
        )
    close = get_close_matches(folded(old), [key.number for key in register.parts], n=1)
    told = (
        _("no record mentions a part {number} by {owner}") if by else _("no record mentions a part {number}")
    ).format(number=old, owner=by)
    if close:
        told = _("{problem}; did you mean {number}?").format(problem=told, number=close[0].upper())
    raise CannotChange(told)


def _also(record: PartRecord, old: str, by: str | None) -> bool:
    """Whether a part goes by a number as well, which has no page of its own."""
    return any(folded(other.number) == folded(old) and by in (None, other.by) for other in record.also)


def _either(options: Sequence[str]) -> str:
    return reduce(lambda one, other: _("{first} or {last}").format(first=one, last=other), options)


def _free(register: Register, part: Part, now: PartKey, new: str) -> None:
    if now == part.key and new == part.number:
        raise CannotChange(_("{} is what it is numbered").format(new))
    leads = register.former.numbers.get(now, part.key)
    if leads != part.key:
        raise CannotChange(
            _("{new} leads to {number}; choose another number").format(
                new=new, number=register.parts[leads].number
            )
        )
    other = register.parts.get(now)
    if other and other is not part and other.record and part.record:
        raise CannotChange(
            _("{part} and {new} have a record each: {file} and {other}; merge those first").format(
                part=part.number, new=new, file=part.record.origin.path, other=other.record.origin.path
            )
        )


def _page(key: PartKey) -> str:
    return key.path


def _mentions(register: Register, record: Record, part: Part) -> list[Leaf]:
    found = []
    for leaf in walk(record, Role.NUMBER):
        by = leaf.beside(Role.OWNER)
        if isinstance(leaf.holder, AlsoNumber | Misprint):
            mine = False  # another number of the part stays what it is
        elif leaf.use is UsedAs.ITSELF:
            mine = record is part.record and folded(leaf.value) == part.key.number
        else:
            means = register.numbering.of(record, by, leaf.value, leaf.beside(Role.SENSE))
            mine = means == part.key and register.numbering.written(record, by, leaf.value) == part.key.plain
        if mine:
            found.append(leaf)
    return found


def _write(register: Register, draft: Draft, record: Record, leaf: Leaf, now: PartKey, new: str) -> None:
    draft.replace(leaf.steps, new)
    said = leaf.beside(Role.OWNER)
    if leaf.use is UsedAs.ITSELF or (said or register.owner(record)) == now.by:
        return
    if said:
        draft.replace((*leaf.at, "by"), now.by)
    elif Role.OWNER in leaf.shape.by_role:
        draft.put(leaf.at, "by", now.by, after="number")
    else:
        raise CannotChange(
            _("{file}: {number} stands where nobody can say whose it is; take it out first").format(
                file=record.origin.path, number=leaf.value
            )
        )


def _within_the_stack(draft: Draft, assembly: Assembly, part: Part, new: str) -> None:
    for i, piece in enumerate(assembly.stack):
        if piece.inside and folded(piece.inside) == part.key.number:
            draft.replace(("stack", i, "in"), new)


def _keep_anchors(register: Register, draft: Draft, assembly: Assembly, part: Part) -> None:
    """Where the number stays with others, a line says itself what its address was."""
    for statement in register.statements_of[assembly]:
        if statement.number != part.key:
            continue
        match statement.subject:
            case Use(said=said) if statement.anchor == part_anchor(PartKey.of(said.by or "", said.number)):
                draft.add_to(statement.path, "formerly", [statement.anchor], after="number")
            case Limit(span=span) if span.anchor is None:
                draft.add_to(statement.path, "formerly", [statement.anchor], after="last")


def _remember(register: Register, desk: Desk, part: Part, now: PartKey, new: str) -> None:
    """The part's own record says what the number was; there is one from now on."""
    there = register.parts.get(now)
    record = part.record or (there.record if there else None)
    if record is None:
        path, text = _record(register, part, now, new)
        desk.write(path, text)
        return
    with desk.draft(record) as draft:
        kept = _kept(register, draft, record, part, now)
        if kept is None:
            draft.add_to((), "formerly-numbered", [_was(part, part.key.by != now.by)], after="number")
        else:
            draft.replace((*kept, "number"), part.number)
            if part.key.by != now.by:
                draft.replace((*kept, "by"), part.key.by)


def _was(part: Part, other_firm: bool) -> Mapping[str, str]:
    means = {"means": part.key.sense} if part.key.sense else {}
    return {"number": part.number} | ({"by": part.key.by} if other_firm else {}) | means


def _kept(
    register: Register, draft: Draft, record: PartRecord, part: Part, now: PartKey
) -> tuple[Step, ...] | None:
    """Where the new number stands among the former ones; all say whose they are if that changes."""
    own = record.by or register.owner(record) or ""
    found = None
    for i, one in enumerate(record.formerly_numbered):
        at = ("formerly-numbered", i)
        if one.by is None and part.key.by != now.by and record is part.record:
            draft.put(at, "by", own, after="number")
        if PartKey.of(one.by or own, one.number, one.means or "") == now:
            found = at
    return found


def _record(register: Register, part: Part, now: PartKey, new: str) -> tuple[str, str]:
    name = part.name or part.number
    values: dict[str, object] = {"kind": "part", "id": _id(register, name, now), "number": new}
    if now.by != next(iter(register.makers), None) or len(register.makers) > 1:
        values["by"] = now.by
    values |= {"name": name, "formerly-numbered": [_was(part, part.key.by != now.by)]}
    if cautions := _called(register, name):
        values["cautions"] = cautions
    return f"parts/{values['id']}.yml", to_yaml(values)  # type: ignore[arg-type]


def _called(register: Register, name: str) -> list[str]:
    """The cautions that words of a name call for."""

    def calls(word: str) -> bool:
        return re.search(rf"\b{re.escape(word)}\b", name, re.IGNORECASE) is not None

    return [caution.id for caution in register.cautions.values() if any(map(calls, caution.words))]


def _id(register: Register, name: str, now: PartKey) -> str:
    tried: Iterator[str] = (
        word
        for word in (hyphened(name), hyphened(f"{name} {now.number}"), hyphened(f"{now.by} {now.number}"))
    )
    taken = register.part_records
    return next(
        word for word in tried if word and word not in taken and ("part", word) not in register.former.ids
    )
