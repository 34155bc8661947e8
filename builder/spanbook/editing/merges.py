"""Two records of one thing become one: what only the other had comes to it, and its addresses lead on."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from spanbook.editing.names import Guides, call
from spanbook.editing.plan import CannotChange, Desk, Plan
from spanbook.editing.things import Thing, named
from spanbook.ground.language import gettext as _
from spanbook.reading import yaml
from spanbook.reading.edit import Draft, comments
from spanbook.reading.nodes import Mapping, Node, Scalar, Sequence, plain
from spanbook.reading.records import Assembly, PartRecord, Record
from spanbook.reading.roles import Role
from spanbook.reading.walk import walk
from spanbook.register.model import Register

# What tells an item of a list from the others of it, where that is not all that it says.
_TELLS = {
    "parts": ("number", "by"),
    "adds": ("number", "by"),
    "removes": ("number", "by"),
    "stack": ("number", "by", "piece"),
    "sizes": ("what",),
    "serials": ("series", "first", "last", "fitted", "option"),
    "marks": ("text",),
}
_OWN = ("kind", "id", "formerly")


def merge(register: Register, guides: Guides, what: str, into: str) -> Plan:
    """Put what `what` names together with what `into` names, which stays. Raises CannotChange."""
    one, other = named(register, what), named(register, into)
    _alike(register, one, other)
    desk = Desk(register.records, guides)
    if one.steps:
        _inside(register, desk, one, other)
    else:
        _take_over(desk, one.record, other.record)
    with desk.draft(other.record) as draft:
        draft.add_to(other.steps, "formerly", [one.id, *_formerly(one)], after="id")
    if one.steps:
        with desk.draft(one.record) as draft:
            draft.remove(one.steps)
    else:
        desk.remove(one.record)
    call(register, desk, one, other.id, () if one.steps else (one.record,))
    return desk.plan()


def _alike(register: Register, one: Thing, other: Thing) -> None:
    said = _("{first} and {last}").format(first=f"{one.top}/{one.id}", last=f"{other.top}/{other.id}")
    if one.sort != other.sort or one.id == other.id:
        raise CannotChange(_("{}: name two things of one sort").format(said))
    match one.record, other.record:
        case Assembly(position=mine), Assembly(position=others) if mine != others:
            raise CannotChange(_("{} are at different positions; move one of them first").format(said))
        case PartRecord() as mine, PartRecord() as others:
            if register.key_of_record(mine) != register.key_of_record(others):
                raise CannotChange(_("{} are of different numbers; renumber one of them first").format(said))
    if one.sort == "position" and (register.positions[one.id].below or register.positions[other.id].below):
        raise CannotChange(_("{}: there are positions inside; move those first").format(said))


def _formerly(thing: Thing) -> list[str]:
    return [
        leaf.value
        for leaf in walk(thing.record, Role.FORMER)
        if leaf.at == thing.steps and leaf.steps[-2] == "formerly"
    ]


def _inside(register: Register, desk: Desk, one: Thing, other: Thing) -> None:
    """Spans of two series that become one keep their addresses apart."""
    if one.sort != "series":
        return
    for assembly in register.assemblies.values():
        taken = {span.anchor or f"span-{span.series}" for span in assembly.serials}
        if f"span-{other.id}" in taken:
            with desk.draft(assembly) as draft:
                for i, span in enumerate(assembly.serials):
                    if span.series == one.id and span.anchor is None:
                        draft.put(("serials", i), "anchor", f"span-{one.id}", after="series")


def _take_over(desk: Desk, one: Record, other: Record) -> None:
    gives, has = yaml.read(one.origin.data), yaml.read(other.origin.data)
    assert isinstance(gives, Mapping), "a record is a mapping"
    assert isinstance(has, Mapping), "a record is a mapping"
    source = Draft(one.origin.data)
    last = list(has.values)[-1]
    shared = [key for key in gives.values if key in has.values and key not in _OWN]
    with desk.draft(other) as draft:
        for key in shared:
            node, mine = gives.values[key], has.values[key]
            if isinstance(node, Sequence) and isinstance(mine, Sequence):
                for i, item in enumerate(node.items):
                    _take_item(source, draft, key, i, item, mine)
            elif key == "notes":
                notes, ours = str(plain(node)).strip(), str(plain(mine)).strip()
                if notes != ours:
                    draft.write_block((key,), f"{ours}\n\n{notes}")
    with desk.draft(other) as draft:
        for key in gives.values:
            if key not in has.values and key not in _OWN:
                draft.put_raw(source.key_lines(key), after=last)
    told = Counter(comments(desk.data(other))) - Counter(comments(other.origin.data))
    left = Counter(comments(one.origin.data)) - told
    if left:
        desk.append(other, "\n".join(left.elements()))


def _take_item(source: Draft, draft: Draft, key: str, i: int, item: Node, mine: Sequence) -> None:
    """An item that the other list has not comes to its end; of one that it has, what it rests on."""
    there = next((j for j, one in enumerate(mine.items) if _tells(key, one) == _tells(key, item)), None)
    if there is None:
        above, lines = source.lines((key, i))
        if key == "serials" and isinstance(item, Mapping) and "anchor" not in item.values:
            lines = _with_anchor(lines, item, mine)
        draft.add_lines((key,), lines, above)
        return
    same = mine.items[there]
    if not (isinstance(item, Mapping) and isinstance(same, Mapping)):
        return
    evidence, held = item.values.get("evidence"), same.values.get("evidence")
    if isinstance(evidence, Sequence) and isinstance(held, Sequence):
        known = [plain(piece) for piece in held.items]
        for piece in evidence.items:
            if plain(piece) not in known:
                draft.add((key, there, "evidence"), plain(piece))
    elif isinstance(evidence, Sequence):
        draft.put((key, there), "evidence", plain(evidence), after=list(same.values)[-1])
    anchors = [*_texts(item.values.get("anchor")), *_texts(item.values.get("formerly"))]
    kept = [*_texts(same.values.get("anchor")), *_texts(same.values.get("formerly"))]
    if new := [anchor for anchor in anchors if anchor not in kept]:
        draft.add_to((key, there), "formerly", list(new), after=next(iter(same.values)))


def _with_anchor(lines: list[str], item: Mapping, mine: Sequence) -> list[str]:
    """Another span in a series in which there is one needs an address of its own."""
    series = plain(item.values["series"])
    spans = [one for one in mine.items if isinstance(one, Mapping)]
    if all(plain(one.values["series"]) != series or "anchor" in one.values for one in spans):
        return lines
    first, *rest = lines
    anchor = f"anchor: span-{series}-{len(spans) + 1}"
    if first.startswith("{"):
        return [first.replace("{", f"{{{anchor}, ", 1), *rest]
    return [anchor, first, *rest]


def _tells(key: str, node: Node) -> object:
    keys = _TELLS.get(key)
    if not keys or not isinstance(node, Mapping):
        return plain(node)
    return tuple(plain(node.values[one]) if one in node.values else None for one in keys)


def _texts(node: Node | None) -> Iterator[str]:
    if isinstance(node, Scalar):
        yield node.text
    elif isinstance(node, Sequence):
        yield from (item.text for item in node.items if isinstance(item, Scalar))
