"""Something goes elsewhere: a position into another group, an assembly to another position."""

from __future__ import annotations

from spanbook.editing.names import Guides, call, called_before
from spanbook.editing.plan import CannotChange, Desk, Plan
from spanbook.editing.things import Thing, free, named
from spanbook.ground.language import gettext as _
from spanbook.reading.nodes import Step
from spanbook.reading.records import Assembly, Record
from spanbook.reading.roles import Role
from spanbook.reading.walk import Leaf, walk
from spanbook.register.model import Register
from spanbook.register.renamed import among

TOP = "positions"


def move(register: Register, guides: Guides, what: str, where: str) -> Plan:
    """Move a position into a group (`positions` for the outermost), or an assembly to a position.

    Raises CannotChange.
    """
    thing = named(register, what)
    desk = Desk(register.records, guides)
    if isinstance(thing.record, Assembly):
        to = named(register, where)
        if to.sort != "position":
            raise CannotChange(_("{}: an assembly is moved to a position").format(where))
        _assembly(register, desk, thing.record, to.id)
    elif thing.sort == "position":
        _position(register, desk, thing, None if where.strip("/") == TOP else named(register, where))
    else:
        raise CannotChange(_("{}: only a position or an assembly is moved").format(what))
    return desk.plan()


def _position(register: Register, desk: Desk, thing: Thing, group: Thing | None) -> None:
    if group and (group.sort != "position" or f"{group.id}/".startswith(f"{thing.id}/")):
        raise CannotChange(
            _("{thing} cannot be moved into {group}; name another position").format(
                thing=thing.id, group=group.id
            )
        )
    id_ = f"{group.id}/{thing.word}" if group else thing.word
    free(register, thing, id_)
    _keep_machines(register, desk, thing.id, id_)
    with desk.draft(thing.record) as draft:
        called_before(draft, thing, id_)
    with desk.draft(thing.record) as draft:
        above, lines = draft.lines(thing.steps)
        around: tuple[Step, ...] = group.steps if group else ()
        if draft.has(*around, "positions"):
            draft.add_lines((*around, "positions"), lines, above)
        else:
            rest = (f"  {line}" for line in lines[1:])
            draft.put_lines(around, "positions", [*above, f"- {lines[0]}", *rest], after="title")
        draft.remove(thing.steps)
    call(register, desk, thing, id_)


def _keep_machines(register: Register, desk: Desk, was: str, now: str) -> None:
    """A machine that had the position in a group has it still; none gets it by having the other group."""
    for machine in register.machines.values():
        listed = machine.positions
        had, has = among(was, listed), among(now, [one for one in listed if one != was])
        if listed and had and not has and was not in listed:
            with desk.draft(machine) as draft:
                draft.add(("positions",), now)
        elif listed and has and not had:
            raise CannotChange(
                _(
                    "{path}: it has {group} and would get {position}, which it has not; list its positions "
                    "one by one first"
                ).format(path=machine.origin.path, group=now.rpartition("/")[0], position=now)
            )


def _assembly(register: Register, desk: Desk, assembly: Assembly, to: str) -> None:
    if to == assembly.position:
        raise CannotChange(_("{assembly} is at {to}").format(assembly=assembly.id, to=to))
    for record in register.records:
        places = [leaf for leaf in walk(record, Role.PLACE) if leaf.value == assembly.position]
        mine = [leaf for leaf in places if record is assembly or _only(record, leaf, assembly.id)]
        if mine:
            with desk.draft(record) as draft:
                for leaf in mine:
                    draft.replace(leaf.steps, to)


def _only(record: Record, place: Leaf, assembly: str) -> bool:
    """Whether what is named beside a place is this assembly and no other."""
    beside = {leaf.value for leaf in walk(record, Role.REFERENCE, to="assembly") if leaf.at == place.at}
    return beside == {assembly}
