"""Whose work the records are: everybody whom they name as having looked, told or made a picture."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from spanbook.reading.records import Figure, Record, StripDown, Teardown
from spanbook.reading.roles import Role
from spanbook.reading.walk import walk
from spanbook.register.model import Register


@dataclass(frozen=True, slots=True)
class Credit:
    """Somebody by the handle that the records have, with how many machines that one looked at, how many
    accounts of an assembly coming apart that one gave, and how many pictures that one made."""

    handle: str
    machines: int
    accounts: int
    pictures: int


def credits_of(register: Register) -> tuple[Credit, ...]:
    """Everybody in the order of their handles: nobody's work is weighed against another's."""
    machines, accounts, pictures = Counter[str](), Counter[str](), Counter[str]()
    for record in register.records:
        looked = record.seen_by if isinstance(record, Teardown | StripDown) else None
        if looked:
            (machines if isinstance(record, Teardown) else accounts)[looked] += 1
        pictures.update(filter(None, (_made_by(one, looked) for one in _figures(record))))
    handles = sorted({*machines, *accounts, *pictures}, key=lambda one: (one.casefold(), one))
    return tuple(Credit(one, machines[one], accounts[one], pictures[one]) for one in handles)


def _figures(record: Record) -> list[Figure]:
    return [leaf.holder for leaf in walk(record, Role.PICTURE) if isinstance(leaf.holder, Figure)]


def _made_by(figure: Figure, looked: str | None) -> str | None:
    """A picture on a machine is by the one who looked, unless it says otherwise."""
    return figure.made_by or looked
