"""Something is called otherwise: a record, a series, a position, a sign or the address of a span."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping

from spanbook.editing.links import led_on
from spanbook.editing.plan import CannotChange, Desk, Plan
from spanbook.editing.rewording import reword
from spanbook.editing.things import Thing, free, named, new_id
from spanbook.ground.language import gettext as _
from spanbook.reading.edit import Draft
from spanbook.reading.kinds import KINDS
from spanbook.reading.nodes import Step
from spanbook.reading.records import Assembly, Gone, Record
from spanbook.reading.roles import Role
from spanbook.reading.shapes import named_as
from spanbook.reading.walk import Leaf, walk
from spanbook.register.model import Register

Guides = Mapping[str, bytes]


def rename(register: Register, guides: Guides, what: str, word: str) -> Plan:
    """Give what an address names another id: of a position its last word, with `#` an anchor; with `=` an
    answer of a sign is worded otherwise.

    Raises CannotChange.
    """
    if "=" in what:
        return reword(register, Desk(register.records, guides), what, word)
    page, _mark, anchor = what.partition("#")
    thing = named(register, page)
    desk = Desk(register.records, guides)
    if anchor:
        _readdress(register, desk, thing, anchor, new_id(word))
        return desk.plan()
    group = thing.id.rpartition("/")[0]
    id_ = f"{group}/{new_id(word)}" if group else new_id(word)
    free(register, thing, id_)
    with desk.draft(thing.record) as draft:
        draft.replace((*thing.steps, "id"), word)
        called_before(draft, thing, id_)
    if not thing.steps:
        desk.rename(thing.record, id_)
    call(register, desk, thing, id_)
    return desk.plan()


def called_before(draft: Draft, thing: Thing, id_: str) -> None:
    """Among a thing's former names stands the one of today, and no longer the one that it gets."""
    before = _formerly(thing.record, thing.steps)
    if id_ in before:
        draft.replace((*thing.steps, "formerly", before.index(id_)), thing.id)
    else:
        draft.add_to(thing.steps, "formerly", [thing.id], after="id")


def _formerly(record: Record, steps: tuple[Step, ...]) -> list[str]:
    return [
        leaf.value for leaf in walk(record, Role.FORMER) if leaf.at == steps and leaf.steps[-2] == "formerly"
    ]


def call(register: Register, desk: Desk, thing: Thing, id_: str, without: Collection[Record] = ()) -> None:
    """Everything that names a thing, or a position inside it, names it by another id; links lead there.

    A list that has the other id already loses the one. Records `without` which it goes are passed over.
    """
    ids = {thing.id: id_}
    if thing.sort == "position":
        inside = (one for one in register.positions if one.startswith(f"{thing.id}/"))
        ids |= {one: f"{id_}{one[len(thing.id) :]}" for one in inside}
    sort = named_as(thing.sort) if thing.sort in KINDS else thing.sort
    for record in register.records:
        leaves = walk(record, Role.REFERENCE, Role.PLACE, to=sort)
        places = [leaf for leaf in leaves if leaf.value in ids and record not in without]
        if places:
            with desk.draft(record) as draft:
                for leaf in places:
                    _call_one(draft, leaf, ids[leaf.value])
    pages = {f"{thing.top}/{was}": f"{thing.top}/{now}" for was, now in ids.items()}
    if thing.sort == "series":
        pages |= {f"open-questions/{was}": f"open-questions/{now}" for was, now in ids.items()}
    if thing.sort not in ("part", "sign"):  # they have no page of their own
        lead_on(register, desk, pages)


def _call_one(draft: Draft, leaf: Leaf, id_: str) -> None:
    others = set(getattr(leaf.holder, leaf.slot.attribute)) - {leaf.value} if leaf.slot.many else set[str]()
    if id_ not in others:
        draft.replace(leaf.steps, id_)
    elif leaf.slot.key == "one-of" and others == {id_}:
        draft.rekey(leaf.steps[:-1], "assembly", id_)
    else:
        draft.remove(leaf.steps)


def lead_on(register: Register, desk: Desk, pages: Mapping[str, str]) -> None:
    """Every link in notes, in guides and in the list of what is gone leads to the other page."""

    def mend(text: str) -> str:
        return led_on(text, pages)

    for record in register.records:
        places = [leaf.steps for leaf in walk(record, Role.MARKDOWN) if mend(leaf.value) != leaf.value]
        if isinstance(record, Gone):
            gone = ((i, one.address) for i, one in enumerate(record.pages))
            places += [("pages", i, "address") for i, one in gone if "#" in one and mend(one) != one]
        if not desk.gone(record):
            _within(desk, record, places, mend)
    for path in desk.guides:
        text = desk.text(path)
        if (new := mend(text)) != text:
            desk.write(path, new)


def _within(desk: Desk, record: Record, places: list[tuple[Step, ...]], change: Callable[[str], str]) -> None:
    if places:
        with desk.draft(record) as draft:
            for steps in places:
                draft.within(steps, change)


def _readdress(register: Register, desk: Desk, thing: Thing, anchor: str, new: str) -> None:
    """A span of an assembly gets another anchor."""
    said = register.statements_of.get(thing.record, ())
    statement = next((s for s in said if s.anchor == anchor), None)
    if statement is None or not isinstance(thing.record, Assembly) or statement.path[0] != "serials":
        spans = ", ".join(s.anchor for s in said if s.path and s.path[0] == "serials")
        told = (
            _("{address}: only a span's anchor is given; its spans have {spans}")
            if spans
            else _("{address}: only a span's anchor is given")
        )
        raise CannotChange(told.format(address=f"{thing.top}/{thing.id}#{anchor}", spans=spans))
    if other := next(
        (s for s in said if new == s.anchor or (new in s.formerly and s is not statement)), None
    ):
        raise CannotChange(
            _("#{new} is there already, or led to #{other}; choose another").format(
                new=new, other=other.anchor
            )
        )
    with desk.draft(thing.record) as draft:
        if draft.has(*statement.path, "anchor"):
            draft.replace((*statement.path, "anchor"), new)
        else:
            draft.put(statement.path, "anchor", new, after="last")
        before = _formerly(thing.record, statement.path)
        if new in before:
            draft.replace((*statement.path, "formerly", before.index(new)), anchor)
        else:
            draft.add_to(statement.path, "formerly", [anchor], after="last")
